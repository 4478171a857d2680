#include "engine/quantity/unit_table.h"

#include <array>

namespace pumpwright {
namespace {

using enum Kind;
using enum System;

struct Ratio {
  std::int64_t numerator = 1;
  std::int64_t denominator = 1;
};

constexpr Unit row(Kind kind, std::string_view symbol, System system, Ratio factor,
                   std::string_view spellings = {}) {
  Unit unit;
  unit.symbol = symbol;
  unit.kind = kind;
  unit.system = system;
  unit.numerator = factor.numerator;
  unit.denominator = factor.denominator;
  unit.spellings = spellings;
  return unit;
}

constexpr Unit row_times_pi(Kind kind, std::string_view symbol, System system, Ratio factor,
                            std::string_view spellings = {}) {
  Unit unit = row(kind, symbol, system, factor, spellings);
  unit.times_pi = true;
  return unit;
}

constexpr Unit row_shifted(Kind kind, std::string_view symbol, System system, Ratio factor, Ratio shift,
                           std::string_view spellings) {
  Unit unit = row(kind, symbol, system, factor, spellings);
  unit.shift_numerator = shift.numerator;
  unit.shift_denominator = shift.denominator;
  return unit;
}

// How the factors that are not obvious arise, all exact:
//   lbf     0.45359237 kg · 9.80665 m/s²                  = 4.4482216152605 N
//   psi     lbf / (0.0254 m)²                             = 44482216152605 / 6451600000 Pa
//   ft·lbf  lbf · 0.3048 m                                = 1.3558179483314004 N·m
//   hp      550 ft·lbf/s                                  = 745.69987158227022 W
//   PS      75 kgf·m/s                                    = 735.49875 W
//   gal     231 in³ (United States)                       = 0.003785411784 m³;  fl oz = gal/128
//   lb·ft²  0.45359237 kg · (0.3048 m)²                   = 0.0421401100938048 kg·m²
//   impgpm  4.54609 L per minute
//   Btu     of the International Table: 1055.05585262 J, so that 1 Btu/(lb·°F) = 4186.8 J/(kg·K)
//   mmHg    13595.1 kg/m³ · 9.80665 m/s² · 0.001 m        = 133.322387415 Pa (conventional);  inHg = 25.4
//   mmHg
constexpr std::array table{
    // length
    row(length, "m", metric, {1, 1}, "metre metres meter meters metro metros"),
    row(length, "km", metric, {1000, 1}),
    row(length, "cm", metric, {1, 100}),
    row(length, "mm", metric, {1, 1000}, "millimetre millimetres millimeter millimeters"),
    row(length, "µm", metric, {1, 1'000'000},
        "um micron microns micrometre micrometres micrometer micrometers"),
    row(length, "in", inch, {127, 5000}, "\" inch inches pulg pulgada pulgadas"),
    row(length, "thou", inch, {127, 5'000'000}, "thous thousandth thousandths mil mils Mil Mils"),
    row(length, "tenths", inch, {127, 50'000'000}, "tenth"),
    row(length, "µin", inch, {127, 5'000'000'000}, "uin microinch microinches"),
    row(length, "ft", inch, {381, 1250}, "' foot feet"),
    // area
    row(area, "m²", metric, {1, 1}, "m2 sq·m"),
    row(area, "cm²", metric, {1, 10000}, "cm2 sq·cm"),
    row(area, "mm²", metric, {1, 1'000'000}, "mm2 sq·mm"),
    row(area, "in²", inch, {16129, 25'000'000}, "in2 sq·in"),
    row(area, "ft²", inch, {145'161, 1'562'500}, "ft2 sq·ft"),
    // volume
    row(volume, "m³", metric, {1, 1}, "m3"),
    row(volume, "L", metric, {1, 1000}, "l litre litres liter liters dm3"),
    row(volume, "mL", metric, {1, 1'000'000}, "ml cm3 cc"),
    row(volume, "in³", inch, {2'048'383, 125'000'000'000}, "in3 cu·in"),
    row(volume, "gal", inch, {3'785'411'784, 1'000'000'000'000}, "gallon gallons usgal us·gal"),
    row(volume, "fl oz", inch, {295'735'295'625, 10'000'000'000'000'000}, "fl·oz floz us·fl·oz"),
    // angle
    row(angle, "rad", both, {1, 1}, "radian radians"),
    row(angle, "mrad", both, {1, 1000}),
    row(angle, "mm/m", metric, {1, 1000}),
    row(angle, "mil/in", inch, {1, 1000}, "mils/in thou/in"),
    row_times_pi(angle, "°", both, {1, 180}, "deg degs degree degrees grado grados"),
    row_times_pi(angle, "arcmin", both, {1, 10800}, "'"),
    row_times_pi(angle, "arcsec", both, {1, 648'000}, "\""),
    // time
    row(time, "s", both, {1, 1}, "sec secs second seconds"),
    row(time, "min", both, {60, 1}, "mins minute minutes"),
    row(time, "h", both, {3600, 1}, "hr hrs hour hours"),
    row(time, "d", both, {86400, 1}, "day days"),
    // mass
    row(mass, "kg", metric, {1, 1}, "kgs kilogram kilograms"),
    row(mass, "g", metric, {1, 1000}, "gram grams gr"),
    row(mass, "lb", inch, {45'359'237, 100'000'000}, "lbs lbm pound pounds"),
    row(mass, "oz", inch, {45'359'237, 1'600'000'000}, "ounce ounces"),
    // inertia
    row(inertia, "kg·m²", metric, {1, 1}, "kg·m2 kgm2"),
    row(inertia, "kg·cm²", metric, {1, 10'000}, "kg·cm2 kgcm2"),
    row(inertia, "lb·ft²", inch, {6'584'392'202'157, 156'250'000'000'000}, "lb·ft2 lbft2"),
    row(inertia, "lb·in²", inch, {731'599'133'573, 2'500'000'000'000'000}, "lb·in2 lbin2"),
    // force
    row(force, "N", metric, {1, 1}, "newton newtons"),
    row(force, "kN", metric, {1000, 1}),
    row(force, "kgf", metric, {980'665, 100'000}),
    row(force, "lbf", inch, {44'482'216'152'605, 10'000'000'000'000}, "lb lbs lbsf pound pounds"),
    row(force, "ozf", inch, {44'482'216'152'605, 160'000'000'000'000}, "oz ounce ounces"),
    // torque
    row(torque, "N·m", metric, {1, 1}, "Nm newton·metre newton·metres newton·meter newton·meters"),
    row(torque, "kN·m", metric, {1000, 1}, "kNm"),
    row(torque, "N·cm", metric, {1, 100}, "Ncm"),
    row(torque, "kgf·m", metric, {980'665, 100'000}, "kg·m kgm"),
    row(torque, "ft·lbf", inch, {3'389'544'870'828'501, 2'500'000'000'000'000},
        "lbf·ft ft·lb ft·lbs lb·ft lbs·ft ftlb ftlbs lbft foot·pound foot·pounds foot·lb foot·lbs"),
    row(torque, "in·lbf", inch, {1'129'848'290'276'167, 10'000'000'000'000'000},
        "lbf·in in·lb in·lbs lb·in lbs·in inlb inlbs inch·pound inch·pounds inch·lb inch·lbs"),
    row(torque, "in·ozf", inch, {1'129'848'290'276'167, 160'000'000'000'000'000},
        "ozf·in in·oz oz·in inch·ounce inch·ounces"),
    // energy
    row(energy, "J", metric, {1, 1}, "joule joules"),
    row(energy, "kJ", metric, {1000, 1}),
    row(energy, "kWh", metric, {3'600'000, 1}, "kW·h"),
    row(energy, "ft·lbf", inch, {3'389'544'870'828'501, 2'500'000'000'000'000},
        "lbf·ft ft·lb ft·lbs ftlb ftlbs foot·pound foot·pounds"),
    // power
    row(power, "W", metric, {1, 1}, "watt watts"),
    row(power, "kW", metric, {1000, 1}, "kilowatt kilowatts"),
    row(power, "hp", inch, {37'284'993'579'113'511, 50'000'000'000'000}, "bhp horsepower"),
    row(power, "PS", metric, {73'549'875, 100'000}, "CV cv"),
    // pressure_difference
    row(pressure_difference, "Pa", metric, {1, 1}, "N/m2 pascal pascals"),
    row(pressure_difference, "kPa", metric, {1000, 1}),
    row(pressure_difference, "MPa", metric, {1'000'000, 1}, "N/mm2"),
    row(pressure_difference, "bar", metric, {100'000, 1}, "bars"),
    row(pressure_difference, "mbar", metric, {100, 1}),
    row(pressure_difference, "mmHg", metric, {133'322'387'415, 1'000'000'000}, "mm·Hg"),
    row(pressure_difference, "psi", inch, {44'482'216'152'605, 6'451'600'000}, "lbf/in2 lb/in2"),
    row(pressure_difference, "inHg", inch, {3'386'388'640'341, 1'000'000'000}, "in·Hg \"Hg"),
    row(pressure_difference, "GPa", metric, {1'000'000'000, 1}),
    row(pressure_difference, "ksi", inch, {44'482'216'152'605, 6'451'600}),
    // pressure_gauge
    row(pressure_gauge, "Pa(g)", metric, {1, 1}, "Pag Pa·g Pa·gauge Pa·gage"),
    row(pressure_gauge, "kPa(g)", metric, {1000, 1}, "kPag kPa·g kPa·gauge kPa·gage"),
    row(pressure_gauge, "MPa(g)", metric, {1'000'000, 1}, "MPag MPa·g MPa·gauge MPa·gage"),
    row(pressure_gauge, "bar(g)", metric, {100'000, 1}, "barg bar·g bar·gauge bar·gage"),
    row(pressure_gauge, "mbar(g)", metric, {100, 1}, "mbarg mbar·g mbar·gauge mbar·gage"),
    row(pressure_gauge, "mmHg(g)", metric, {133'322'387'415, 1'000'000'000},
        "mmHgg mmHg·g mmHg·gauge mmHg·gage"),
    row(pressure_gauge, "psig", inch, {44'482'216'152'605, 6'451'600'000}, "psi(g) psi·g psi·gauge psi·gage"),
    row(pressure_gauge, "inHg(g)", inch, {3'386'388'640'341, 1'000'000'000},
        "inHgg inHg·g inHg·gauge inHg·gage"),
    // pressure_absolute
    row(pressure_absolute, "Pa(a)", metric, {1, 1}, "Paa Pa·a Pa·abs Pa·absolute Pa(abs)"),
    row(pressure_absolute, "kPa(a)", metric, {1000, 1}, "kPaa kPa·a kPa·abs kPa·absolute kPa(abs)"),
    row(pressure_absolute, "MPa(a)", metric, {1'000'000, 1}, "MPaa MPa·a MPa·abs MPa·absolute MPa(abs)"),
    row(pressure_absolute, "bar(a)", metric, {100'000, 1}, "bara bar·a bar·abs bar·absolute bar(abs)"),
    row(pressure_absolute, "mbar(a)", metric, {100, 1}, "mbara mbar·a mbar·abs mbar·absolute mbar(abs)"),
    row(pressure_absolute, "mmHg(a)", metric, {133'322'387'415, 1'000'000'000},
        "mmHga mmHg·a mmHg·abs mmHg·absolute mmHg(abs)"),
    row(pressure_absolute, "psia", inch, {44'482'216'152'605, 6'451'600'000},
        "psi(a) psi·a psi·abs psi·absolute psi(abs)"),
    row(pressure_absolute, "inHg(a)", inch, {3'386'388'640'341, 1'000'000'000},
        "inHga inHg·a inHg·abs inHg·absolute inHg(abs)"),
    // temperature
    row(temperature, "K", metric, {1, 1}, "kelvin kelvins"),
    row_shifted(temperature, "°C", metric, {1, 1}, {5463, 20}, "C degC deg·C celsius"),
    row_shifted(temperature, "°F", inch, {5, 9}, {45967, 100}, "F degF deg·F fahrenheit"),
    // temperature_difference
    row(temperature_difference, "K", metric, {1, 1}, "kelvin kelvins"),
    row(temperature_difference, "°C", metric, {1, 1}, "C degC deg·C celsius"),
    row(temperature_difference, "°F", inch, {5, 9}, "F degF deg·F fahrenheit"),
    // velocity
    row(velocity, "m/s", metric, {1, 1}),
    row(velocity, "mm/s", metric, {1, 1000}),
    row(velocity, "in/s", inch, {127, 5000}, "ips in/sec"),
    row(velocity, "ft/s", inch, {381, 1250}, "fps ft/sec"),
    row(velocity, "ft/min", inch, {127, 25000}, "fpm"),
    // speed
    row(speed, "rad/s", both, {1, 1}),
    row_times_pi(speed, "rpm", both, {1, 30}, "r/min 1/min rev/min revs/min min-1 rpms"),
    row_times_pi(speed, "rev/s", both, {2, 1}, "r/s rps"),
    // frequency
    row(frequency, "Hz", both, {1, 1}, "hertz 1/s s-1"),
    row(frequency, "kHz", both, {1000, 1}),
    row(frequency, "cpm", both, {1, 60}, "c/min cycles/min"),
    // volume_flow
    row(volume_flow, "m³/s", metric, {1, 1}, "m3/s"),
    row(volume_flow, "m³/h", metric, {1, 3600}, "m3/h m3/hr m3/hour"),
    row(volume_flow, "L/s", metric, {1, 1000}, "l/s"),
    row(volume_flow, "L/min", metric, {1, 60000}, "l/min lpm"),
    row(volume_flow, "L/h", metric, {1, 3'600'000}, "l/h l/hr"),
    row(volume_flow, "mL/h", metric, {1, 3'600'000'000}, "ml/h cc/h cm3/h"),
    row(volume_flow, "mL/min", metric, {1, 60'000'000}, "ml/min cc/min cm3/min"),
    row(volume_flow, "gpm", inch, {3'785'411'784, 60'000'000'000'000},
        "usgpm us·gpm gal/min usgal/min us·gal/min"),
    row(volume_flow, "impgpm", inch, {454'609, 6'000'000'000}, "imp·gpm igpm imp·gal/min"),
    // viscosity
    row(viscosity, "Pa·s", metric, {1, 1}, "Pas"),
    row(viscosity, "mPa·s", metric, {1, 1000}, "mPas"),
    row(viscosity, "cP", metric, {1, 1000}, "cps centipoise"),
    // expansion
    row(expansion, "1/K", metric, {1, 1}, "K-1 1/°C 1/degC"),
    row(expansion, "µm/(m·K)", metric, {1, 1'000'000},
        "um/(m·K) um/m·K um/m/K um/(m·°C) um/m·°C um/m/°C ppm/K ppm/°C"),
    row(expansion, "1/°F", inch, {9, 5}, "1/degF"),
    row(expansion, "µin/(in·°F)", inch, {9, 5'000'000}, "uin/(in·°F) uin/in·°F uin/in/°F ppm/°F"),
    // density
    row(density, "kg/m³", metric, {1, 1}, "kg/m3"),
    row(density, "kg/L", metric, {1000, 1}, "kg/l kg/dm3 g/cm3 g/mL g/ml"),
    row(density, "lb/ft³", inch, {28'349'523'125, 1'769'802'912}, "lb/ft3 lbm/ft3"),
    // heat_capacity
    row(heat_capacity, "J/(kg·K)", metric, {1, 1}, "J/kg·K J/kg/K J/(kg·°C)"),
    row(heat_capacity, "kJ/(kg·K)", metric, {1000, 1}, "kJ/kg·K kJ/kg/K kJ/(kg·°C)"),
    row(heat_capacity, "Btu/(lb·°F)", inch, {20'934, 5},
        "Btu/lb·°F Btu/lb/°F BTU/(lb·°F) BTU/lb·F Btu/(lb·F)"),
    // conductivity
    row(conductivity, "W/(m·K)", metric, {1, 1}, "W/m·K W/m/K W/(m·°C)"),
    row(conductivity, "Btu/(h·ft·°F)", inch, {52'752'792'631, 30'480'000'000},
        "Btu/h·ft·°F Btu/(hr·ft·°F) BTU/(h·ft·°F) Btu/(h·ft·F)"),
    // kinematic_viscosity
    row(kinematic_viscosity, "m²/s", metric, {1, 1}, "m2/s"),
    row(kinematic_viscosity, "mm²/s", metric, {1, 1'000'000}, "mm2/s"),
    row(kinematic_viscosity, "cSt", both, {1, 1'000'000}, "centistoke centistokes"),
    // spring_rate
    row(spring_rate, "N/m", metric, {1, 1}),
    row(spring_rate, "N/mm", metric, {1000, 1}),
    row(spring_rate, "lbf/in", inch, {8'896'443'230'521, 50'800'000'000}, "lb/in lbs/in"),
    // pressure_velocity
    row(pressure_velocity, "Pa·m/s", metric, {1, 1}, "W/m² W/m2"),
    row(pressure_velocity, "MPa·m/s", metric, {1'000'000, 1}, "N/mm²·m/s N/mm2·m/s W/mm² W/mm2"),
    row(pressure_velocity, "bar·m/s", metric, {100'000, 1}),
    row(pressure_velocity, "psi·ft/min", inch, {8'896'443'230'521, 254'000'000'000}, "psi·fpm"),
    // number
    row(number, "", both, {1, 1}),
    // percent
    row(percent, "fraction", both, {1, 1}),
    row(percent, "%", both, {1, 100}, "pct percent per·cent"),
    row(percent, "g/kg", both, {1, 1000}),
};

}  // namespace

std::span<const Unit> unit_table() {
  return table;
}

}  // namespace pumpwright
