#include "engine/fluid/water.h"

#include "engine/fluid/if97.h"
#include "engine/fluid/known_range.h"
#include "engine/fluid/saturation.h"
#include "engine/fluid/water_conductivity.h"
#include "engine/fluid/water_viscosity.h"

namespace pumpwright::fluid {
namespace {

const PropertySources water_sources{
    .saturation = "IAPWS R7-97(2012), region 4, equations 30 and 31",
    .density = "IAPWS R7-97(2012), region 1, equation 7",
    .viscosity = "IAPWS R12-08, equations 10 to 12, without critical enhancement",
    .heat_capacity = "IAPWS R7-97(2012), region 1, equation 7",
    .conductivity = "IAPWS R15-11, equations 15 to 25, industrial form",
};

class Water final : public Liquid {
 public:
  std::string name() const override { return "water"; }
  const PropertySources& sources() const override { return water_sources; }
  Temperature lowest_temperature() const override { return water_lowest(); }
  Temperature highest_temperature() const override { return if97_liquid_highest(); }

  AbsolutePressure saturation_pressure(Temperature t) const override {
    require_temperature(t, lowest_temperature(), highest_temperature(), "water");
    return water_saturation_pressure(t);
  }
  Temperature saturation_temperature(AbsolutePressure p) const override {
    require_pressure(p, saturation_pressure(lowest_temperature()), saturation_pressure(highest_temperature()),
                     "boiling water");
    return water_saturation_temperature(p);
  }

  Density density(Temperature t, AbsolutePressure p) const override { return liquid_water(t, p).density; }
  Viscosity viscosity(Temperature t, AbsolutePressure p) const override {
    return water_viscosity(t, liquid_water(t, p).density);
  }
  HeatCapacity heat_capacity(Temperature t, AbsolutePressure p) const override {
    return liquid_water(t, p).isobaric;
  }
  Conductivity conductivity(Temperature t, AbsolutePressure p) const override {
    return water_conductivity(t, liquid_water(t, p));
  }
};

}  // namespace

std::shared_ptr<const Liquid> water() {
  return std::make_shared<Water>();
}

}  // namespace pumpwright::fluid
