// Influence coefficients from balancing runs, by least squares over every run there is.
//
// In each run some weights are on the rotor (trial weights, corrections; in one plane or several, kept from
// the run before or taken off again) and each sensor reads one vibration vector. For one sensor
//     v = v₀ + Σ_p α_p U_p
// with U_p the sum of what is fitted in plane p. v₀ and the α of all planes come out together: three runs for
// two planes when there are just enough, all of them weighed when there are more. Nothing is assumed about
// the machine but that it answers in proportion and that only what is stated changed.
//
// Doubt about a reading: u_a of its amplitude along the vector; across it the larger of u_a and amplitude ·
// u_φ, because the phase of a small vector is no better known than its length. With both stated the fit is
// weighted by them; when the runs scatter more than that (residual mean square s² > 1), the covariance is
// multiplied by s² and carries the residuals' degrees of freedom. Without them the readings weigh alike and
// the doubt comes from the residuals alone (none when no run is left over).
//
// Source: influence coefficients in complex numbers as in the textbooks of mechanical vibration; least
// squares: ordinary linear regression.
#pragma once

#include <complex>
#include <cstddef>
#include <limits>
#include <optional>
#include <vector>

#include "engine/rotor/balance_angles.h"

namespace pumpwright::rotor {

inline constexpr std::size_t planes_max = 2;
inline constexpr std::size_t sensors_max = 8;
inline constexpr std::size_t runs_max = 100;

struct ReadingDoubt {
  double amplitude_u = 0;  // standard uncertainty, in the unit of the amplitude, > 0
  Angle phase_u{};         // [rad] standard uncertainty, > 0
};

// What is on the rotor, or (removed) what was taken out of it.
struct FittedWeight {
  std::size_t plane = 0;
  UnbalanceVector unbalance;
  bool removed = false;
};

struct BalanceRun {
  std::vector<FittedWeight> fitted;
  std::vector<VibrationVector> readings;  // one for each sensor
};

struct BalanceRuns {
  AngleSense sense;
  std::size_t planes = 1;
  std::vector<std::optional<ReadingDoubt>> sensors;  // one for each sensor: its doubt, where known
  std::vector<BalanceRun> runs;                      // the last one is the state the rotor is in
};

// What one sensor's readings give, in the common sense of balance_angles.h.
struct SensorInfluence {
  std::complex<double> base;                // v₀: nothing fitted
  std::vector<std::complex<double>> alpha;  // one for each plane [amplitude/(kg·m)]
  // Of (Re v₀, Im v₀, Re α₁, Im α₁, …), row by row; empty when nothing is known about it.
  std::vector<double> covariance;
  double dof = std::numeric_limits<double>::infinity();
  std::optional<double> residual_scale;  // s: over 1 when runs scatter more than the stated doubt
};

// One for each sensor. Throws BadInput "runs" when there are fewer than planes + 1 or more than runs_max,
// when the weights of the runs do not tell the planes from v₀ and from each other (a plane in which nothing
// was ever fitted, two planes always changed in proportion), "planes", "sensors" for counts out of range (at
// least as many sensors as planes), and for values that are not finite or negative.
std::vector<SensorInfluence> influence_of(const BalanceRuns& data);

// Everything fitted in plane `plane` in that run, less what was removed [kg·m], in the common sense.
std::complex<double> fitted_in(const BalanceRun& run, std::size_t plane, const AngleSense& sense);

}  // namespace pumpwright::rotor
