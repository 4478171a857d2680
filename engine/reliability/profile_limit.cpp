#include "engine/reliability/profile_limit.h"

#include <algorithm>
#include <cmath>

namespace pumpwright::reliability {
namespace {

constexpr int steps_max = 200;
constexpr double precision = 1e-9;
constexpr double growth = 2;  // of the distance while the limit still lies further out

}  // namespace

std::optional<double> profile_limit(const std::function<ProfilePoint(double)>& profile,
                                    const ProfileMaximum& maximum, double first_step, double z,
                                    double reach) {
  // All as distances from the estimate, outwards.
  const double direction = first_step < 0 ? -1 : 1;
  double inside = 0;
  std::optional<double> outside;
  double here = std::fabs(first_step);
  for (int step = 0; step < steps_max; ++step) {
    const ProfilePoint point = profile(maximum.at + direction * here);
    const double fall = std::sqrt(2 * std::max(0.0, maximum.log_likelihood - point.log_likelihood));
    const bool is_beyond = !(fall < z);
    if (is_beyond)
      outside = here;
    else
      inside = here;
    double next = here + (fall - z) * fall / (direction * point.slope);
    if (std::fabs(next - here) <= precision * std::fabs(first_step)) return maximum.at + direction * next;
    const double farthest = outside.value_or(growth * here);
    if (!(next > inside && next < farthest)) next = outside ? (inside + *outside) / 2 : growth * here;
    if (!outside && next > reach) return std::nullopt;
    here = next;
  }
  return maximum.at + direction * here;
}

}  // namespace pumpwright::reliability
