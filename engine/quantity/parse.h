// Reads what hands write: "7 thou", .007", "1-3/8 in", "0,18 mm", "180 °F", "12 psig", "45 ft-lb", "+3".
//
// Grammar: an optional sign, a number, and a unit unless the field has a default one.
//   number   7   .007   7.   0,18   7e-3   3/8   1 3/8   1-3/8   1½   and for lengths   1' 3 1/2"
//   sign     + - and the typographic minus
// A comma is a decimal comma when it can not be anything else: "0,180" and "1,25" are read, "1,250" is
// refused, as are thousands separators of any sort. At most 64 characters of UTF-8; spaces of any width
// between the parts. Refused with BadInput, whose `expected` says what would be valid and, in brackets, what
// is wrong: nothing written, no number, not finite, two numbers, an unknown unit, a unit of another kind, a
// bare number without a default unit, a bare psi, bar or kPa where gauge or absolute matters, below absolute
// zero or below full vacuum. Nothing but BadInput is ever thrown, whatever bytes come in. The result does not
// depend on the locale.
//
// Accuracy: the SI value is the double nearest to what is written when the unit is the SI unit; in any other
// unit it differs from the nearest double in less than one case in a thousand, and then by one unit in the
// last place. So `7 thou`, `0.007 in` and `0.1778 mm` are the same double.
#pragma once

#include <string>
#include <string_view>

#include "engine/quantity/any_quantity.h"
#include "engine/quantity/bad_input.h"
#include "engine/quantity/unit.h"

namespace pumpwright {

// What the caller knows about the field being read.
struct ParseContext {
  std::string field;  // as the user knows it: "reading", "--limit"
  const Unit* default_unit =
      nullptr;  // unit of a bare number, e.g. the instrument's; null: a unit must be written
};

// A value together with the way it was written.
struct Written {
  std::string text;              // as handed in, without surrounding spaces
  double si = 0;                 // in the SI unit of the kind
  double number = 0;             // in `unit`
  const Unit* unit = nullptr;    // the unit read, or the default; never null in a result
  bool unit_was_written = true;  // false when the default unit was taken
  // Decimals written: 2 for "0.18", 0 for "7", 5 for "7.00e-3". For a fraction, the decimals of its decimal
  // form (3 for 3/8), at most 6.
  int decimals = 0;
  // One unit in the last written place as an SI step: 1e-5 m for "0.18 mm"; for "3/8 in" one eighth of an
  // inch.
  double last_place_si = 0;

  AnyQuantity quantity() const { return {unit->kind, si}; }
};

// Reads a value of `kind`. Throws BadInput. A default unit of another kind is a programmer's error
// (asserted). A pure number (Kind::number) takes no unit and needs no default; a bare percentage needs a
// default or "%".
Written parse_written(std::string_view text, Kind kind, const ParseContext& context);

// Reads a unit alone, e.g. the instrument's declared one or `--unit`. Throws BadInput naming the units that
// fit.
const Unit& parse_unit(std::string_view text, Kind kind, const std::string& field);

// The same as a typed quantity.
template <TypedQuantity Q>
Q parse_as(std::string_view text, const ParseContext& context) {
  return parse_written(text, KindOf<Q>::kind, context).quantity().template as<Q>();
}

Length parse_length(std::string_view text, const ParseContext& context);
Area parse_area(std::string_view text, const ParseContext& context);
Volume parse_volume(std::string_view text, const ParseContext& context);
Angle parse_angle(std::string_view text, const ParseContext& context);
Time parse_time(std::string_view text, const ParseContext& context);
Mass parse_mass(std::string_view text, const ParseContext& context);
Inertia parse_inertia(std::string_view text, const ParseContext& context);
Force parse_force(std::string_view text, const ParseContext& context);
Torque parse_torque(std::string_view text, const ParseContext& context);
Energy parse_energy(std::string_view text, const ParseContext& context);
Power parse_power(std::string_view text, const ParseContext& context);
Pressure parse_pressure_difference(std::string_view text, const ParseContext& context);
GaugePressure parse_gauge_pressure(std::string_view text, const ParseContext& context);
AbsolutePressure parse_absolute_pressure(std::string_view text, const ParseContext& context);
Temperature parse_temperature(std::string_view text, const ParseContext& context);
TemperatureDifference parse_temperature_difference(std::string_view text, const ParseContext& context);
Velocity parse_velocity(std::string_view text, const ParseContext& context);
Speed parse_speed(std::string_view text, const ParseContext& context);
Frequency parse_frequency(std::string_view text, const ParseContext& context);
VolumeFlow parse_volume_flow(std::string_view text, const ParseContext& context);
Viscosity parse_viscosity(std::string_view text, const ParseContext& context);
Expansion parse_expansion(std::string_view text, const ParseContext& context);
Density parse_density(std::string_view text, const ParseContext& context);
HeatCapacity parse_heat_capacity(std::string_view text, const ParseContext& context);
Conductivity parse_conductivity(std::string_view text, const ParseContext& context);
KinematicViscosity parse_kinematic_viscosity(std::string_view text, const ParseContext& context);
SpringRate parse_spring_rate(std::string_view text, const ParseContext& context);
PressureVelocity parse_pressure_velocity(std::string_view text, const ParseContext& context);

// A pure number, and a fraction of 1 from a percentage ("30 %" gives 0.3).
double parse_number(std::string_view text, const ParseContext& context);
double parse_fraction(std::string_view text, const ParseContext& context);

}  // namespace pumpwright
