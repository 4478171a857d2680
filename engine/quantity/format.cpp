#include "engine/quantity/format.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <charconv>
#include <cmath>
#include <limits>

#include "engine/quantity/written_number.h"

namespace pumpwright {
namespace {

constexpr double exponent_from = 1e12;  // in the unit: from here upward an exponent is shorter to read

std::string with_unit(const std::string& number, const Unit& unit) {
  if (unit.symbol.empty()) return number;
  return number + (unit.symbol == "°" ? "" : " ") + std::string(unit.symbol);
}

// Fixed notation of the largest number shown that way has 12 digits before and 21 behind the point.
using Buffer = std::array<char, 64>;

template <class... Form>
std::string text_of(double value, Form... form) {
  Buffer buffer{};
  const auto result = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, form...);
  assert(result.ec == std::errc());
  return {buffer.data(), result.ptr};
}

std::string shortest(double value) {
  return text_of(value == 0 ? 0.0 : value);
}

// `value` to so many significant digits; infinite when that goes over the largest double.
double rounded(double value, int digits) {
  const std::string text = text_of(value, std::chars_format::scientific, digits - 1);
  double result = 0;
  const auto read = std::from_chars(text.data(), text.data() + text.size(), result);
  return read.ec == std::errc() ? result : std::numeric_limits<double>::infinity();
}

// Whether the digits before any exponent are all zeros.
bool shows_zero(const std::string& number) {
  const auto mantissa = number.substr(0, number.find('e'));
  return mantissa.find_first_of("123456789") == std::string::npos;
}

std::string signed_as(std::string number, Sign sign) {
  if (shows_zero(number)) return number.starts_with('-') ? number.substr(1) : number;
  if (sign == Sign::always && !number.starts_with('-')) number.insert(0, 1, '+');
  return number;
}

double number_in(const AnyQuantity& value, const Unit& unit) {
  assert(std::isfinite(value.si()));
  assert(value.kind() == unit.kind);
  return from_si(value.si(), unit);
}

// Whether `number` (written by us, perhaps with a minus) in `unit` reads as exactly `si`.
bool reads_as(const std::string& number, const Unit& unit, double si) {
  std::string_view rest = number;
  const bool negative = rest.starts_with('-');
  if (negative) rest.remove_prefix(1);
  WrittenNumber read = read_number(rest, Refusal("", number, unit.kind, [](Kind) { return std::string(); }));
  read.negative = negative;
  return si_of(read, unit) == si;
}

// A step of a kind may be given for a point of another: temperatures and the three pressures. Only asserted
// on.
[[maybe_unused]] bool is_step_of(Kind step, Kind kind) {
  if (kind == Kind::temperature) return step == Kind::temperature_difference;
  if (kind == Kind::pressure_gauge || kind == Kind::pressure_absolute)
    return step == Kind::pressure_difference;
  return step == kind;
}

}  // namespace

std::string format_lossless(const AnyQuantity& value, const Unit& preferred) {
  // 17 digits tell any double from its neighbours. Two numbers of up to 15 digits never share a double, so
  // the one that reads as the value, if there is one, is what 15 digits give; unless a shift swallows digits
  // (0.1 °C is 273.25 K).
  constexpr int digits_enough = 17;
  const int digits_first = preferred.shift_numerator == 0 ? 15 : 1;
  const double number = number_in(value, preferred);
  if (!preferred.is_si() && std::isfinite(number)) {
    for (int digits = digits_first; digits <= digits_enough; ++digits) {
      const double shorter = rounded(number, digits);
      if (!std::isfinite(shorter)) continue;
      const std::string text = shortest(shorter);
      if (reads_as(text, preferred, value.si())) return with_unit(text, preferred);
    }
  }
  return with_unit(shortest(value.si()), si_unit(value.kind()));
}

std::string format_lossless(const AnyQuantity& value) {
  return format_lossless(value, si_unit(value.kind()));
}

std::string format_decimals(const AnyQuantity& value, const Unit& unit, int decimals, Sign sign) {
  assert(decimals >= 0 && decimals <= 12);
  const double number = number_in(value, unit);
  const bool fixed = std::fabs(number) < exponent_from;
  const std::string text = fixed ? text_of(number, std::chars_format::fixed, decimals)
                                 : text_of(number, std::chars_format::scientific, 12);
  return with_unit(signed_as(text, sign), unit);
}

std::string format_significant(const AnyQuantity& value, const Unit& unit, int digits, Sign sign) {
  assert(digits >= 1 && digits <= 15);
  const double number = number_in(value, unit);
  const std::string scientific = text_of(number, std::chars_format::scientific, digits - 1);
  // The exponent after rounding, so that 9.96 to two digits is "10" and not "10.0".
  const auto mark = scientific.find('e');
  const auto* first = scientific.data() + mark + (scientific[mark + 1] == '+' ? 2 : 1);
  int exponent = 0;
  std::from_chars(first, scientific.data() + scientific.size(), exponent);
  if (number != 0 && (exponent < -6 || exponent >= 12)) return with_unit(signed_as(scientific, sign), unit);
  const int decimals = std::max(0, digits - 1 - exponent);
  return with_unit(signed_as(text_of(number, std::chars_format::fixed, decimals), sign), unit);
}

std::string format_graduated(const AnyQuantity& value, const Unit& unit, const AnyQuantity& graduation,
                             Sign sign) {
  assert(is_step_of(graduation.kind(), value.kind()));
  return format_decimals(value, unit, decimals_for_graduation(graduation.si(), unit), sign);
}

int decimals_for_graduation(double graduation_si, const Unit& unit) {
  constexpr int decimals_max = 12;
  constexpr double rounding = 1e-6;  // relative; a graduation is never given more exactly
  const double step = step_from_si(graduation_si, unit);
  assert(std::isfinite(step) && step > 0);
  const int leading = static_cast<int>(std::floor(std::log10(step) + rounding));
  if (leading > 0) return 0;
  const double scaled = step * std::pow(10.0, -leading);
  const bool one_digit = std::fabs(scaled - std::round(scaled)) < rounding * scaled;
  return std::min(-leading + (one_digit ? 0 : 1), decimals_max);
}

}  // namespace pumpwright
