#include "engine/hydraulics/stored_energy.h"

#include <cmath>

#include "engine/assembly/input_check.h"

namespace pumpwright::hydraulics {

Energy stored_in_liquid(GaugePressure pressure, Volume volume, Pressure bulk_modulus) {
  const double p_pa = pressure.value.value();
  require_between(p_pa, 0, 1e9, "pressure", "a gauge pressure not below 0");
  require_that(volume.value() > 0, volume.value(), "volume", "a volume over 0");
  require_that(bulk_modulus.value() > 0, bulk_modulus.value(), "bulk_modulus", "a bulk modulus over 0");
  return joules(p_pa * p_pa * volume.value() / (2 * bulk_modulus.value()));
}

Energy stored_in_gas(GaugePressure pressure, Volume volume, AbsolutePressure atmosphere, double ratio) {
  require_between(pressure.value.value(), 0, 1e9, "pressure", "a gauge pressure not below 0");
  require_that(volume.value() > 0, volume.value(), "volume", "a volume over 0");
  require_that(atmosphere.value.value() > 0, atmosphere.value.value(), "atmosphere",
               "an air pressure over 0");
  require_between(ratio, 1.01, 1.67, "heat_capacity_ratio", "a ratio from 1.01 to 1.67");
  const double p_pa = pressure.value.value() + atmosphere.value.value();
  const double left = std::pow(atmosphere.value.value() / p_pa, (ratio - 1) / ratio);
  return joules(p_pa * volume.value() / (ratio - 1) * (1 - left));
}

}  // namespace pumpwright::hydraulics
