#include "engine/fluid/viscosity_curve.h"

#include <cmath>
#include <string>

#include <fmt/format.h>

#include "engine/fluid/known_range.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::fluid {
namespace {

constexpr double mm2_per_m2 = 1e6;
constexpr double thinnest_mm2_s = 0.21;
constexpr double thickest_mm2_s = 2e7;

double z_of(double nu) {
  return nu + 0.7 + std::exp(-1.47 - nu * (1.84 + 0.51 * nu));
}

// Newton's method: Z grows with ν at a rate between 0.68 and 1, so it can not miss.
double nu_of(double z) {
  double nu = z - 0.7;
  for (int turn = 0; turn < 50; ++turn) {
    const double bend = std::exp(-1.47 - nu * (1.84 + 0.51 * nu));
    const double step = (nu + 0.7 + bend - z) / (1 - (1.84 + 1.02 * nu) * bend);
    nu -= step;
    if (std::fabs(step) <= 1e-15 * nu) break;
  }
  return nu;
}

double height_of(const ViscosityPoint& point) {
  return std::log10(std::log10(z_of(point.viscosity.value() * mm2_per_m2)));
}

void require_point(const ViscosityPoint& point, const std::string& field) {
  const double nu = point.viscosity.value() * mm2_per_m2;
  if (!(nu >= thinnest_mm2_s && nu <= thickest_mm2_s))
    throw BadInput({.field = field,
                    .place = "",
                    .value = fmt::format("{:.6g} mm²/s", nu),
                    .expected = "0.21 mm²/s to 2e7 mm²/s, the range of ASTM D341"});
  require_temperature(point.t, kelvin(150), kelvin(1000), field);
}

}  // namespace

ViscosityCurve::ViscosityCurve(const std::array<ViscosityPoint, 2>& points) {
  require_point(points[0], "viscosity point 1");
  require_point(points[1], "viscosity point 2");
  const bool in_order = kelvin_of(points[0].t) < kelvin_of(points[1].t);
  const ViscosityPoint& cold = in_order ? points[0] : points[1];
  const ViscosityPoint& warm = in_order ? points[1] : points[0];
  if (!(kelvin_of(cold.t) < kelvin_of(warm.t) && cold.viscosity > warm.viscosity))
    throw BadInput({.field = "viscosity points",
                    .place = "",
                    .value = fmt::format("{:.6g} mm²/s at {:.6g} K, {:.6g} mm²/s at {:.6g} K",
                                         cold.viscosity.value() * mm2_per_m2, kelvin_of(cold.t),
                                         warm.viscosity.value() * mm2_per_m2, kelvin_of(warm.t)),
                    .expected = "two temperatures, the liquid thinner at the higher one"});
  lowest_ = cold.t;
  highest_ = warm.t;
  const double cold_log_t = std::log10(kelvin_of(cold.t));
  fall_ = (height_of(cold) - height_of(warm)) / (std::log10(kelvin_of(warm.t)) - cold_log_t);
  height_ = height_of(cold) + fall_ * cold_log_t;
}

KinematicViscosity ViscosityCurve::at(Temperature t) const {
  require_temperature(t, lowest_, highest_, "the two viscosity points");
  const double z = std::pow(10, std::pow(10, height_ - fall_ * std::log10(kelvin_of(t))));
  return square_metres_per_second(nu_of(z) / mm2_per_m2);
}

}  // namespace pumpwright::fluid
