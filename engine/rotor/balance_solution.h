// From influence coefficients to the unbalance the rotor has now, the correction that cancels it, and how
// sure both are.
//
// The unbalance u that explains the readings solves v₀ = α u; with more sensors than planes it minimises the
// vibration that is left, each sensor divided by its largest amplitude so that sensors in different units
// count alike. What the rotor has now is u plus what is fitted in the last run; the correction is its
// opposite. First-order propagation of every coefficient's covariance gives the correction's (JCGM 100:2008,
// 5.1 in matrix form):
//     du = (αᴴα)⁻¹ [αᴴ(dv₀ - dα u) + dαᴴ(v₀ - α u)].
#pragma once

#include <array>
#include <complex>
#include <limits>
#include <optional>
#include <span>
#include <vector>

#include "engine/rotor/balance_influence.h"

namespace pumpwright::rotor {

// A vector with its doubt, in the common sense of balance_angles.h.
struct UnbalanceEstimate {
  std::complex<double> value;                       // [kg·m]
  std::optional<std::array<double, 4>> covariance;  // [kg²·m²] of (Re, Im), row by row
  double dof = std::numeric_limits<double>::infinity();

  // Standard uncertainty of the amount: along the vector, or the larger half-axis when zero lies inside the
  // 95 % region of the vector (then the amount itself is overstated by its own noise).
  std::optional<Unbalance> amount_u() const;
};

struct BalanceSolution {
  std::vector<UnbalanceEstimate> remaining;      // one for each plane: the unbalance in the last run's state
  std::vector<std::complex<double>> correction;  // [kg·m] to be added to that state
  std::vector<VibrationVector> left_over;        // one for each sensor, predicted after the correction
  // Of α, rows scaled as above and columns to equal length: 1 when the planes act at right angles to each
  // other.
  double condition = 1;
  // False when an α that can not be inverted lies within twice the standard uncertainty of this one; without
  // any uncertainty, when `condition` is above condition_trusted. The correction is then not to be fitted.
  bool told_apart = true;
  std::vector<double> covariance;  // of (Re, Im) of all planes' remaining, row by row; empty when unknown
  double dof = std::numeric_limits<double>::infinity();
};

// Our own figure: beyond it an error of one reading in a hundred grows to a third of the answer.
inline constexpr double condition_trusted = 30;

// `influence` as influence_of(data) gives it. Throws BadInput "runs" when the fitted weights change nothing.
BalanceSolution solve_balance(const BalanceRuns& data, const std::vector<SensorInfluence>& influence);

// The same unbalance as seen in two other planes (bearings), by the rules of levers: in plane a: Σ U_p (b -
// z_p)/(b - a). `at` holds the place of each correction plane along the shaft. BadInput "rotor/bearings" when
// a and b are one plane.
std::array<UnbalanceEstimate, 2> seen_at(const BalanceSolution& solution, std::span<const Length> at,
                                         Length a, Length b);

}  // namespace pumpwright::rotor
