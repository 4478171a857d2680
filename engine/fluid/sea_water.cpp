#include "engine/fluid/sea_water.h"

#include <cmath>
#include <string>

#include <fmt/format.h>

#include "engine/fluid/known_range.h"
#include "engine/fluid/saturation.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::fluid {
namespace {

const PropertySources sea_water_sources{
    .saturation =
        "IAPWS R7-97(2012), equation 30, times Nayar et al., Desalination 390 (2016) 1-24, eqs. 5-6",
    .density = "Sharqawy, Lienhard and Zubair, Desalination and Water Treatment 16 (2010) 354-380, eq. 8",
    .viscosity = "Sharqawy, Lienhard and Zubair (2010), eqs. 22 and 23",
    .heat_capacity = "Sharqawy, Lienhard and Zubair (2010), eq. 9 (Jamieson et al.)",
    .conductivity = "Sharqawy, Lienhard and Zubair (2010), eq. 13 (Jamieson and Tudhope)",
};

constexpr double highest_c = 180;
constexpr AbsolutePressure highest_pressure{pascals(10e6)};

// On the scale of 1968, which the older correlations were fitted on.
double kelvin_1968(Temperature t) {
  return 1.00024 * celsius_of(t) + celsius_zero_k;
}

double density_of(double c, double s) {
  const double fresh = 9.999e2 + c * (2.034e-2 + c * (-6.162e-3 + c * (2.261e-5 + c * -4.657e-8)));
  const double salt = 8.020e2 + c * (-2.001 + c * (1.677e-2 + c * -3.060e-5)) - 1.613e-5 * s * c * c;
  return fresh + s * salt;
}

double viscosity_of(double c, double s) {
  const double shifted = c + 64.993;
  const double fresh = 4.2844e-5 + 1 / (0.157 * shifted * shifted - 91.296);
  const double a = 1.541 + c * (1.998e-2 + c * -9.52e-5);
  const double b = 7.974 + c * (-7.561e-2 + c * 4.724e-4);
  return fresh * (1 + s * (a + s * b));
}

double heat_capacity_of(double t, double s_g_kg) {
  const double s = s_g_kg;
  const double a = 5.328 + s * (-9.76e-2 + s * 4.04e-4);
  const double b = -6.913e-3 + s * (7.351e-4 + s * -3.15e-6);
  const double c = 9.6e-6 + s * (-1.927e-6 + s * 8.23e-9);
  const double d = 2.5e-9 + s * (1.666e-9 + s * -7.125e-12);
  return 1000 * (a + t * (b + t * (c + t * d)));
}

double conductivity_of(double t, double s_practical) {
  const double s = s_practical;
  const double exponent = std::log10(240 + 0.0002 * s) +
                          0.434 * (2.3 - (343.5 + 0.037 * s) / t) * std::cbrt(1 - t / (647.3 + 0.03 * s));
  return 1e-3 * std::pow(10, exponent);
}

class SeaWater final : public Liquid {
 public:
  explicit SeaWater(double salinity)
      : name_(fmt::format("sea water of {:.4g} g/kg", 1000 * salinity)),
        boiling_(fmt::format("boiling {}", name_)),
        salinity_(salinity),
        g_kg_(1000 * salinity),
        vapour_ratio_(std::exp(g_kg_ * (-4.5818e-4 + g_kg_ * -2.0443e-6))) {}

  std::string name() const override { return name_; }
  const PropertySources& sources() const override { return sea_water_sources; }
  Temperature lowest_temperature() const override { return kelvin(celsius_zero_k); }
  Temperature highest_temperature() const override { return kelvin(celsius_zero_k + highest_c); }

  AbsolutePressure saturation_pressure(Temperature t) const override {
    require_temperature(t, lowest_temperature(), highest_temperature(), name_);
    return {vapour_ratio_ * water_saturation_pressure(t).value};
  }
  Temperature saturation_temperature(AbsolutePressure p) const override {
    require_pressure(p, saturation_pressure(lowest_temperature()), saturation_pressure(highest_temperature()),
                     boiling_);
    return water_saturation_temperature({p.value / vapour_ratio_});
  }

  Density density(Temperature t, AbsolutePressure p) const override {
    require_liquid(*this, t, p, highest_pressure);
    return kilograms_per_cubic_metre(density_of(celsius_of(t), salinity_));
  }
  Viscosity viscosity(Temperature t, AbsolutePressure p) const override {
    require_liquid(*this, t, p, highest_pressure);
    return pascal_seconds(viscosity_of(celsius_of(t), salinity_));
  }
  HeatCapacity heat_capacity(Temperature t, AbsolutePressure p) const override {
    require_liquid(*this, t, p, highest_pressure);
    return joules_per_kilogram_kelvin(heat_capacity_of(kelvin_1968(t), g_kg_));
  }
  Conductivity conductivity(Temperature t, AbsolutePressure p) const override {
    require_liquid(*this, t, p, highest_pressure);
    constexpr double g_kg_of_practical = 1.00472;
    return watts_per_metre_kelvin(conductivity_of(kelvin_1968(t), g_kg_ / g_kg_of_practical));
  }

 private:
  std::string name_;
  std::string boiling_;  // made once: the range of every property is checked by the name
  double salinity_;
  double g_kg_;
  double vapour_ratio_;  // against pure water of the same temperature
};

}  // namespace

std::shared_ptr<const Liquid> sea_water(double salinity) {
  if (!(salinity >= 0 && salinity <= highest_salinity))
    throw BadInput({.field = "salinity",
                    .place = "",
                    .value = fmt::format("{:.6g}", salinity),
                    .expected = "kg of salt in one kg of sea water, 0 to 0.15 (0 to 150 g/kg)"});
  return std::make_shared<SeaWater>(salinity);
}

}  // namespace pumpwright::fluid
