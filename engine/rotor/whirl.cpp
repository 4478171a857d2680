#include "engine/rotor/whirl.h"

#include <algorithm>
#include <cmath>

#include <Eigen/Eigenvalues>

#include "engine/assembly/input_check.h"

namespace pumpwright::rotor {
namespace {

// Roots of `left` x = root `right` x for symmetric `left` and positive definite `right`, ascending.
Eigen::VectorXd roots(const Eigen::MatrixXd& left, const Eigen::MatrixXd& right) {
  const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> solver(left, right, Eigen::EigenvaluesOnly);
  return solver.eigenvalues();
}

void require_count(int count) {
  require_between(count, 1, 20, "count", "1 to 20 modes");
}

// Speeds from the roots 1/w² of (M -+ G) x = (1/w²) K x; only positive ones are speeds, the largest root is
// the lowest speed.
std::vector<Speed> speeds_of(const Eigen::MatrixXd& inertia, const Eigen::MatrixXd& stiffness, int count) {
  const Eigen::VectorXd inverse_squares = roots(inertia, stiffness);
  std::vector<Speed> speeds;
  for (Eigen::Index i = inverse_squares.size() - 1; i >= 0 && inverse_squares(i) > 0; --i) {
    if (static_cast<int>(speeds.size()) == count) break;
    speeds.push_back(radians_per_second(1 / std::sqrt(inverse_squares(i))));
  }
  return speeds;
}

}  // namespace

std::vector<WhirlMode> whirl_modes(const RotorMatrices& m, Speed running, int count) {
  require_between(running.value(), 0, 20'000, "speed", "a speed from 0 to 20000 rad/s");
  require_count(count);
  const Eigen::MatrixXd mass = free_part(m, m.mass);
  const Eigen::Index n = mass.rows();
  Eigen::MatrixXd left = Eigen::MatrixXd::Zero(2 * n, 2 * n);
  Eigen::MatrixXd right = left;
  left.topLeftCorner(n, n) = -running.value() * free_part(m, m.gyroscopic);
  left.topRightCorner(n, n) = mass;
  left.bottomLeftCorner(n, n) = mass;
  right.topLeftCorner(n, n) = free_part(m, m.stiffness);
  right.bottomRightCorner(n, n) = mass;
  const Eigen::VectorXd inverse = roots(left, right);  // the lowest frequencies stand at both ends
  const Eigen::Index each = std::min<Eigen::Index>(count, n);
  std::vector<WhirlMode> modes;
  for (Eigen::Index i = 0; i < each; ++i) {
    modes.push_back({radians_per_second(1 / inverse(2 * n - 1 - i)), true});
    modes.push_back({radians_per_second(-1 / inverse(i)), false});
  }
  std::stable_sort(modes.begin(), modes.end(),
                   [](const WhirlMode& a, const WhirlMode& b) { return a.frequency < b.frequency; });
  return modes;
}

CriticalSpeeds critical_speeds(const RotorMatrices& m, int count) {
  require_count(count);
  const Eigen::MatrixXd stiffness = free_part(m, m.stiffness);
  const Eigen::MatrixXd mass = free_part(m, m.mass);
  const Eigen::MatrixXd gyroscopic = free_part(m, m.gyroscopic);
  return {speeds_of(mass - gyroscopic, stiffness, count), speeds_of(mass + gyroscopic, stiffness, count)};
}

}  // namespace pumpwright::rotor
