#include "job/sheets/vibration_finding.h"

#include <cmath>
#include <limits>

namespace pumpwright::job {
namespace {

Outcome judged_against(Velocity rms, Velocity u, Velocity limit) {
  decision_si::Input in;
  in.upper = limit.value();
  in.value = rms.value();
  in.u = u.value();
  in.dof = std::numeric_limits<double>::infinity();
  in.never_negative = true;
  return decision_si::decide(in, Guarded{}).outcome;
}

}  // namespace

JudgedPlace judged_place(const std::string& place, Velocity rms, Velocity u,
                         const std::optional<vibration::ZoneLimits>& limits) {
  JudgedPlace judged{place, rms, u, {}, Outcome::unproven};
  if (!limits) return judged;
  judged.zone = vibration::zone_of(rms, *limits);
  judged.by_figures = judged_against(rms, u, limits->b_to_c);
  return judged;
}

Velocity meter_u(Velocity rms, double error) {
  return rms * (error / std::sqrt(3.0));
}

VibrationFinding vibration_finding(const VibrationSheet& sheet) {
  VibrationFinding f;
  if (sheet.category) f.limits = vibration::zone_limits(*sheet.category, sheet.power->quantity().as<Power>());
  for (const auto& read : sheet.overall) {
    const auto rms = read.velocity.quantity().as<Velocity>();
    f.places.push_back(judged_place(read.place, rms, meter_u(rms, sheet.meter_error), f.limits));
  }
  return f;
}

}  // namespace pumpwright::job
