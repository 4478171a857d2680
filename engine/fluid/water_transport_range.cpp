#include "engine/fluid/water_transport_range.h"

#include <fmt/format.h>

#include "engine/fluid/known_range.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::fluid {
namespace {

constexpr double highest_density = 1200;

}  // namespace

void require_transport_range(Temperature t, Density density) {
  require_temperature(t, kelvin(273.15), kelvin(1173.15), "viscosity and conductivity of water");
  if (!(density.value() >= 0 && density.value() <= highest_density))
    throw BadInput({.field = "density",
                    .place = "",
                    .value = fmt::format("{:.6g} kg/m³", density.value()),
                    .expected = "0 to 1200 kg/m³, the range of viscosity and conductivity of water"});
}

}  // namespace pumpwright::fluid
