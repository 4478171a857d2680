#include "engine/quantity/written_number.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <limits>
#include <numbers>
#include <optional>

#include <fmt/format.h>

#include "engine/quantity/bad_input.h"
#include "engine/quantity/plain_text.h"

namespace pumpwright {
namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

std::string_view take_digits(std::string_view& rest) {
  const auto end = std::find_if_not(rest.begin(), rest.end(), is_digit);
  const auto digits = rest.substr(0, static_cast<std::size_t>(end - rest.begin()));
  rest.remove_prefix(digits.size());
  return digits;
}

bool take(std::string_view& rest, char c) {
  if (!rest.starts_with(c)) return false;
  rest.remove_prefix(1);
  return true;
}

// Exact up to 10^27 where long double has 64 bits.
long double power_of_ten(int exponent) {
  long double power = 1;
  for (int i = 0; i < exponent; ++i)
    power *= 10;
  return power;
}

constexpr std::size_t fraction_digits_max = 9;

std::int64_t whole_number(std::string_view digits, const Refusal& refusal) {
  if (digits.size() > fraction_digits_max) refusal.because("a part of the fraction has more than 9 digits");
  std::int64_t value = 0;
  std::from_chars(digits.data(), digits.data() + digits.size(), value);
  return value;
}

// "n/d" at the front of `rest`; nothing, and `rest` as it was, when there is no such thing.
struct Fraction {
  std::string_view numerator;
  std::string_view denominator;
};
std::optional<Fraction> take_fraction(std::string_view& rest) {
  std::string_view ahead = rest;
  Fraction fraction;
  fraction.numerator = take_digits(ahead);
  if (fraction.numerator.empty() || !take(ahead, '/')) return std::nullopt;
  fraction.denominator = take_digits(ahead);
  if (fraction.denominator.empty()) return std::nullopt;
  rest = ahead;
  return fraction;
}

// Decimals of n/d written out, at most 6.
int decimals_of(std::int64_t n, std::int64_t d) {
  constexpr int decimals_max = 6;
  int decimals = 0;
  for (std::int64_t left = n % d; left != 0 && decimals < decimals_max; ++decimals)
    left = left * 10 % d;
  return decimals;
}

WrittenNumber number_of(std::string_view whole, const Fraction& fraction, const Refusal& refusal) {
  const std::int64_t w = whole_number(whole, refusal);
  const std::int64_t n = whole_number(fraction.numerator, refusal);
  const std::int64_t d = whole_number(fraction.denominator, refusal);
  if (d == 0) refusal.because("the fraction divides by zero");
  if (!whole.empty() && n >= d) refusal.because("the fraction after the whole number is not below one");
  WrittenNumber number;
  number.numerator = static_cast<long double>(w) * static_cast<long double>(d) + static_cast<long double>(n);
  number.denominator = static_cast<long double>(d);
  number.decimals = decimals_of(n, d);
  number.last_place = 1.0 / static_cast<double>(d);
  return number;
}

// "3/8", "1 3/8" or "1-3/8"; nothing when `rest` starts with something else.
std::optional<WrittenNumber> take_fractional(std::string_view& rest, const Refusal& refusal) {
  std::string_view ahead = rest;
  std::string_view whole;
  auto fraction = take_fraction(ahead);
  if (!fraction) {
    whole = take_digits(ahead);
    if (whole.empty()) return std::nullopt;
    if (!take(ahead, '-')) {
      if (!take(ahead, ' ')) return std::nullopt;
      ahead.remove_prefix(std::min(ahead.find_first_not_of(' '), ahead.size()));
    }
    fraction = take_fraction(ahead);
    if (!fraction) return std::nullopt;
  }
  rest = ahead;
  return number_of(whole, *fraction, refusal);
}

struct Decimal {
  std::string_view whole;
  std::string_view part;
  int exponent = 0;
};

// Refuses what could be read two ways: one comma with three digits behind and one to three before, unless a
// zero leads ("0,180").
void check_comma(const Decimal& decimal, const Refusal& refusal) {
  if (decimal.part.empty()) refusal.because("nothing follows the comma");
  const bool groups = decimal.part.size() == 3 && !decimal.whole.empty() && decimal.whole.size() <= 3;
  if (groups && decimal.whole.front() != '0')
    refusal.because(fmt::format("{0},{1} may be {0}.{1} or {0}{1}: write it as one of these", decimal.whole,
                                decimal.part));
}

int take_exponent(std::string_view& rest, const Refusal& refusal) {
  std::string_view ahead = rest;
  if (!take(ahead, 'e') && !take(ahead, 'E')) return 0;
  const bool negative = take(ahead, '-');
  if (!negative) take(ahead, '+');
  const std::string_view digits = take_digits(ahead);
  if (digits.empty()) return 0;
  if (digits.size() > 3) refusal.because("the exponent is too large");
  int exponent = 0;
  std::from_chars(digits.data(), digits.data() + digits.size(), exponent);
  rest = ahead;
  return negative ? -exponent : exponent;
}

Decimal take_decimal(std::string_view& rest, const Refusal& refusal) {
  const auto end =
      std::find_if_not(rest.begin(), rest.end(), [](char c) { return is_digit(c) || c == '.' || c == ','; });
  const std::string_view token = rest.substr(0, static_cast<std::size_t>(end - rest.begin()));
  if (std::none_of(token.begin(), token.end(), is_digit)) refusal.because("no number");
  const auto marks = std::count_if(token.begin(), token.end(), [](char c) { return !is_digit(c); });
  if (marks > 1) refusal.because("thousands separators are not read: write 1250.5");
  rest.remove_prefix(token.size());
  std::string_view left = token;
  Decimal decimal;
  decimal.whole = take_digits(left);
  const bool comma = left.starts_with(',');
  decimal.part = left.substr(left.empty() ? 0 : 1);
  if (comma) check_comma(decimal, refusal);
  decimal.exponent = take_exponent(rest, refusal);
  return decimal;
}

WrittenNumber number_of(const Decimal& decimal) {
  constexpr int digits_kept = 19;  // always fit in 64 bits
  const auto places = static_cast<int>(decimal.part.size());
  std::uint64_t digits = 0;
  int kept = 0;
  int exponent = decimal.exponent - places;
  for (const std::string_view part : {decimal.whole, decimal.part}) {
    for (const char c : part) {
      if (kept == digits_kept) {
        ++exponent;
        continue;
      }
      digits = digits * 10 + static_cast<std::uint64_t>(c - '0');
      if (digits != 0) ++kept;
    }
  }
  WrittenNumber number;
  number.numerator = static_cast<long double>(digits);
  if (digits != 0 && exponent > 0) number.numerator *= power_of_ten(exponent);
  if (digits != 0 && exponent < 0) number.denominator = power_of_ten(-exponent);
  number.decimal = fmt::format("{}.{}e{}", decimal.whole.empty() ? "0" : decimal.whole,
                               decimal.part.empty() ? "0" : decimal.part, decimal.exponent);
  number.decimals = std::max(0, places - decimal.exponent);
  number.last_place = std::pow(10.0, decimal.exponent - places);
  return number;
}

// The double nearest to `decimal`, or not a number when there is none.
double nearest_double(const std::string& decimal) {
  double value = 0;
  const auto result = std::from_chars(decimal.data(), decimal.data() + decimal.size(), value);
  return result.ec == std::errc() ? value : std::numeric_limits<double>::quiet_NaN();
}

// `text` fit for a message: bounded, and without bytes that are not UTF-8.
std::string printable(std::string_view text) {
  constexpr std::size_t bytes_max = 256;
  std::string shown(text.substr(0, bytes_max));
  if (!plain_text(shown))
    std::replace_if(
        shown.begin(), shown.end(), [](char c) { return static_cast<unsigned char>(c) >= 0x80; }, '?');
  return shown;
}

double checked(long double value, bool is_zero, bool negative) {
  const auto rounded = static_cast<double>(value);
  if (is_zero) return 0;
  if (rounded == 0 || !std::isfinite(rounded)) return std::numeric_limits<double>::quiet_NaN();
  return negative ? -rounded : rounded;
}

}  // namespace

void Refusal::because(const std::string& why) const {
  throw BadInput({.field = std::string(field_),
                  .place = "",
                  .value = printable(text_),
                  .expected = fmt::format("{} ({})", expected_(kind_), why)});
}

WrittenNumber read_number(std::string_view& rest, const Refusal& refusal) {
  if (auto fractional = take_fractional(rest, refusal)) return *fractional;
  return number_of(take_decimal(rest, refusal));
}

double value_of(const WrittenNumber& number) {
  if (number.numerator == 0) return 0;
  if (number.decimal.empty()) return checked(number.numerator / number.denominator, false, number.negative);
  return checked(static_cast<long double>(nearest_double(number.decimal)), false, number.negative);
}

double si_of(const WrittenNumber& number, const Unit& unit) {
  if (unit.is_si()) return value_of(number);
  const auto shift = static_cast<long double>(unit.shift_numerator);
  const auto shift_denominator = static_cast<long double>(unit.shift_denominator);
  const long double written = number.negative ? -number.numerator : number.numerator;
  const long double numerator =
      (written * shift_denominator + shift * number.denominator) * static_cast<long double>(unit.numerator);
  const long double denominator =
      number.denominator * shift_denominator * static_cast<long double>(unit.denominator);
  const long double ratio = numerator / denominator;
  const long double si = unit.times_pi ? ratio * std::numbers::pi_v<long double> : ratio;
  return checked(si, numerator == 0, false);
}

}  // namespace pumpwright
