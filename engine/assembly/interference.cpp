#include "engine/assembly/interference.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "engine/assembly/input_check.h"

namespace pumpwright {
namespace {

void require_valid(const ElasticMaterial& material, const std::string& field) {
  require_between(material.youngs_modulus.value(), 1e6, 2e12, field + "/youngs_modulus",
                  "a modulus from 1 MPa to 2000 GPa");
  require_that(material.poisson >= 0 && material.poisson < 0.5, material.poisson, field + "/poisson",
               "Poisson's ratio from 0 to below 0.5");
}

void require_valid(const PressFit& fit) {
  const double d_m = fit.contact_diameter.value();
  require_that(std::isfinite(d_m) && d_m > 0, d_m, "contact diameter", "a diameter over 0");
  require_that(std::isfinite(fit.hub_outside.value()) && fit.hub_outside > fit.contact_diameter,
               fit.hub_outside.value(), "hub outside", "a diameter larger than the contact diameter");
  require_that(fit.shaft_bore.value() >= 0 && fit.shaft_bore < fit.contact_diameter, fit.shaft_bore.value(),
               "shaft bore", "0 for a solid shaft, or a diameter below the contact diameter");
  require_that(std::isfinite(fit.engaged_length.value()) && fit.engaged_length.value() > 0,
               fit.engaged_length.value(), "engaged length", "a length over 0");
  require_that(fit.interference.value() > 0 && fit.interference.value() < d_m / 100, fit.interference.value(),
               "interference", "a diametral interference over 0 and below 1/100 of the contact diameter");
  require_between(fit.friction, 0, 1, "friction", "a coefficient of friction from 0 to 1");
  require_valid(fit.hub, "hub");
  require_valid(fit.shaft, "shaft");
}

double square(double x) {
  return x * x;
}

}  // namespace

PressFitState press_fit(const PressFit& fit) {
  require_valid(fit);
  const double d = fit.contact_diameter.value();
  const double hub_ratio = square(fit.hub_outside.value() / d);
  const double shaft_ratio = square(fit.shaft_bore.value() / d);
  const double hub_factor = (hub_ratio + 1) / (hub_ratio - 1);
  const double shaft_factor = (1 + shaft_ratio) / (1 - shaft_ratio);
  const double e_o = fit.hub.youngs_modulus.value();
  const double e_i = fit.shaft.youngs_modulus.value();
  const double compliance = (hub_factor + fit.hub.poisson) / e_o + (shaft_factor - fit.shaft.poisson) / e_i;
  const double p = fit.interference.value() / d / compliance;

  PressFitState state;
  const double hoop = p * hub_factor;
  const double hoop_outside = 2 * p / (hub_ratio - 1);
  state.contact = pascals(p);
  state.hub_hoop_at_bore = pascals(hoop);
  state.hub_hoop_outside = pascals(hoop_outside);
  state.shaft_hoop_surface = pascals(-p * shaft_factor);
  state.shaft_hoop_bore = pascals(shaft_ratio > 0 ? -2 * p / (1 - shaft_ratio) : -p);
  state.hub_von_mises = pascals(std::sqrt(square(hoop) + hoop * p + square(p)));
  state.hub_growth_outside = fit.hub_outside * (hoop_outside / e_o);
  const double force_n = fit.friction * p * pi * d * fit.engaged_length.value();
  state.axial_force = newtons(force_n);
  state.torque = newton_metres(force_n * d / 2);
  return state;
}

Temperature hub_temperature_to_assemble(const ShrinkAssembly& assembly) {
  const double d_m = assembly.contact_diameter.value();
  require_that(std::isfinite(d_m) && d_m > 0, d_m, "contact diameter", "a diameter over 0");
  require_between(assembly.interference.value(), 0, d_m / 100, "interference",
                  "0 to 1/100 of the contact diameter");
  require_between(assembly.working_clearance.value(), 0, d_m / 100, "working clearance",
                  "0 to 1/100 of the contact diameter");
  require_between(assembly.hub_expansion.value(), 1e-7, 1e-3, "hub expansion",
                  "an expansion of 0.1e-6 to 1e-3 per K");
  require_between(assembly.shaft_expansion.value(), 0, 1e-3, "shaft expansion",
                  "an expansion from 0 to 1e-3 per K");
  const double room_k = kelvin_of(assembly.room);
  const double shaft_k = kelvin_of(assembly.shaft);
  require_between(room_k, 200, 400, "room temperature", "200 K to 400 K");
  require_between(shaft_k, 70, room_k, "shaft temperature", "70 K to the room's temperature");
  const double shrinkage_m = assembly.shaft_expansion.value() * d_m * (room_k - shaft_k);
  const double growth_m = assembly.interference.value() + assembly.working_clearance.value() - shrinkage_m;
  return kelvin(room_k + std::max(0.0, growth_m) / (assembly.hub_expansion.value() * d_m));
}

}  // namespace pumpwright
