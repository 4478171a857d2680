#include "engine/quantity/unit.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <limits>
#include <numbers>

#include "engine/quantity/plain_text.h"
#include "engine/quantity/unit_table.h"

namespace pumpwright {
namespace {

char lower(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

bool has_mixed_case(std::string_view text) {
  const bool capital = std::any_of(text.begin(), text.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
  const bool small = std::any_of(text.begin(), text.end(), [](char c) { return c >= 'a' && c <= 'z'; });
  return capital && small;
}

// Equal but for capitals and small letters; a mixed-case text never swaps a first m (milli) for M (mega).
bool same_but_case(std::string_view written, std::string_view known) {
  if (!std::equal(written.begin(), written.end(), known.begin(), known.end(),
                  [](char a, char b) { return lower(a) == lower(b); }))
    return false;
  const bool prefix_swapped = !written.empty() && lower(written[0]) == 'm' && written[0] != known[0];
  return !prefix_swapped || !has_mixed_case(written);
}

template <class Equal>
bool is_spelled(const Unit& unit, std::string_view text, Equal equal) {
  if (equal(text, unit.symbol)) return true;
  std::string_view rest = unit.spellings;
  while (!rest.empty()) {
    const auto end = std::min(rest.find(' '), rest.size());
    if (equal(text, rest.substr(0, end))) return true;
    rest.remove_prefix(std::min(end + 1, rest.size()));
  }
  return false;
}

// The first unit accepted by `fits` that is spelled `spelling`: exactly if there is one, else but for case.
template <class Fits>
const Unit* find_spelled(std::string_view spelling, Fits fits) {
  const auto plain = plain_text(spelling);
  if (!plain) return nullptr;
  const std::string text = plain_unit_text(*plain);
  const auto exact = [](std::string_view a, std::string_view b) { return a == b; };
  for (const Unit& unit : unit_table())
    if (fits(unit) && is_spelled(unit, text, exact)) return &unit;
  for (const Unit& unit : unit_table())
    if (fits(unit) && is_spelled(unit, text, same_but_case)) return &unit;
  return nullptr;
}

// Long double keeps 64 bits on the machines we build for, so one rounding to double is what remains.
long double factor_of(const Unit& unit) {
  const long double ratio =
      static_cast<long double>(unit.numerator) / static_cast<long double>(unit.denominator);
  return unit.times_pi ? ratio * std::numbers::pi_v<long double> : ratio;
}

long double shift_of(const Unit& unit) {
  return static_cast<long double>(unit.shift_numerator) / static_cast<long double>(unit.shift_denominator);
}

// Below `below_si` (of the absolute value) this unit is used; rows of one kind and system in rising order.
struct Suitable {
  Kind kind;
  System system;
  double below_si;
  std::string_view symbol;
};

constexpr double any_size = std::numeric_limits<double>::infinity();

constexpr std::array suitable{
    Suitable{Kind::length, System::metric, 1e-4, "µm"},
    Suitable{Kind::length, System::metric, 10, "mm"},
    Suitable{Kind::length, System::metric, any_size, "m"},
    Suitable{Kind::length, System::inch, 0.1 * 0.0254, "thou"},
    Suitable{Kind::length, System::inch, 10, "in"},
    Suitable{Kind::length, System::inch, any_size, "ft"},
    Suitable{Kind::area, System::metric, 1e-3, "mm²"},
    Suitable{Kind::area, System::metric, 1, "cm²"},
    Suitable{Kind::area, System::metric, any_size, "m²"},
    Suitable{Kind::area, System::inch, 1, "in²"},
    Suitable{Kind::area, System::inch, any_size, "ft²"},
    Suitable{Kind::volume, System::metric, 1e-3, "mL"},
    Suitable{Kind::volume, System::metric, 1, "L"},
    Suitable{Kind::volume, System::metric, any_size, "m³"},
    Suitable{Kind::volume, System::inch, 3.785411784e-3, "fl oz"},
    Suitable{Kind::volume, System::inch, any_size, "gal"},
    Suitable{Kind::angle, System::both, any_size, "°"},
    Suitable{Kind::time, System::both, 120, "s"},
    Suitable{Kind::time, System::both, 7200, "min"},
    Suitable{Kind::time, System::both, 172800, "h"},
    Suitable{Kind::time, System::both, any_size, "d"},
    Suitable{Kind::mass, System::metric, 1, "g"},
    Suitable{Kind::mass, System::metric, any_size, "kg"},
    Suitable{Kind::mass, System::inch, 0.45359237, "oz"},
    Suitable{Kind::mass, System::inch, any_size, "lb"},
    Suitable{Kind::inertia, System::metric, 0.1, "kg·cm²"},
    Suitable{Kind::inertia, System::metric, any_size, "kg·m²"},
    Suitable{Kind::inertia, System::inch, 0.0421401100938048, "lb·in²"},
    Suitable{Kind::inertia, System::inch, any_size, "lb·ft²"},
    Suitable{Kind::force, System::metric, 1e4, "N"},
    Suitable{Kind::force, System::metric, any_size, "kN"},
    Suitable{Kind::force, System::inch, any_size, "lbf"},
    Suitable{Kind::torque, System::metric, 1e4, "N·m"},
    Suitable{Kind::torque, System::metric, any_size, "kN·m"},
    Suitable{Kind::torque, System::inch, 20, "in·lbf"},
    Suitable{Kind::torque, System::inch, any_size, "ft·lbf"},
    Suitable{Kind::energy, System::metric, 1e4, "J"},
    Suitable{Kind::energy, System::metric, any_size, "kJ"},
    Suitable{Kind::energy, System::inch, any_size, "ft·lbf"},
    Suitable{Kind::power, System::metric, 1e3, "W"},
    Suitable{Kind::power, System::metric, any_size, "kW"},
    Suitable{Kind::power, System::inch, any_size, "hp"},
    Suitable{Kind::pressure_difference, System::metric, 1e3, "Pa"},
    Suitable{Kind::pressure_difference, System::metric, 1e6, "kPa"},
    Suitable{Kind::pressure_difference, System::metric, 1e10, "MPa"},
    Suitable{Kind::pressure_difference, System::metric, any_size, "GPa"},
    Suitable{Kind::pressure_difference, System::inch, 1e8, "psi"},
    Suitable{Kind::pressure_difference, System::inch, any_size, "ksi"},
    Suitable{Kind::pressure_gauge, System::metric, 1e4, "mbar(g)"},
    Suitable{Kind::pressure_gauge, System::metric, any_size, "bar(g)"},
    Suitable{Kind::pressure_gauge, System::inch, any_size, "psig"},
    Suitable{Kind::pressure_absolute, System::metric, 1e4, "mbar(a)"},
    Suitable{Kind::pressure_absolute, System::metric, any_size, "bar(a)"},
    Suitable{Kind::pressure_absolute, System::inch, any_size, "psia"},
    Suitable{Kind::temperature, System::metric, any_size, "°C"},
    Suitable{Kind::temperature, System::inch, any_size, "°F"},
    Suitable{Kind::temperature_difference, System::metric, any_size, "K"},
    Suitable{Kind::temperature_difference, System::inch, any_size, "°F"},
    Suitable{Kind::velocity, System::metric, 0.1, "mm/s"},
    Suitable{Kind::velocity, System::metric, any_size, "m/s"},
    Suitable{Kind::velocity, System::inch, 0.1, "in/s"},
    Suitable{Kind::velocity, System::inch, any_size, "ft/s"},
    Suitable{Kind::speed, System::both, any_size, "rpm"},
    Suitable{Kind::frequency, System::both, any_size, "Hz"},
    Suitable{Kind::volume_flow, System::metric, 1e-6, "mL/min"},
    Suitable{Kind::volume_flow, System::metric, 1e-4, "L/min"},
    Suitable{Kind::volume_flow, System::metric, any_size, "m³/h"},
    Suitable{Kind::volume_flow, System::inch, any_size, "gpm"},
    Suitable{Kind::viscosity, System::metric, 1, "mPa·s"},
    Suitable{Kind::viscosity, System::metric, any_size, "Pa·s"},
    Suitable{Kind::viscosity, System::inch, any_size, "cP"},
    Suitable{Kind::expansion, System::metric, any_size, "µm/(m·K)"},
    Suitable{Kind::expansion, System::inch, any_size, "µin/(in·°F)"},
    Suitable{Kind::density, System::metric, any_size, "kg/m³"},
    Suitable{Kind::density, System::inch, any_size, "lb/ft³"},
    Suitable{Kind::heat_capacity, System::metric, any_size, "kJ/(kg·K)"},
    Suitable{Kind::heat_capacity, System::inch, any_size, "Btu/(lb·°F)"},
    Suitable{Kind::conductivity, System::metric, any_size, "W/(m·K)"},
    Suitable{Kind::conductivity, System::inch, any_size, "Btu/(h·ft·°F)"},
    Suitable{Kind::kinematic_viscosity, System::metric, any_size, "mm²/s"},
    Suitable{Kind::kinematic_viscosity, System::inch, any_size, "cSt"},
    Suitable{Kind::spring_rate, System::metric, any_size, "N/mm"},
    Suitable{Kind::spring_rate, System::inch, any_size, "lbf/in"},
    Suitable{Kind::pressure_velocity, System::metric, any_size, "MPa·m/s"},
    Suitable{Kind::pressure_velocity, System::inch, any_size, "psi·ft/min"},
    Suitable{Kind::number, System::both, any_size, ""},
    Suitable{Kind::percent, System::both, any_size, "%"},
};

}  // namespace

std::span<const Unit> all_units() {
  return unit_table();
}

const Unit& si_unit(Kind kind) {
  const auto table = unit_table();
  const auto found =
      std::find_if(table.begin(), table.end(), [kind](const Unit& u) { return u.kind == kind; });
  assert(found != table.end() && found->is_si());
  return *found;
}

const Unit* find_unit(std::string_view spelling, Kind kind) {
  return find_spelled(spelling, [kind](const Unit& u) { return u.kind == kind; });
}

const Unit* find_unit_of_any_kind(std::string_view spelling) {
  return find_spelled(spelling, [](const Unit&) { return true; });
}

const Unit& unit_with_symbol(std::string_view symbol, Kind kind) {
  const auto table = unit_table();
  const auto found = std::find_if(table.begin(), table.end(),
                                  [&](const Unit& u) { return u.kind == kind && u.symbol == symbol; });
  assert(found != table.end());
  return *found;
}

std::string symbols_of(Kind kind) {
  std::string list;
  for (const Unit& unit : unit_table()) {
    if (unit.kind != kind) continue;
    if (!list.empty()) list += ", ";
    list += unit.symbol;
  }
  return list;
}

double to_si(double value, const Unit& unit) {
  if (unit.is_si()) return value;
  return static_cast<double>((static_cast<long double>(value) + shift_of(unit)) * factor_of(unit));
}

double from_si(double si, const Unit& unit) {
  if (unit.is_si()) return si;
  return static_cast<double>(static_cast<long double>(si) / factor_of(unit) - shift_of(unit));
}

double step_to_si(double step, const Unit& unit) {
  return static_cast<double>(static_cast<long double>(step) * factor_of(unit));
}

double step_from_si(double step_si, const Unit& unit) {
  return static_cast<double>(static_cast<long double>(step_si) / factor_of(unit));
}

const Unit& suitable_unit(Kind kind, double si, System system) {
  assert(system != System::both);
  const double size = std::isfinite(si) ? std::fabs(si) : 0;
  const auto* const found = std::find_if(suitable.begin(), suitable.end(), [&](const Suitable& s) {
    return s.kind == kind && (s.system == system || s.system == System::both) && size < s.below_si;
  });
  assert(found != suitable.end());
  return unit_with_symbol(found->symbol, kind);
}

}  // namespace pumpwright
