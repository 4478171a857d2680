// How many returns must be seen before a comparison of two groups can settle anything; that, not the number
// of pumps, is what decides.
//
// With `ratio` the rate of return of the second group over the first, `share` the part of the pumps in the
// second group, and z quantiles of the normal distribution for a two-sided test:
//   Schoenfeld  (z_{1-α/2} + z_power)² / (share·(1-share)·ln²ratio)    Biometrika 68 (1981) 316-319 and
//               Biometrics 39 (1983) 499-503
//   Freedman    (z_{1-α/2} + z_power)²·((1+ratio)/(1-ratio))², two equal groups   Stat. Med. 1 (1982) 121-129
// Both formulas remembered; Schoenfeld's reproduces figures printed in BMC Trials 16 (2015) 213, table 1.
#pragma once

namespace pumpwright::reliability {

struct TestPlan {
  double confidence = 0.95;  // 1 - α, above 0 and below 1
  double power = 0.8;        // chance to prove a difference that is there, above 0 and below 1
};

// Not rounded. ratio > 0 and not 1, 0 < share < 1. Throws BadInput ("ratio", "share", "confidence", "power").
double returns_to_settle(double ratio, double share, const TestPlan& plan = {});
double returns_to_settle_freedman(double ratio, const TestPlan& plan = {});

// Chance that `returns` returns in all prove a true `ratio` (Schoenfeld's formula turned round).
double power_with(double returns, double ratio, double share, double confidence = 0.95);

}  // namespace pumpwright::reliability
