// How hard a motor works, by what a clamp meter, a tachometer or a wattmeter says, and what an uneven supply
// leaves of it.
#pragma once

#include <array>

#include "engine/hydraulics/test_point.h"
#include "engine/quantity/quantity.h"

namespace pumpwright::hydraulics {

// Measured input over what full load would draw, P_rated/η (read: fact sheet on motor load). A part of 1.
double load_by_power(Power input, Power rated, double rated_efficiency);

// (synchronous - measured)/(synchronous - nameplate) (same fact sheet, remembered). The nameplate slip may be
// off by 20 % and it moves with voltage and temperature: a rough figure. BadInput "speed" unless the
// nameplate speed lies below the synchronous one and the measured between 0 and it.
double load_by_slip(Speed synchronous, Speed measured, Speed nameplate);

// (2 I - I0)/(2 In - I0) with the no-load current I0 (remembered). BadInput "no_load_current" unless below
// the nameplate's.
double load_by_current(Current measured, Current nameplate, Current no_load);

// Largest deviation of a line voltage from the mean, over the mean (NEMA MG 1, read). A part of 1.
double voltage_unbalance(const std::array<Voltage, 3>& lines);

// Beyond it a motor is not to be run (NEMA MG 1, read). A part of 1.
constexpr double most_voltage_unbalance = 0.05;

// What part of its rated power a motor may give: 1 to 1 % of unbalance, 0.95 at 2 %, 0.90 at 3 % (read); 0.82
// at 4 % and 0.75 at 5 % (remembered), straight between (NEMA MG 1, figure 14-1). The figure ends at
// most_voltage_unbalance; its last value is held beyond, where the caller has to say that the motor is not to
// be run. BadInput "voltage_unbalance" below 0.
double unbalance_derating(double unbalance);

}  // namespace pumpwright::hydraulics
