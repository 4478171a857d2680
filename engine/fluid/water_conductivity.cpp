#include "engine/fluid/water_conductivity.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

#include "engine/fluid/power_series.h"
#include "engine/fluid/water_transport_range.h"
#include "engine/fluid/water_viscosity.h"

namespace pumpwright::fluid {
namespace {

constexpr std::array<double, 5> dilute_gas{2.443221e-3, 1.323095e-2, 6.770357e-3, -3.454586e-3,
                                           4.096266e-4};  // Table 1

// Table 2: row i is the power of 1/T - 1, column j that of ρ - 1.
constexpr std::array<std::array<double, 6>, 5> by_density{{
    {1.60397357, -0.646013523, 0.111443906, 0.102997357, -0.0504123634, 0.00609859258},
    {2.33771842, -2.78843778, 1.53616167, -0.463045512, 0.0832827019, -0.00719201245},
    {2.19650529, -4.54580785, 3.55777244, -1.40944978, 0.275418278, -0.0205938816},
    {-1.21051378, 1.60812989, -0.621178141, 0.0716373224, 0, 0},
    {-2.7203370, 4.57586331, -3.18369245, 1.1168348, -0.19268305, 0.012913842},
}};

// Table 6: one row for each range of the reduced density, which ends at `upper_ends`; the last has no end.
constexpr std::array<double, 4> upper_ends{0.310559006, 0.776397516, 1.242236025, 1.863354037};
constexpr std::array<std::array<double, 6>, 5> reference_stiffness{{
    {6.53786807199516, -5.61149954923348, 3.39624167361325, -2.27492629730878, 10.2631854662709,
     1.97815050331519},
    {6.52717759281799, -6.30816983387575, 8.08379285492595, -9.82240510197603, 12.1358413791395,
     -5.54349664571295},
    {5.35500529896124, -3.96415689925446, 8.91990208918795, -12.0338729505790, 9.19494865194302,
     -2.16866274479712},
    {1.55225959906681, 0.464621290821181, 8.93237374861479, -11.0321960061126, 6.16780999933360,
     -0.965458722086812},
    {1.11999926419994, 0.595748562571649, 9.88952565078920, -10.3255051147040, 4.66861294457414,
     -0.503243546373828},
}};

// Table 3.
constexpr double enhancement_factor = 177.8514;
constexpr double cutoff_per_nm = 1 / 0.40;
constexpr double exponent_ratio = 0.630 / 1.239;  // ν / γ
constexpr double length_nm = 0.13;
constexpr double gamma_0 = 0.06;
constexpr double reference_t = 1.5;
constexpr double smallest_y = 1.2e-7;  // below it Z(y) is zero
constexpr double gas_constant = 461.51805;
constexpr double critical_pressure_pa = 22.064e6;

double background_mw(double t, double density) {
  return std::sqrt(t) / power_series(dilute_gas, 1 / t) *
         std::exp(density * power_series(by_density, 1 / t - 1, density - 1));
}

// Equation 25: (∂ρ/∂p) at the reference temperature, reduced.
double reference_softening(double density) {
  const auto* const range = std::lower_bound(upper_ends.begin(), upper_ends.end(), density);
  const auto row = static_cast<std::size_t>(range - upper_ends.begin());
  return 1 / power_series(reference_stiffness[row], density);
}

// Equations 20 to 23: y, the reduced correlation length.
double reduced_length(double t, double density, double softening) {
  const double susceptibility = density * (softening - reference_softening(density) * reference_t / t);
  return cutoff_per_nm * length_nm * std::pow(std::max(susceptibility, 0.0) / gamma_0, exponent_ratio);
}

// Equation 19.
double z_of(double y, double density, double heat_ratio) {
  if (y < smallest_y) return 0;
  const double inverse = 1 / heat_ratio;
  const double angle = (1 - inverse) * std::atan(y) + inverse * y;
  return 2 / (pi * y) * (angle + std::expm1(-1 / (1 / y + y * y / (3 * density * density))));
}

}  // namespace

Conductivity water_background_conductivity(Temperature t, Density density) {
  require_transport_range(t, density);
  return watts_per_metre_kelvin(1e-3 * background_mw(kelvin_of(t) / transport_temperature_unit_k,
                                                     density.value() / transport_density_unit));
}

Conductivity water_conductivity(Temperature t, const WaterState& water) {
  const Conductivity background = water_background_conductivity(t, water.density);
  const double reduced_t = kelvin_of(t) / transport_temperature_unit_k;
  const double density = water.density.value() / transport_density_unit;
  const double softening = water.softening.value() * critical_pressure_pa / transport_density_unit;
  const double y = reduced_length(reduced_t, density, softening);
  const double viscosity = water_viscosity(t, water.density).value() / 1e-6;
  const double enhancement_mw = enhancement_factor * density * (water.isobaric.value() / gas_constant) *
                                reduced_t / viscosity * z_of(y, density, water.isobaric / water.isochoric);
  return background + watts_per_metre_kelvin(1e-3 * enhancement_mw);
}

}  // namespace pumpwright::fluid
