#include "engine/fluid/water_viscosity.h"

#include <array>
#include <cmath>

#include "engine/fluid/power_series.h"
#include "engine/fluid/water_transport_range.h"

namespace pumpwright::fluid {
namespace {

constexpr std::array<double, 4> dilute_gas{1.67752, 2.20462, 0.6366564, -0.241605};  // Table 1

// Table 2: row i is the power of 1/T - 1, column j that of ρ - 1.
constexpr std::array<std::array<double, 7>, 6> by_density{{
    {0.520094, 0.222531, -0.281378, 0.161913, -0.0325372, 0, 0},
    {0.0850895, 0.999115, -0.906851, 0.257399, 0, 0, 0},
    {-1.08374, 1.88797, -0.772479, 0, 0, 0, 0},
    {-0.289555, 1.26613, -0.489837, 0, 0.0698452, 0, -0.00435673},
    {0, 0, -0.257040, 0, 0, 0.00872102, 0},
    {0, 0.120573, 0, 0, 0, 0, -0.000593264},
}};

}  // namespace

Viscosity water_viscosity(Temperature t, Density density) {
  require_transport_range(t, density);
  const double reduced_t = kelvin_of(t) / transport_temperature_unit_k;
  const double reduced_density = density.value() / transport_density_unit;
  const double gas = 100 * std::sqrt(reduced_t) / power_series(dilute_gas, 1 / reduced_t);
  const double dense =
      std::exp(reduced_density * power_series(by_density, 1 / reduced_t - 1, reduced_density - 1));
  return pascal_seconds(1e-6 * gas * dense);
}

}  // namespace pumpwright::fluid
