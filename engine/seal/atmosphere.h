// Air pressure of a place: boiling is decided by absolute pressure, gauges read from where they stand.
#pragma once

#include "engine/quantity/quantity.h"

namespace pumpwright::seal {

// Of the standard atmosphere at geopotential altitude H: p = 101325 Pa (1 - 0.0065 K/m H / 288.15 K)^5.25588,
// exponent g / (R 0.0065 K/m) with g = 9.80665 m/s², R = 287.05287 J/(kg K) (ISO 2533:1975, remembered).
// The weather moves the true value by about 3 %. -500 m to 9000 m, else BadInput "altitude".
AbsolutePressure standard_atmosphere(Length altitude);

// Gauge reading at a place plus the standard atmosphere there. BadInput "altitude", and "pressure" when it
// would lie below vacuum.
AbsolutePressure absolute_at(GaugePressure gauge, Length altitude);

// The reverse: what a gauge there would read.
GaugePressure gauge_at(AbsolutePressure absolute, Length altitude);

}  // namespace pumpwright::seal
