// What people and files get to read.
#include "engine/quantity/format.h"

#include <gtest/gtest.h>

#include "engine/quantity/parse.h"

namespace pumpwright {
namespace {

const Unit& length_unit(std::string_view symbol) {
  return unit_with_symbol(symbol, Kind::length);
}
const Length half_thou = metres(0.0000127);
const Length seven_thou = metres(0.0001778);

TEST(FormatGraduated, ShowsTheDigitsOfTheInstrument) {
  EXPECT_EQ(format_graduated(seven_thou, length_unit("thou"), half_thou), "7.0 thou");
  EXPECT_EQ(format_graduated(seven_thou, length_unit("in"), half_thou), "0.0070 in");
  EXPECT_EQ(format_graduated(seven_thou, length_unit("mm"), metres(0.000001)), "0.178 mm");
  EXPECT_EQ(format_graduated(seven_thou, length_unit("mm"), metres(0.00002)), "0.18 mm");
  EXPECT_EQ(format_graduated(kelvin(355.15), unit_with_symbol("°C", Kind::temperature), kelvin_step(0.5)),
            "82.0 °C");
  EXPECT_EQ(format_graduated(GaugePressure{pascals(81234)}, unit_with_symbol("bar(g)", Kind::pressure_gauge),
                             pascals(5000)),
            "0.81 bar(g)");
}

TEST(DecimalsForGraduation, FollowTheStepOfTheDial) {
  const Unit& mm = length_unit("mm");
  EXPECT_EQ(decimals_for_graduation(0.001e-3, mm), 3);
  EXPECT_EQ(decimals_for_graduation(0.002e-3, mm), 3);
  EXPECT_EQ(decimals_for_graduation(0.05e-3, mm), 2);
  EXPECT_EQ(decimals_for_graduation(0.25e-3, mm), 2);
  EXPECT_EQ(decimals_for_graduation(1e-3, mm), 0);
  EXPECT_EQ(decimals_for_graduation(2.5e-3, mm), 1);
  EXPECT_EQ(decimals_for_graduation(20e-3, mm), 0);
  EXPECT_EQ(decimals_for_graduation(25.4e-3, mm), 0);
  EXPECT_EQ(decimals_for_graduation(0.0254 / 64, length_unit("in")), 3);
  EXPECT_EQ(decimals_for_graduation(1e-30, mm), 12);
}

TEST(FormatDecimals, WritesSignsAboutAZero) {
  EXPECT_EQ(format_decimals(seven_thou, length_unit("thou"), 1, Sign::always), "+7.0 thou");
  EXPECT_EQ(format_decimals(-seven_thou, length_unit("thou"), 1, Sign::always), "-7.0 thou");
  EXPECT_EQ(format_decimals(metres(0), length_unit("thou"), 1, Sign::always), "0.0 thou");
  EXPECT_EQ(format_decimals(metres(-1e-9), length_unit("thou"), 1), "0.0 thou");
  EXPECT_EQ(format_decimals(metres(-0.0), length_unit("mm"), 0), "0 mm");
}

TEST(FormatDecimals, GoesToAnExponentBeforeItGetsTooLongToRead) {
  EXPECT_EQ(format_decimals(metres(1.5e15), length_unit("m"), 3), "1.500000000000e+15 m");
}

TEST(FormatDecimals, SetsNoSpaceBeforeTheDegreeSignAlone) {
  EXPECT_EQ(format_decimals(degrees(45), unit_with_symbol("°", Kind::angle), 1), "45.0°");
  EXPECT_EQ(format_decimals({Kind::number, 0.85}, si_unit(Kind::number), 2), "0.85");
  EXPECT_EQ(format_decimals({Kind::percent, 0.3}, unit_with_symbol("%", Kind::percent), 0), "30 %");
}

TEST(FormatSignificant, KeepsEveryDigitBeforeThePoint) {
  const Unit& rpm = unit_with_symbol("rpm", Kind::speed);
  EXPECT_EQ(format_significant(parse_speed("3550 rpm", {.field = "n"}), rpm, 2), "3550 rpm");
  EXPECT_EQ(format_significant(seven_thou, length_unit("thou"), 2), "7.0 thou");
  EXPECT_EQ(format_significant(seven_thou, length_unit("mm"), 2), "0.18 mm");
  EXPECT_EQ(format_significant(metres(0.00996), length_unit("mm"), 2), "10 mm");
  EXPECT_EQ(format_significant(metres(0), length_unit("mm"), 3), "0.00 mm");
  EXPECT_EQ(format_significant(metres(1.5e-12), length_unit("m"), 2), "1.5e-12 m");
  EXPECT_EQ(format_significant(metres(2.5e12), length_unit("m"), 2, Sign::always), "+2.5e+12 m");
}

TEST(FormatLossless, KeepsTheWrittenUnitWhenThatIsExact) {
  EXPECT_EQ(format_lossless(seven_thou, length_unit("thou")), "7 thou");
  EXPECT_EQ(format_lossless(seven_thou, length_unit("in")), "0.007 in");
  EXPECT_EQ(format_lossless(seven_thou), "0.0001778 m");
  EXPECT_EQ(format_lossless(metres(0.00017779999999999998)), "0.00017779999999999998 m");
  EXPECT_EQ(format_lossless(metres(-0.0)), "0 m");
  EXPECT_EQ(format_lossless(kelvin(355.15), unit_with_symbol("°C", Kind::temperature)), "82 °C");
  EXPECT_EQ(format_lossless(GaugePressure{pascals(80000)}), "80000 Pa(g)");
}

TEST(FormatLossless, GoesToTheSiUnitWhenTheWrittenOneHasNoExactForm) {
  // One unit in the last place beyond 70 °F is closer than any Fahrenheit double of 17 digits can tell apart.
  const double si = std::nextafter(to_si(70, unit_with_symbol("°F", Kind::temperature)), 1e9);
  const std::string text = format_lossless(kelvin(si), unit_with_symbol("°F", Kind::temperature));
  EXPECT_EQ(kelvin_of(parse_temperature(text, {.field = "t"})), si);
}

}  // namespace
}  // namespace pumpwright
