// A quantity whose kind is known only when the program runs: what a check measures and what a limit bounds.
#pragma once

#include <string>

#include "engine/quantity/kind.h"

namespace pumpwright {

// `si` is in the SI unit of `kind`. Two amounts are compared only when their kinds agree (asserted where it
// matters).
struct Amount {
  Kind kind = Kind::length;
  double si = 0;
  bool operator==(const Amount&) const = default;
};

// An amount together with what the hand or the sheet wrote.
struct WrittenAmount {
  Amount amount;
  std::string text;
  bool operator==(const WrittenAmount&) const = default;
};

}  // namespace pumpwright
