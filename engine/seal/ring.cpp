#include "engine/seal/ring.h"

#include <cmath>

#include "engine/assembly/input_check.h"

namespace pumpwright::seal {
namespace {

double section_m2(const Ring& ring) {
  const double outer_m = ring.outer_diameter.value();
  const double inner_m = ring.inner_diameter.value();
  return pi / 4 * (outer_m * outer_m - inner_m * inner_m);
}

double mean_radius_m(const Ring& ring) {
  return (ring.outer_diameter + ring.inner_diameter).value() / 4;
}

double wet_radius_m(const Ring& ring, PressureSide wet) {
  return (wet == PressureSide::outside ? ring.outer_diameter : ring.inner_diameter).value() / 2;
}

// m of the fin [1/m].
double decay_per_m(const Ring& ring, HeatTransfer at_side, PressureSide wet) {
  require_valid(ring);
  require_between(at_side.value(), 1e-3, 1e7, "heat transfer", "a coefficient from 0.001 to 1e7 W/(m² K)");
  const double perimeter_m = 2 * pi * wet_radius_m(ring, wet);
  return std::sqrt(at_side.value() * perimeter_m / (ring.conductivity.value() * section_m2(ring)));
}

// First moment about the middle over L² of cosh(x (1 - z/L)) / cosh(x), z from 0 to L, counted positive when
// the face end is the warmer: tanh(x)/(2x) - (1 - 1/cosh(x))/x², by its series where the two nearly cancel.
double fin_moment(double x) {
  if (x < 0.05) return x * x / 24 * (1 - 13.0 / 30.0 * x * x);
  return std::tanh(x) / (2 * x) - (1 - 1 / std::cosh(x)) / (x * x);
}

}  // namespace

void require_valid(const Ring& ring) {
  const double outer_m = ring.outer_diameter.value();
  const double inner_m = ring.inner_diameter.value();
  require_between(outer_m, 0.005, 0.5, "ring/outer_diameter", "a diameter from 5 mm to 500 mm");
  require_that(inner_m > 0 && inner_m < outer_m, inner_m, "ring/inner_diameter",
               "a diameter over 0 and below the outer");
  require_between(ring.length.value(), 0.001, 0.2, "ring/length", "a length from 1 mm to 200 mm");
  require_between(ring.conductivity.value(), 0.1, 500, "ring/conductivity",
                  "a conductivity from 0.1 to 500 W/(m K)");
  require_between(ring.modulus.value(), 1e8, 1e12, "ring/modulus", "a modulus from 0.1 to 1000 GPa");
  require_between(ring.expansion.value(), 0, 1e-4, "ring/expansion", "a coefficient from 0 to 1e-4 1/K");
}

HeatConductance heat_conductance(const Ring& ring, HeatTransfer at_side, PressureSide wet) {
  const double m = decay_per_m(ring, at_side, wet);
  return HeatConductance::from_value(ring.conductivity.value() * section_m2(ring) * m *
                                     std::tanh(m * ring.length.value()));
}

ConingPerKelvin thermal_coning(const Ring& ring, HeatTransfer at_side, PressureSide wet) {
  const double length_m = ring.length.value();
  const double slope_per_m = 12 / length_m * fin_moment(decay_per_m(ring, at_side, wet) * length_m);
  return ConingPerKelvin::from_value(ring.expansion.value() * mean_radius_m(ring) * slope_per_m);
}

ConingPerPressure pressure_coning(const Ring& ring, Length wetted_length, PressureSide wet) {
  require_valid(ring);
  const double length_m = ring.length.value();
  const double wetted_m = wetted_length.value();
  require_between(wetted_m, 0, length_m, "wetted length", "a length from 0 to the ring's length");
  const double r_m = mean_radius_m(ring);
  const double moment_per_pa_m2 = wetted_m * (wet_radius_m(ring, wet) / r_m) * (length_m - wetted_m) / 2;
  const double thickness_m = (ring.outer_diameter - ring.inner_diameter).value() / 2;
  const double inertia_m4 = thickness_m * std::pow(length_m, 3) / 12;
  const double turn = moment_per_pa_m2 * r_m * r_m / (ring.modulus.value() * inertia_m4);
  return ConingPerPressure::from_value(wet == PressureSide::outside ? -turn : turn);
}

HeatTransfer turning_ring_cooling(const fluid::Liquid& liquid, Temperature t, AbsolutePressure p,
                                  Length diameter, Speed speed) {
  require_between(diameter.value(), 0.005, 0.5, "diameter", "a diameter from 5 mm to 500 mm");
  require_that(speed.value() > 0 && speed.value() <= 1e4, speed.value(), "speed",
               "a speed over 0 to 10 000 rad/s");
  const double d_m = diameter.value();
  const double mu_pa_s = liquid.viscosity(t, p).value();
  const double k_w_mk = liquid.conductivity(t, p).value();
  const double reynolds = speed.value() * d_m * d_m * liquid.density(t, p).value() / (2 * mu_pa_s);
  const double prandtl = mu_pa_s * liquid.heat_capacity(t, p).value() / k_w_mk;
  return HeatTransfer::from_value(0.133 * std::pow(reynolds, 2.0 / 3.0) * std::cbrt(prandtl) * k_w_mk / d_m);
}

}  // namespace pumpwright::seal
