// The number part of what hands write: decimals with point or comma, fractions, mixed fractions. Used by the
// parser, and by the formatter to prove that a text comes back as the same double.
#pragma once

#include <string>
#include <string_view>

#include "engine/quantity/kind.h"
#include "engine/quantity/unit.h"

namespace pumpwright {

// Says why a text can not be read, as BadInput with the field and what would be valid there. Costs nothing
// until then; the texts it is made of must outlive it.
class Refusal {
 public:
  using Expected = std::string (*)(Kind);  // what would be valid for a kind, as a phrase

  Refusal(std::string_view field, std::string_view text, Kind kind, Expected expected)
      : field_(field), text_(text), kind_(kind), expected_(expected) {}

  [[noreturn]] void because(const std::string& why) const;

 private:
  std::string_view field_;
  std::string_view text_;
  Kind kind_;
  Expected expected_;
};

// numerator / denominator, both whole unless the exponent is beyond ±27.
struct WrittenNumber {
  bool negative = false;
  long double numerator = 0;
  long double denominator = 1;
  std::string decimal;    // as std::from_chars takes it, without sign; empty for fractions
  int decimals = 0;       // as in Written
  double last_place = 1;  // one unit of the last written place, in the unit of the number
};

// Takes a number without sign off the front of `rest`, which is plain text (plain_text.h).
WrittenNumber read_number(std::string_view& rest, const Refusal& refusal);

// The number in its own unit, and in SI. Zero has no sign. Not a number when the result is too large or too
// small for a double.
double value_of(const WrittenNumber& number);
double si_of(const WrittenNumber& number, const Unit& unit);

}  // namespace pumpwright
