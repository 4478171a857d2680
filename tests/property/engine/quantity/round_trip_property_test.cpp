// What is written comes back: exactly in the lossless form, to half the last digit in the display forms.
#include <bit>
#include <cmath>
#include <cstdint>
#include <optional>
#include <string>

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "engine/quantity/format.h"
#include "engine/quantity/parse.h"
#include "tests/support/hold.h"

namespace pumpwright {
namespace {

using testing::hold;

const Unit& any_unit() {
  return all_units()[*rc::gen::inRange<std::size_t>(0, all_units().size())];
}

// Every finite double with the same chance, whatever its size.
double any_finite() {
  const auto value = std::bit_cast<double>(*rc::gen::arbitrary<std::uint64_t>());
  return std::isfinite(value) ? value : 0.0;
}

// Sizes met at a bench: 1e-9 to 1e9 of the SI unit, all digits random.
double bench_sized() {
  const double mantissa = 1 + static_cast<double>(*rc::gen::arbitrary<std::uint64_t>()) / 0x1p64;
  const double value = std::ldexp(mantissa, *rc::gen::inRange(-30, 30));
  return *rc::gen::arbitrary<bool>() ? -value : value;
}

// The nearest thing a quantity of the kind can be.
double possible(Kind kind, double si) {
  if (kind == Kind::temperature || kind == Kind::pressure_absolute) return std::fabs(si);
  if (kind == Kind::pressure_gauge) return std::max(si, -101325.0);
  return si;
}

double read_back(const std::string& text, const Unit& unit) {
  return parse_written(text, unit.kind, {.field = "text"}).si;
}

// The display form read again. Nothing when rounding alone carried it over the largest double, below absolute
// zero or below full vacuum ("-460 °F" for 0.1 K); any other refusal fails the property.
std::optional<Written> shown_again(const std::string& text, const Unit& unit, double si) {
  try {
    return parse_written(text, unit.kind, {.field = "text"});
  } catch (const BadInput&) {
    const bool near_zero = unit.kind == Kind::temperature && si < 1;
    const bool near_vacuum = unit.kind == Kind::pressure_gauge && si < -50'000;
    RC_ASSERT(std::fabs(si) > 1e307 || near_zero || near_vacuum);
    return std::nullopt;
  }
}

TEST(RoundTrip, TheLosslessFormReadsAsExactlyTheSameDoubleForEveryFiniteDouble) {
  hold("lossless, any double", [] {
    const Unit& unit = any_unit();
    const double si = possible(unit.kind, any_finite());
    const std::string text = format_lossless({unit.kind, si}, unit);
    RC_ASSERT(read_back(text, unit) == si);
    RC_ASSERT(text.size() <= 40U);
  });
}

TEST(RoundTrip, TheLosslessFormReadsAsExactlyTheSameDoubleAtBenchSizes) {
  hold("lossless, bench", [] {
    const Unit& unit = any_unit();
    const double si = possible(unit.kind, bench_sized());
    RC_ASSERT(read_back(format_lossless({unit.kind, si}, unit), unit) == si);
    RC_ASSERT(read_back(format_lossless({unit.kind, si}), unit) == si);
  });
}

TEST(RoundTrip, AShortNumberStaysAsWrittenInItsUnit) {
  hold("lossless, as written", [] {
    const Unit& unit = any_unit();
    const int decimals = *rc::gen::inRange(0, 5);
    const double number = *rc::gen::inRange(0, 100'000) / std::pow(10.0, decimals);
    const std::string text = fmt::format("{} {}", number, unit.symbol);
    const Written written = parse_written(text, unit.kind, {.field = "text"});
    const std::string again = format_lossless(written.quantity(), unit);
    RC_ASSERT(parse_written(again, unit.kind, {.field = "text"}).number == number);
    RC_ASSERT(read_back(again, unit) == written.si);
  });
}

TEST(RoundTrip, TheDecimalFormIsRightToHalfItsLastDigit) {
  hold("decimals", [] {
    const Unit& unit = any_unit();
    const double si = possible(unit.kind, *rc::gen::arbitrary<bool>() ? bench_sized() : any_finite());
    const Sign sign = *rc::gen::arbitrary<bool>() ? Sign::always : Sign::when_negative;
    if (!std::isfinite(from_si(si, unit))) return;
    const std::string text = format_decimals({unit.kind, si}, unit, *rc::gen::inRange(0, 13), sign);
    const auto shown = shown_again(text, unit, si);
    if (!shown) return;
    const double rounding = 4e-16 * (std::fabs(si) + std::fabs(to_si(0, unit)));
    RC_ASSERT(std::fabs(shown->si - si) <= 0.5 * shown->last_place_si * (1 + 1e-9) + rounding);
  });
}

TEST(RoundTrip, TheSignificantFormIsRightToHalfItsLastDigit) {
  hold("significant", [] {
    const Unit& unit = any_unit();
    const double si = possible(unit.kind, bench_sized());
    const int digits = *rc::gen::inRange(1, 16);
    const std::string text = format_significant({unit.kind, si}, unit, digits);
    const auto shown = shown_again(text, unit, si);
    if (!shown) return;
    const double rounding = 4e-16 * (std::fabs(si) + std::fabs(to_si(0, unit)));
    RC_ASSERT(std::fabs(shown->si - si) <= 0.5 * shown->last_place_si * (1 + 1e-9) + rounding);
    // As many digits as were asked for, counted from the first that is not zero.
    const double places = step_from_si(shown->last_place_si, unit) * std::pow(10.0, digits - 1);
    RC_ASSERT(shown->number == 0 || shown->decimals == 0 || places <= std::fabs(shown->number) * (1 + 1e-9));
  });
}

TEST(RoundTrip, EveryGraduationOfADialCanBeToldFromTheNext) {
  hold("graduated", [] {
    const Unit& unit = any_unit();
    // 1-2-5 steps as dials have them.
    const double step = std::pow(10.0, *rc::gen::inRange(-5, 2)) * *rc::gen::element(1.0, 2.0, 5.0);
    const double si = step_to_si(step, unit);
    const int decimals = decimals_for_graduation(si, unit);
    const double shown = std::pow(10.0, -decimals);
    RC_ASSERT(shown <= step * (1 + 1e-9));
    RC_ASSERT(decimals == 0 || shown * 10 > step * (1 + 1e-9));
  });
}

}  // namespace
}  // namespace pumpwright
