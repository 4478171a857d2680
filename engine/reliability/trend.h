// Does the same pump come back more and more often? Returns of pumps that are put right and go out again, as
// a power law of their age (Crow-AMSAA).
//
// Returns of one pump up to age t: (t/η)^β on average. β = 1: a constant rate; above 1: more and more often;
// below 1: less and less often. L. H. Crow, in Reliability and Biometry, SIAM 1974, 379-410; MIL-HDBK-189
// (1981), appendix C; NIST/SEMATECH e-Handbook 8.4.5.2 (the second read, the others remembered).
//
// Maximum likelihood over several pumps, each watched from new to an age of its own. Given how many returns
// each pump had, the ages are as drawn from t^β, so S = ΣΣ ln(T/t) gives exact statements whatever η is: 2βS
// has the χ² distribution with 2M degrees of freedom, where M counts the returns, but not one that ended the
// watching of its pump (failure-terminated). From it come the interval of β, the trend test (β = 1), and the
// corrected estimate (M-1)/S, whose mean is β.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "engine/quantity/quantity.h"

namespace pumpwright::reliability {

// One pump from new on; ages count running (or calendar) time over all its builds.
struct History {
  std::vector<Time> returns;  // ages at which it came back, ascending, > 0; two may be the same
  Time until;  // age up to which it was watched, >= the last return; equal to it: failure-terminated
};

struct Trend {
  std::size_t pumps = 0;
  std::size_t returned = 0;
  double shape = 0;                         // β, maximum likelihood
  Time scale{};                             // η
  std::optional<double> corrected_shape{};  // (M-1)/S, needs M > 1
  double shape_low = 0;                     // exact interval of β
  double shape_high = 0;
  double test_chi_square = 0;  // 2S
  double test_dof = 0;         // 2M
  double p = 1;                // two-sided chance of so strong a trend at a constant rate
  Time age{};                  // the longest watched
  Time mean_at_age{};          // mean time between returns of a pump of that age: 1/(β/η·(age/η)^(β-1))
  Time mean_at_age_low{};      // profile-likelihood interval of it
  Time mean_at_age_high{};
};

// Nothing when there is no return before the end of watching (M = 0). Throws BadInput ("histories",
// "histories/1/until", "histories/1/returns/0"). 0 < confidence < 1.
std::optional<Trend> trend(std::span<const History> histories, double confidence = 0.95);

}  // namespace pumpwright::reliability
