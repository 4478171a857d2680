#include "engine/seal/atmosphere.h"

#include <cmath>

#include "engine/assembly/input_check.h"

namespace pumpwright::seal {
namespace {

constexpr double sea_level_pa = 101325;
constexpr double sea_level_k = 288.15;
constexpr double lapse_k_m = 0.0065;
constexpr double exponent = 9.80665 / (287.05287 * lapse_k_m);

}  // namespace

AbsolutePressure standard_atmosphere(Length altitude) {
  require_between(altitude.value(), -500, 9000, "altitude", "an altitude from -500 m to 9000 m");
  return {pascals(sea_level_pa * std::pow(1 - lapse_k_m * altitude.value() / sea_level_k, exponent))};
}

AbsolutePressure absolute_at(GaugePressure gauge, Length altitude) {
  const double p_pa = gauge.value.value() + standard_atmosphere(altitude).value.value();
  require_that(std::isfinite(p_pa) && p_pa >= 0, gauge.value.value(), "pressure",
               "a gauge pressure not below vacuum at this altitude");
  return {pascals(p_pa)};
}

GaugePressure gauge_at(AbsolutePressure absolute, Length altitude) {
  return {absolute.value - standard_atmosphere(altitude).value};
}

}  // namespace pumpwright::seal
