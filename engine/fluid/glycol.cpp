#include "engine/fluid/glycol.h"

#include <cmath>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "engine/fluid/glycol_tables.h"
#include "engine/fluid/known_range.h"
#include "engine/fluid/power_series.h"
#include "engine/fluid/supercooled_water.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::fluid {
namespace {

const PropertySources glycol_sources{
    .saturation =
        "pure water's, which is never too low: IAPWS R7-97(2012), equation 30; below 0 °C Murphy and "
        "Koop, Q. J. R. Meteorol. Soc. 131 (2005) 1539-1565, equation 10",
    .density =
        "Melinder, Properties of Secondary Working Fluids for Indirect Systems, 2nd ed., IIR 2010, as in "
        "SecondaryCoolantProps",
    .viscosity = "Melinder (2010), as for density",
    .heat_capacity = "Melinder (2010), as for density",
    .conductivity = "Melinder (2010), as for density",
};

constexpr double highest_c = 100;
constexpr double highest_boiling_c = 350;
constexpr AbsolutePressure highest_pressure{pascals(10e6)};

constexpr double water_molar_mass = 18.015;  // [g/mol]
constexpr double ethylene_glycol_molar_mass = 62.068;
constexpr double propylene_glycol_molar_mass = 76.095;

class Glycol final : public Liquid {
 public:
  Glycol(std::string substance, const melinder::Mixture& mixture, double mass_fraction)
      : name_(fmt::format("{:.4g} % {} in water", 100 * mass_fraction, substance)),
        boiling_(fmt::format("boiling {}", name_)),
        mixture_(mixture),
        percent_from_base_(100 * mass_fraction - mixture.base_percent),
        freezing_k_(celsius_zero_k + power_series(mixture.freezing_c, percent_from_base_)) {}

  std::string name() const override { return name_; }
  const PropertySources& sources() const override { return glycol_sources; }
  Temperature lowest_temperature() const override { return kelvin(freezing_k_); }
  Temperature highest_temperature() const override { return kelvin(celsius_zero_k + highest_c); }

  AbsolutePressure saturation_pressure(Temperature t) const override {
    require_temperature(t, lowest_temperature(), highest_boiling(), boiling_);
    return liquid_water_saturation_pressure(t);
  }
  Temperature saturation_temperature(AbsolutePressure p) const override {
    require_pressure(p, saturation_pressure(lowest_temperature()), saturation_pressure(highest_boiling()),
                     boiling_);
    return liquid_water_saturation_temperature(p);
  }

  Density density(Temperature t, AbsolutePressure p) const override {
    return kilograms_per_cubic_metre(value_of(mixture_.density, t, p));
  }
  Viscosity viscosity(Temperature t, AbsolutePressure p) const override {
    return pascal_seconds(1e-3 * std::exp(value_of(mixture_.log_viscosity_mpa_s, t, p)));
  }
  HeatCapacity heat_capacity(Temperature t, AbsolutePressure p) const override {
    return joules_per_kilogram_kelvin(value_of(mixture_.heat_capacity, t, p));
  }
  Conductivity conductivity(Temperature t, AbsolutePressure p) const override {
    return watts_per_metre_kelvin(value_of(mixture_.conductivity, t, p));
  }

 private:
  static Temperature highest_boiling() { return kelvin(celsius_zero_k + highest_boiling_c); }

  double value_of(const melinder::Coefficients& coefficients, Temperature t, AbsolutePressure p) const {
    require_temperature(t, lowest_temperature(), highest_temperature(), name_);
    require_liquid(*this, t, p, highest_pressure);
    return power_series(coefficients, percent_from_base_, celsius_of(t) - mixture_.base_c);
  }

  std::string name_;
  std::string boiling_;               // made once: the range of every property is checked by the name
  const melinder::Mixture& mixture_;  // of static storage
  double percent_from_base_;
  double freezing_k_;
};

void require_fraction(double mass_fraction) {
  if (!(mass_fraction >= 0 && mass_fraction <= highest_glycol_fraction))
    throw BadInput({.field = "mass fraction of glycol",
                    .place = "",
                    .value = fmt::format("{:.6g}", mass_fraction),
                    .expected = "kg of glycol in one kg of mixture, 0 to 0.6 (0 % to 60 %)"});
}

double water_mole_fraction(double mass_fraction, double glycol_molar_mass) {
  require_fraction(mass_fraction);
  const double water_moles = (1 - mass_fraction) / water_molar_mass;
  return water_moles / (water_moles + mass_fraction / glycol_molar_mass);
}

std::shared_ptr<const Liquid> glycol(std::string substance, const melinder::Mixture& mixture,
                                     double mass_fraction) {
  require_fraction(mass_fraction);
  return std::make_shared<Glycol>(std::move(substance), mixture, mass_fraction);
}

}  // namespace

std::shared_ptr<const Liquid> ethylene_glycol(double mass_fraction) {
  return glycol("ethylene glycol", melinder::ethylene_glycol, mass_fraction);
}

std::shared_ptr<const Liquid> propylene_glycol(double mass_fraction) {
  return glycol("propylene glycol", melinder::propylene_glycol, mass_fraction);
}

double water_mole_fraction_of_ethylene_glycol(double mass_fraction) {
  return water_mole_fraction(mass_fraction, ethylene_glycol_molar_mass);
}

double water_mole_fraction_of_propylene_glycol(double mass_fraction) {
  return water_mole_fraction(mass_fraction, propylene_glycol_molar_mass);
}

}  // namespace pumpwright::fluid
