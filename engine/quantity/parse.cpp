#include "engine/quantity/parse.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "engine/quantity/plain_text.h"
#include "engine/quantity/written_number.h"

namespace pumpwright {
namespace {

constexpr std::size_t characters_max = 64;
constexpr std::size_t bytes_max = 4 * characters_max;

std::size_t characters_in(std::string_view utf8) {
  return static_cast<std::size_t>(std::count_if(
      utf8.begin(), utf8.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

std::string valid_value(Kind kind) {
  return fmt::format("{} such as {}", info(kind).phrase, info(kind).example);
}

std::string valid_unit(Kind kind) {
  return fmt::format("a unit of {}: {}", info(kind).name, symbols_of(kind));
}

// `text` in plain spelling, without surrounding spaces; refused when it is empty, too long or not text.
std::string plain_or_refused(std::string_view text, const Refusal& refusal) {
  if (text.size() > bytes_max || characters_in(text) > characters_max)
    refusal.because(fmt::format("longer than {} characters", characters_max));
  const auto plain = plain_text(text);
  if (!plain) refusal.because("not readable as UTF-8 text");
  const std::string_view inner = trimmed(*plain);
  if (inner.empty()) refusal.because("nothing is written");
  return std::string(inner);
}

void skip_spaces(std::string_view& rest) {
  rest.remove_prefix(std::min(rest.find_first_not_of(' '), rest.size()));
}

bool take(std::string_view& rest, char c) {
  if (!rest.starts_with(c)) return false;
  rest.remove_prefix(1);
  return true;
}

bool take_sign(std::string_view& rest) {
  const bool negative = take(rest, '-');
  if (!negative) take(rest, '+');
  skip_spaces(rest);
  return negative;
}

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

// The symbol of the unit of `kind` that has the size of `unit`; empty when there is none.
std::string_view sibling_symbol(const Unit& unit, Kind kind) {
  for (const Unit& other : all_units())
    if (other.kind == kind && other.numerator == unit.numerator && other.denominator == unit.denominator)
      return other.symbol;
  return {};
}

std::string why_not_a_unit(std::string_view text, Kind kind) {
  if (is_digit(text.front())) return "two numbers: leave no space between the digits of one";
  const Unit* other = find_unit_of_any_kind(text);
  if (other == nullptr) return fmt::format("{} is no unit known here", text);
  const bool wants_reference = kind == Kind::pressure_gauge || kind == Kind::pressure_absolute;
  const auto gauge = sibling_symbol(*other, Kind::pressure_gauge);
  if (wants_reference && other->kind == Kind::pressure_difference && !gauge.empty())
    return fmt::format("{} alone does not say gauge or absolute: write {} or {}", text, gauge,
                       sibling_symbol(*other, Kind::pressure_absolute));
  return fmt::format("{} is {}", text, info(other->kind).phrase);
}

const Unit& unit_or_refused(std::string_view text, Kind kind, const Refusal& refusal) {
  const Unit* unit = find_unit(text, kind);
  if (unit == nullptr) refusal.because(why_not_a_unit(text, kind));
  return *unit;
}

const Unit& default_or_refused(Kind kind, const ParseContext& context, const Refusal& refusal) {
  if (kind == Kind::number) return si_unit(kind);
  if (context.default_unit == nullptr) refusal.because("no unit is written");
  assert(context.default_unit->kind == kind);
  return *context.default_unit;
}

// `1' 3 1/2"` and `1 ft 3 in`: after `feet` has been read, reads the inches; nothing when `rest` is not of
// that form.
std::optional<WrittenNumber> take_inches(const WrittenNumber& feet, std::string_view& rest,
                                         const Refusal& refusal) {
  std::string_view ahead = rest;
  skip_spaces(ahead);
  const auto mark_end = std::min(ahead.find_first_of("0123456789"), ahead.size());
  std::string_view mark = ahead.substr(0, mark_end);
  if (mark_end == ahead.size() || mark.empty()) return std::nullopt;
  if (mark.back() == '.') mark.remove_suffix(1);  // of `1' .5"`
  ahead.remove_prefix(mark.size());
  mark = trimmed(mark);
  if (mark.ends_with('-')) mark = trimmed(mark.substr(0, mark.size() - 1));
  const Unit* foot = find_unit(mark, Kind::length);
  if (foot == nullptr || foot->symbol != "ft") return std::nullopt;
  if (feet.denominator != 1) refusal.because("feet before inches are whole");
  WrittenNumber inches = read_number(ahead, refusal);
  if (inches.numerator >= 12 * inches.denominator) refusal.because("12 inches or more after the feet");
  skip_spaces(ahead);
  const Unit* inch = find_unit(ahead, Kind::length);
  if (inch == nullptr || inch->symbol != "in") refusal.because("inches are wanted after the feet");
  inches.numerator += 12 * feet.numerator * inches.denominator;
  inches.decimal.clear();
  rest = {};
  return inches;
}

void check_physical(const Written& written, const Refusal& refusal) {
  constexpr double vacuum_pa = -101325;
  const Unit& unit = *written.unit;
  if (unit.kind == Kind::temperature && written.si < 0)
    refusal.because(fmt::format("below absolute zero, {:.6g} {}", from_si(0, unit), unit.symbol));
  if (unit.kind == Kind::pressure_absolute && written.si < 0)
    refusal.because("an absolute pressure is never negative");
  if (unit.kind == Kind::pressure_gauge && written.si < vacuum_pa)
    refusal.because(fmt::format("below full vacuum, {:.6g} {}", from_si(vacuum_pa, unit), unit.symbol));
}

}  // namespace

Written parse_written(std::string_view text, Kind kind, const ParseContext& context) {
  const std::string_view inner = trimmed(text);
  const Refusal refusal(context.field, inner, kind, valid_value);
  const std::string plain = plain_or_refused(inner, refusal);
  std::string_view rest = plain;
  const bool negative = take_sign(rest);
  WrittenNumber number = read_number(rest, refusal);
  Written written;
  if (kind == Kind::length) {
    if (auto inches = take_inches(number, rest, refusal)) {
      number = *inches;
      written.unit = &unit_with_symbol("in", Kind::length);
    }
  }
  if (written.unit == nullptr) {
    skip_spaces(rest);
    if (rest.size() > 1 && rest.front() == '-' && is_letter(rest[1])) rest.remove_prefix(1);  // "3/8-in"
    written.unit_was_written = !rest.empty();
    written.unit =
        rest.empty() ? &default_or_refused(kind, context, refusal) : &unit_or_refused(rest, kind, refusal);
  }
  number.negative = negative;
  written.text = std::string(inner);
  written.number = value_of(number);
  written.si = si_of(number, *written.unit);
  written.decimals = number.decimals;
  written.last_place_si = step_to_si(number.last_place, *written.unit);
  if (!std::isfinite(written.si) || !std::isfinite(written.number) || !std::isfinite(written.last_place_si))
    refusal.because("too large or too small a number");
  check_physical(written, refusal);
  return written;
}

const Unit& parse_unit(std::string_view text, Kind kind, const std::string& field) {
  const std::string_view inner = trimmed(text);
  const Refusal refusal(field, inner, kind, valid_unit);
  return unit_or_refused(plain_or_refused(inner, refusal), kind, refusal);
}

Length parse_length(std::string_view text, const ParseContext& context) {
  return parse_as<Length>(text, context);
}
Area parse_area(std::string_view text, const ParseContext& context) {
  return parse_as<Area>(text, context);
}
Volume parse_volume(std::string_view text, const ParseContext& context) {
  return parse_as<Volume>(text, context);
}
Angle parse_angle(std::string_view text, const ParseContext& context) {
  return parse_as<Angle>(text, context);
}
Time parse_time(std::string_view text, const ParseContext& context) {
  return parse_as<Time>(text, context);
}
Mass parse_mass(std::string_view text, const ParseContext& context) {
  return parse_as<Mass>(text, context);
}
Inertia parse_inertia(std::string_view text, const ParseContext& context) {
  return parse_as<Inertia>(text, context);
}
Force parse_force(std::string_view text, const ParseContext& context) {
  return parse_as<Force>(text, context);
}
Torque parse_torque(std::string_view text, const ParseContext& context) {
  return parse_as<Torque>(text, context);
}
Energy parse_energy(std::string_view text, const ParseContext& context) {
  return parse_as<Energy>(text, context);
}
Power parse_power(std::string_view text, const ParseContext& context) {
  return parse_as<Power>(text, context);
}
Pressure parse_pressure_difference(std::string_view text, const ParseContext& context) {
  return parse_as<Pressure>(text, context);
}
GaugePressure parse_gauge_pressure(std::string_view text, const ParseContext& context) {
  return parse_as<GaugePressure>(text, context);
}
AbsolutePressure parse_absolute_pressure(std::string_view text, const ParseContext& context) {
  return parse_as<AbsolutePressure>(text, context);
}
Temperature parse_temperature(std::string_view text, const ParseContext& context) {
  return parse_as<Temperature>(text, context);
}
TemperatureDifference parse_temperature_difference(std::string_view text, const ParseContext& context) {
  return parse_as<TemperatureDifference>(text, context);
}
Velocity parse_velocity(std::string_view text, const ParseContext& context) {
  return parse_as<Velocity>(text, context);
}
Speed parse_speed(std::string_view text, const ParseContext& context) {
  return parse_as<Speed>(text, context);
}
Frequency parse_frequency(std::string_view text, const ParseContext& context) {
  return parse_as<Frequency>(text, context);
}
VolumeFlow parse_volume_flow(std::string_view text, const ParseContext& context) {
  return parse_as<VolumeFlow>(text, context);
}
Viscosity parse_viscosity(std::string_view text, const ParseContext& context) {
  return parse_as<Viscosity>(text, context);
}
Expansion parse_expansion(std::string_view text, const ParseContext& context) {
  return parse_as<Expansion>(text, context);
}
Density parse_density(std::string_view text, const ParseContext& context) {
  return parse_as<Density>(text, context);
}
HeatCapacity parse_heat_capacity(std::string_view text, const ParseContext& context) {
  return parse_as<HeatCapacity>(text, context);
}
Conductivity parse_conductivity(std::string_view text, const ParseContext& context) {
  return parse_as<Conductivity>(text, context);
}
KinematicViscosity parse_kinematic_viscosity(std::string_view text, const ParseContext& context) {
  return parse_as<KinematicViscosity>(text, context);
}
SpringRate parse_spring_rate(std::string_view text, const ParseContext& context) {
  return parse_as<SpringRate>(text, context);
}
PressureVelocity parse_pressure_velocity(std::string_view text, const ParseContext& context) {
  return parse_as<PressureVelocity>(text, context);
}

double parse_number(std::string_view text, const ParseContext& context) {
  return parse_written(text, Kind::number, context).si;
}
double parse_fraction(std::string_view text, const ParseContext& context) {
  return parse_written(text, Kind::percent, context).si;
}

}  // namespace pumpwright
