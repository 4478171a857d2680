#include "engine/hydraulics/viscosity_correction.h"

#include <cmath>

#include "engine/assembly/input_check.h"
#include "engine/hydraulics/specific_speed.h"

namespace pumpwright::hydraulics {
namespace {

constexpr double cst = 1e-6;

double checked_cst(KinematicViscosity viscosity) {
  const double nu = viscosity.value() / cst;
  require_between(nu, 0.1, 4000, "viscosity", "a kinematic viscosity from 0.1 to 4000 cSt");
  return nu;
}

ViscosityFactors factors_of(double b) {
  require_that(b < 40, b, "viscosity", "a parameter B under 40 (thinner liquid, larger or faster pump)");
  ViscosityFactors f;
  f.b = b;
  if (b <= 1) return f;
  f.flow = std::pow(2.71, -0.165 * std::pow(std::log10(b), 3.15));
  f.efficiency = std::pow(b, -0.0547 * std::pow(b, 0.69));
  return f;
}

void require_positive(VolumeFlow flow, Length head) {
  require_between(flow.value(), 1e-9, 100, "flow", "a flow over 0");
  require_between(head.value(), 1e-3, 1e5, "head", "a head over 0");
}

}  // namespace

double ViscosityFactors::head_at(double part) const {
  return 1 - (1 - flow) * std::pow(part, 0.75);
}

ViscosityFactors viscosity_factors(const WaterBest& best, KinematicViscosity viscosity) {
  require_positive(best.flow, best.head);
  require_that(best.speed.value() > 0, best.speed.value(), "speed", "a speed over 0");
  const double nu_cst = checked_cst(viscosity);
  const double q_m3_h = best.flow.value() * 3600, h_m = best.head.value(),
               n_rpm = best.speed.value() * 30 / pi;
  ViscosityFactors f = factors_of(16.5 * std::sqrt(nu_cst) * std::pow(h_m, 0.0625) /
                                  (std::pow(q_m3_h, 0.375) * std::pow(n_rpm, 0.25)));
  if (q_m3_h < 3 || q_m3_h > 260) f.outside.emplace_back("flow");
  if (h_m < 6 || h_m > 130) f.outside.emplace_back("head");
  if (nu_cst > 3000) f.outside.emplace_back("viscosity");
  if (specific_speed(best.speed, best.flow, best.head).us > 3000) f.outside.emplace_back("specific speed");
  return f;
}

WaterDuty water_duty(VolumeFlow flow, Length head, KinematicViscosity viscosity) {
  require_positive(flow, head);
  const double q_m3_h = flow.value() * 3600;
  WaterDuty duty;
  duty.factors = factors_of(2.80 * std::sqrt(checked_cst(viscosity)) /
                            (std::pow(q_m3_h, 0.25) * std::pow(head.value(), 0.125)));
  duty.flow = flow / duty.factors.flow;
  duty.head = head / duty.factors.flow;
  return duty;
}

}  // namespace pumpwright::hydraulics
