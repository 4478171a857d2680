// Counts over many synthetic pumps how often the attribution of runout names what was planted.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "tests/support/synthetic_rotor.h"

namespace pumpwright::testing {

struct Count {
  int cases = 0;
  int right = 0;          // the best assumption is the planted one, or reads the same at every station
  int right_alone = 0;    // of these: and nothing else reads the same
  int decided = 0;        // a culprit was named without "or"
  int decided_wrong = 0;  // of these, wrong
  int in_region = 0;      // planted vectors inside the 95 % region stated for them
  int regions = 0;

  double share_right() const { return cases == 0 ? 0 : static_cast<double>(right) / cases; }
  double share_in_region() const { return regions == 0 ? 0 : static_cast<double>(in_region) / regions; }
  Count& operator+=(const Count& o);
};

struct Figures {
  std::map<std::string, Count> planted;                     // by what was planted
  std::map<std::string, std::map<std::string, int>> named;  // planted → named → how often, when wrong

  Count all() const;
};

// "sleeve-not-home", "bent-shaft + indicator-loose: sleeve", "nothing".
template <class Chain>
std::string name_of(const std::vector<true_running::NamedError<Chain>>& errors);

// One case, scored. True when it was right.
template <class Chain>
bool score(std::uint64_t number, const std::vector<true_running::NamedError<Chain>>& planted,
           const SyntheticShop& shop, Figures& figures);

// `cases` cases over both chains, every error (and none) planted in turn.
Figures single_faults(int cases, const SyntheticShop& shop);

struct TwoFaults {
  Count anywhere;    // two different errors of parts drawn from both chains
  Count same_chain;  // those of them that fell into one chain
};
TwoFaults two_faults(int cases, const SyntheticShop& shop);

// The confusion table as Markdown.
std::string confusion_table(const Figures& figures);

}  // namespace pumpwright::testing
