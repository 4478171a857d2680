// Small liquids whose properties a test states itself, so that the seal's tests rest on no correlation.
#pragma once

#include <cmath>
#include <string>

#include "engine/fluid/liquid.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::testing {

// One viscosity, density, heat capacity at every temperature; vapour pressure by Clausius-Clapeyron through
// the normal boiling point, so that it boils like water unless told otherwise.
class GivenLiquid : public fluid::Liquid {
 public:
  double viscosity_pa_s = 1e-3;
  double density_kg_m3 = 1000;
  double heat_capacity_j_kgk = 4200;
  double conductivity_w_mk = 0.6;
  double boiling_k = 373.15;     // at 101325 Pa
  double vapour_slope_k = 4890;  // latent heat over the gas constant: ln p falls by this over T
  double thinning_per_k = 0;     // viscosity falls as exp(-thinning (T - 293.15))
  double lowest_k = 273.15;
  double highest_k = 523.15;

  std::string name() const override { return "a given liquid"; }
  const fluid::PropertySources& sources() const override { return sources_; }
  Temperature lowest_temperature() const override { return kelvin(lowest_k); }
  Temperature highest_temperature() const override { return kelvin(highest_k); }

  AbsolutePressure saturation_pressure(Temperature t) const override {
    const double t_k = inside(t);
    return {pascals(101325 * std::exp(vapour_slope_k * (1 / boiling_k - 1 / t_k)))};
  }
  Temperature saturation_temperature(AbsolutePressure p) const override {
    const Temperature t = kelvin(1 / (1 / boiling_k - std::log(p.value.value() / 101325) / vapour_slope_k));
    inside(t);
    return t;
  }
  Density density(Temperature t, AbsolutePressure) const override {
    inside(t);
    return kilograms_per_cubic_metre(density_kg_m3);
  }
  Viscosity viscosity(Temperature t, AbsolutePressure p) const override {
    if (p.value < saturation_pressure(t).value) throw BadInput({"p", "", "", "a pressure above saturation"});
    return pascal_seconds(viscosity_pa_s * std::exp(-thinning_per_k * (inside(t) - 293.15)));
  }
  HeatCapacity heat_capacity(Temperature t, AbsolutePressure) const override {
    inside(t);
    return joules_per_kilogram_kelvin(heat_capacity_j_kgk);
  }
  Conductivity conductivity(Temperature t, AbsolutePressure) const override {
    inside(t);
    return watts_per_metre_kelvin(conductivity_w_mk);
  }

 private:
  double inside(Temperature t) const {
    const double t_k = kelvin_of(t);
    if (t_k < lowest_k || t_k > highest_k) throw BadInput({"t", "", "", "a temperature inside the range"});
    return t_k;
  }
  fluid::PropertySources sources_{"given", "given", "given", "given", "given"};
};

// Thins about as hot water does.
class ThinningLiquid : public GivenLiquid {
 public:
  ThinningLiquid() { thinning_per_k = 0.018; }
};

}  // namespace pumpwright::testing
