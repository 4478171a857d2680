#include "engine/hydraulics/pipe_friction.h"

#include <cmath>

#include "engine/assembly/input_check.h"
#include "engine/hydraulics/test_point.h"

namespace pumpwright::hydraulics {
namespace {

constexpr double laminar_to = 2300;
constexpr double turbulent_from = 4000;

// Newton in x = 1/√f: the function is convex and rising, so that it converges from any start above 0.
double colebrook(double reynolds, double roughness) {
  double x = 8;
  for (int i = 0; i < 50; ++i) {
    const double inside = roughness / 3.7 + 2.51 * x / reynolds;
    const double gap = x + 2 * std::log10(inside);
    const double slope = 1 + 2 * 2.51 / (reynolds * inside * std::log(10.0));
    const double step = gap / slope;
    x -= step;
    if (std::abs(step) < 1e-15 * x) break;
  }
  return 1 / (x * x);
}

}  // namespace

double friction_factor(double reynolds, double roughness) {
  require_that(reynolds > 0 && reynolds <= 1e9, reynolds, "reynolds",
               "a Reynolds number over 0, at most 1e9");
  require_between(roughness, 0, 0.1, "roughness", "a relative roughness from 0 to 0.1");
  if (reynolds <= laminar_to) return 64 / reynolds;
  if (reynolds >= turbulent_from) return colebrook(reynolds, roughness);
  const double share = (reynolds - laminar_to) / (turbulent_from - laminar_to);
  return (1 - share) * 64 / laminar_to + share * colebrook(turbulent_from, roughness);
}

PipeLoss pipe_loss(const Pipe& pipe, VolumeFlow flow, KinematicViscosity viscosity) {
  require_between(pipe.length.value(), 0, 1e6, "length", "a length from 0 to 1000 km");
  require_between(pipe.bore.value(), 1e-3, 10, "bore", "a bore from 1 mm to 10 m");
  require_between(pipe.roughness.value(), 0, pipe.bore.value() / 10, "roughness",
                  "a roughness from 0 to a tenth of the bore");
  require_between(pipe.fittings, 0, 1e6, "fittings", "a sum of loss factors from 0 to 1e6");
  require_between(viscosity.value(), 1e-8, 1, "viscosity", "a kinematic viscosity over 0");
  require_between(flow.value(), 0, 1000, "flow", "a flow not below 0");
  PipeLoss loss;
  if (flow.value() == 0) return loss;
  const double bore_m = pipe.bore.value();
  const double v_m_s = flow.value() / (pi / 4 * bore_m * bore_m);
  loss.velocity = metres_per_second(v_m_s);
  loss.reynolds = v_m_s * bore_m / viscosity.value();
  loss.friction = friction_factor(loss.reynolds, pipe.roughness / pipe.bore);
  loss.transitional = loss.reynolds > laminar_to && loss.reynolds < turbulent_from;
  loss.head = metres((loss.friction * pipe.length.value() / bore_m + pipe.fittings) * v_m_s * v_m_s /
                     (2 * standard_gravity_m_s2));
  return loss;
}

}  // namespace pumpwright::hydraulics
