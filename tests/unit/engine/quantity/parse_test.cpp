// What hands write, and what must not be guessed at.
#include "engine/quantity/parse.h"

#include <clocale>
#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

namespace pumpwright {
namespace {

double length_m(std::string_view text, std::string_view default_symbol = {}) {
  ParseContext context{.field = "reading"};
  if (!default_symbol.empty()) context.default_unit = &unit_with_symbol(default_symbol, Kind::length);
  return parse_length(text, context).value();
}

// The message of the refusal; "accepted" when there was none.
std::string refusal(std::string_view text, Kind kind = Kind::length, const Unit* default_unit = nullptr) {
  try {
    parse_written(text, kind, {.field = "reading", .default_unit = default_unit});
  } catch (const BadInput& error) {
    return error.what();
  }
  return "accepted";
}

TEST(ParseLength, ReadsThouInchesAndMillimetres) {
  EXPECT_EQ(length_m("7 thou"), 0.0001778);
  EXPECT_EQ(length_m(".007\""), 0.0001778);
  EXPECT_EQ(length_m("0.007 in"), 0.0001778);
  EXPECT_EQ(length_m("0.1778 mm"), 0.0001778);
  EXPECT_EQ(length_m("177.8 µm"), 0.0001778);
  EXPECT_EQ(length_m("177.8 μm"), 0.0001778);
  EXPECT_EQ(length_m("177.8um"), 0.0001778);
  EXPECT_EQ(length_m("7e-3 in"), 0.0001778);
  EXPECT_EQ(length_m("7 mils"), 0.0001778);
  EXPECT_EQ(length_m("70 tenths"), 0.0001778);
  EXPECT_EQ(length_m("4 tenths"), 0.00001016);
  EXPECT_EQ(length_m("0.18 mm"), 0.00018);
  EXPECT_EQ(length_m("7. mm"), 0.007);
  EXPECT_EQ(length_m("7 Thou."), 0.0001778);
}

TEST(ParseLength, ReadsFractionsOfAnInch) {
  EXPECT_EQ(length_m("3/8 in"), 0.009525);
  for (const char* text :
       {"1 3/8 in", "1-3/8\"", "1-3/8 in", "1  3/8”", "1⅜ in", "1 ⅜\"", "1 3⁄8 in", "11/8-in"})
    EXPECT_EQ(length_m(text), 0.034925) << text;
  EXPECT_EQ(length_m("-1 3/8 in"), -0.034925);
  EXPECT_EQ(length_m("½\""), 0.0127);
  EXPECT_EQ(length_m("1/3 ft"), 0.1016);
}

TEST(ParseLength, ReadsFeetAndInches) {
  for (const char* text :
       {"1' 3 1/2\"", "1'-3 1/2\"", "1 ft 3.5 in", "1 foot 3 1/2 inches", "1’ 3½”", "1'3.5''"})
    EXPECT_EQ(length_m(text), 0.3937) << text;
  EXPECT_EQ(length_m("-2' 6\""), -0.762);
  EXPECT_EQ(length_m("1' .5\""), 0.3175);
  EXPECT_EQ(length_m("3'"), 0.9144);
  EXPECT_NE(refusal("1' 13\""), "accepted");
  EXPECT_NE(refusal("1.5' 3\""), "accepted");
  EXPECT_NE(refusal("1' 3"), "accepted");
  EXPECT_NE(refusal("1' 3 mm"), "accepted");
  EXPECT_NE(refusal("1'250 mm"), "accepted");
}

TEST(ParseLength, TakesTheDeclaredUnitForABareNumber) {
  EXPECT_EQ(length_m("+3", "thou"), 0.0000762);
  EXPECT_EQ(length_m("-2", "thou"), -0.0000508);
  EXPECT_EQ(length_m("\u22122", "thou"), -0.0000508);
  EXPECT_EQ(length_m("– 2", "thou"), -0.0000508);
  EXPECT_EQ(length_m("  .5 ", "mm"), 0.0005);
  EXPECT_EQ(length_m("3 mm", "thou"), 0.003);
  EXPECT_FALSE(std::signbit(length_m("-0", "thou")));
  EXPECT_NE(refusal("+3").find("no unit is written"), std::string::npos);
}

TEST(ParseLength, ReadsADecimalCommaThatCanBeNothingElse) {
  EXPECT_EQ(length_m("0,18 mm"), 0.00018);
  EXPECT_EQ(length_m("0,180 mm"), 0.00018);
  EXPECT_EQ(length_m(",180 mm"), 0.00018);
  EXPECT_EQ(length_m("1,25 mm"), 0.00125);
  EXPECT_EQ(length_m("1,2505 mm"), 0.0012505);
  EXPECT_EQ(length_m("1250,125 mm"), 1.250125);
  EXPECT_EQ(length_m("1.250 mm"), 0.00125);
}

TEST(ParseLength, RefusesACommaThatCouldBeAThousandsSeparator) {
  EXPECT_EQ(refusal("1,250 mm"),
            "reading: read \"1,250 mm\"; valid: a length such as 7 thou or 0.18 mm "
            "(1,250 may be 1.250 or 1250: write it as one of these)");
  for (const char* text : {"12,500 mm", "125,000 mm", "-1,250 mm", "1,250e3 mm", "1.250,5 mm", "1,250.5 mm",
                           "1.250.000 mm", "1,250,000 mm", "1 250 mm", "1\u202F250 mm", "1, mm", "1,, mm"})
    EXPECT_NE(refusal(text), "accepted") << text;
}

TEST(ParseLength, AcceptsSpacesOfAnyWidth) {
  for (const char* text :
       {"7\u00A0thou", "7\u2009thou", "7\u202Fthou", "7\tthou", "\u00A07 thou\u00A0", "\r\n7 thou\n"})
    EXPECT_EQ(length_m(text), 0.0001778) << text;
}

TEST(ParseWritten, RefusesWhatIsNoNumber) {
  const Unit* mm = &unit_with_symbol("mm", Kind::length);
  for (const char* text : {"",           " ",
                           "nan",        "NaN mm",
                           "inf",        "-inf mm",
                           "infinity",   "0x1F mm",
                           "mm",         ".",
                           "-",          "+",
                           "--3",        "+-3",
                           "±3",         "1/0 in",
                           "1 9/8 in",   "3//8 in",
                           "3/8/2 in",   "1 2 3",
                           "1e",         "1e+ mm",
                           "5²",         "½3",
                           "1.5 3/8 in", "1:2",
                           "=3",         "3;",
                           "3 mm 4",     "3 mm mm",
                           "1e9999",     "1e400",
                           "1e-400 mm",  "1234567890/3 in",
                           "\xFF",       "180 \xB5m",
                           "7\x01thou",  "３ mm"})
    EXPECT_NE(refusal(text, Kind::length, mm), "accepted") << text;
}

TEST(ParseWritten, RefusesMoreThan64CharactersHoweverMany) {
  const std::string digits(62, '1');
  EXPECT_EQ(refusal("0." + digits, Kind::number), "accepted");
  EXPECT_NE(refusal("0." + digits + "1", Kind::number), "accepted");
  const std::string line = refusal(std::string(100'000'000, '7'), Kind::number);
  EXPECT_NE(line.find("longer than 64 characters"), std::string::npos);
  EXPECT_LT(line.size(), 250U);
}

TEST(ParseWritten, KeepsErrorsPrintableWhateverBytesCameIn) {
  const std::string line = refusal("180 \xB5m");
  EXPECT_EQ(
      line,
      "reading: read \"180 ?m\"; valid: a length such as 7 thou or 0.18 mm (not readable as UTF-8 text)");
}

TEST(ParseWritten, NamesTheKindOfAUnitThatDoesNotFit) {
  EXPECT_EQ(refusal("82 degC"),
            "reading: read \"82 degC\"; valid: a length such as 7 thou or 0.18 mm (degC is a temperature)");
  EXPECT_EQ(refusal("45 ft-lb"),
            "reading: read \"45 ft-lb\"; valid: a length such as 7 thou or 0.18 mm (ft-lb is a torque)");
  EXPECT_EQ(refusal("7 furlongs"),
            "reading: read \"7 furlongs\"; valid: a length such as 7 thou or 0.18 mm "
            "(furlongs is no unit known here)");
  EXPECT_EQ(refusal("12 mm", Kind::number),
            "reading: read \"12 mm\"; valid: a number without a unit such as 12 or 0.85 (mm is a length)");
}

TEST(ParsePressure, WantsGaugeOrAbsoluteSaid) {
  EXPECT_EQ(parse_gauge_pressure("1 bar(g)", {.field = "p"}).value.value(), 1e5);
  EXPECT_EQ(parse_absolute_pressure("101.325 kPa(a)", {.field = "p"}).value.value(), 101325);
  EXPECT_EQ(parse_pressure_difference("2 bar", {.field = "p"}).value(), 2e5);
  EXPECT_NEAR(parse_gauge_pressure("12 psig", {.field = "p"}).value.value(), 82737.09, 0.01);
  EXPECT_NEAR(parse_absolute_pressure("12 psia", {.field = "p"}).value.value(), 82737.09, 0.01);
  EXPECT_NE(refusal("12 psi", Kind::pressure_gauge)
                .find("(psi alone does not say gauge or absolute: write psig or psia)"),
            std::string::npos);
  EXPECT_NE(refusal("3 bar", Kind::pressure_absolute).find("write bar(g) or bar(a)"), std::string::npos);
  EXPECT_NE(refusal("12 psia", Kind::pressure_gauge).find("(psia is an absolute pressure)"),
            std::string::npos);
  EXPECT_NE(refusal("12 psig", Kind::pressure_difference).find("(psig is a gauge pressure)"),
            std::string::npos);
}

TEST(ParsePressure, RefusesLessThanNothing) {
  EXPECT_EQ(refusal("-1.01325 bar(g)", Kind::pressure_gauge), "accepted");
  EXPECT_NE(refusal("-1.01326 bar(g)", Kind::pressure_gauge).find("below full vacuum, -1.01325 bar(g)"),
            std::string::npos);
  EXPECT_EQ(refusal("0 psia", Kind::pressure_absolute), "accepted");
  EXPECT_NE(refusal("-0.1 psia", Kind::pressure_absolute).find("never negative"), std::string::npos);
}

TEST(ParseTemperature, TellsAPointFromAStep) {
  EXPECT_NEAR(kelvin_of(parse_temperature("180 °F", {.field = "t"})), 355.372, 0.001);
  EXPECT_EQ(kelvin_of(parse_temperature("82degC", {.field = "t"})), 355.15);
  EXPECT_EQ(kelvin_of(parse_temperature("-40 °F", {.field = "t"})),
            kelvin_of(parse_temperature("-40 °C", {.field = "t"})));
  EXPECT_EQ(parse_temperature_difference("18 °F", {.field = "t"}).value(), 10);
  EXPECT_EQ(parse_temperature_difference("10 °C", {.field = "t"}).value(), 10);
  EXPECT_NE(refusal("180 °", Kind::temperature).find("(° is an angle)"), std::string::npos);
}

TEST(ParseTemperature, StopsAtAbsoluteZero) {
  EXPECT_EQ(kelvin_of(parse_temperature("-459.67 °F", {.field = "t"})), 0);
  EXPECT_EQ(kelvin_of(parse_temperature("-273.15 °C", {.field = "t"})), 0);
  EXPECT_NE(refusal("-273.16 °C", Kind::temperature).find("below absolute zero, -273.15 °C"),
            std::string::npos);
  EXPECT_NE(refusal("-1 K", Kind::temperature), "accepted");
}

TEST(ParseOthers, ReadsWhatABenchWrites) {
  const ParseContext field{.field = "f"};
  EXPECT_NEAR(parse_torque("45 ft-lb", field).value(), 61.0118, 1e-4);
  EXPECT_EQ(parse_torque("60 N·m", field).value(), 60);
  EXPECT_NEAR(parse_torque("120 in-lb", field).value(), 13.5582, 1e-4);
  EXPECT_NEAR(parse_speed("3550 rpm", field).value(), 371.755, 1e-3);
  EXPECT_EQ(parse_speed("3550 1/min", field).value(), parse_speed("3550 RPM", field).value());
  EXPECT_NEAR(parse_volume_flow("250 gpm", field).value(), 0.0157725, 1e-7);
  EXPECT_EQ(parse_volume_flow("36 m³/h", field).value(), 0.01);
  EXPECT_NEAR(parse_power("7 1/2 hp", field).value(), 5592.75, 0.01);
  EXPECT_EQ(parse_angle("90°", field).value(), pi / 2);
  EXPECT_EQ(parse_angle("90 deg", field).value(), pi / 2);
  EXPECT_EQ(parse_viscosity("1.2 cP", field).value(), 0.0012);
  EXPECT_EQ(parse_mass("1 lb", field).value(), 0.45359237);
  EXPECT_EQ(parse_inertia("120 kg cm2", field).value(), 0.012);
  EXPECT_NEAR(parse_inertia("1 lb-ft²", field).value(), 0.0421401, 1e-7);
  EXPECT_EQ(parse_force("1 lb", field).value(), 4.4482216152605);
  EXPECT_EQ(parse_time("20 min", field).value(), 1200);
  EXPECT_EQ(parse_area("1 in²", field).value(), 0.00064516);
  EXPECT_EQ(parse_volume("250 ml", field).value(), 0.00025);
  EXPECT_EQ(parse_velocity("2.8 mm/s", field).value(), 0.0028);
  EXPECT_EQ(parse_frequency("60 Hz", field).value(), 60);
  EXPECT_EQ(parse_expansion("11.5 µm/(m·K)", field).value(), 11.5e-6);
  EXPECT_EQ(parse_density("0.998 g/cm3", field).value(), 998);
  EXPECT_EQ(parse_heat_capacity("1 btu/lb-F", field).value(), 4186.8);
  EXPECT_EQ(parse_heat_capacity("4.18 kJ/kg K", field).value(), 4180);
  EXPECT_EQ(parse_conductivity("0.6 W/m/K", field).value(), 0.6);
  EXPECT_EQ(parse_kinematic_viscosity("32 cSt", field).value(), 32e-6);
  EXPECT_EQ(parse_spring_rate("8 N/mm", field).value(), 8000);
  EXPECT_EQ(parse_pressure_velocity("7 MPa·m/s", field).value(), 7e6);
  EXPECT_EQ(parse_energy("1 ft-lb", field).value(), 1.3558179483314004);
  EXPECT_EQ(parse_number("0,85", field), 0.85);
  EXPECT_EQ(parse_fraction("30 %", field), 0.3);
  EXPECT_EQ(parse_fraction("30", {.field = "f", .default_unit = &unit_with_symbol("%", Kind::percent)}), 0.3);
}

TEST(Written, KeepsTextUnitAndPlaces) {
  const Written written = parse_written("  0.180 mm ", Kind::length, {.field = "f"});
  EXPECT_EQ(written.text, "0.180 mm");
  EXPECT_EQ(written.unit->symbol, "mm");
  EXPECT_TRUE(written.unit_was_written);
  EXPECT_EQ(written.number, 0.18);
  EXPECT_EQ(written.decimals, 3);
  EXPECT_DOUBLE_EQ(written.last_place_si, 1e-6);
  EXPECT_EQ(written.quantity().as<Length>().value(), written.si);
}

TEST(Written, CountsPlacesOfExponentsAndFractions) {
  const ParseContext thou{.field = "f", .default_unit = &unit_with_symbol("thou", Kind::length)};
  const Written bare = parse_written("+3", Kind::length, thou);
  EXPECT_FALSE(bare.unit_was_written);
  EXPECT_EQ(bare.decimals, 0);
  EXPECT_DOUBLE_EQ(bare.last_place_si, 2.54e-5);
  EXPECT_EQ(parse_written("7.00e-3 in", Kind::length, thou).decimals, 5);
  EXPECT_EQ(parse_written("7e3", Kind::length, thou).decimals, 0);
  EXPECT_DOUBLE_EQ(parse_written("7e3", Kind::length, thou).last_place_si, 0.0254);
  const Written fraction = parse_written("1 3/8 in", Kind::length, thou);
  EXPECT_EQ(fraction.number, 1.375);
  EXPECT_EQ(fraction.decimals, 3);
  EXPECT_DOUBLE_EQ(fraction.last_place_si, 0.0254 / 8);
  EXPECT_EQ(parse_written("1/3 in", Kind::length, thou).decimals, 6);
  // The step of a Fahrenheit degree has no shift in it.
  EXPECT_DOUBLE_EQ(parse_written("180 °F", Kind::temperature, {.field = "f"}).last_place_si, 5.0 / 9);
}

TEST(ParseUnit, NamesTheUnitsThatFit) {
  EXPECT_EQ(parse_unit(" thou ", Kind::length, "--unit").symbol, "thou");
  try {
    parse_unit("degC", Kind::length, "--unit");
    FAIL() << "a temperature was taken for a length";
  } catch (const BadInput& error) {
    EXPECT_STREQ(
        error.what(),
        "--unit: read \"degC\"; valid: a unit of length: m, km, cm, mm, µm, in, thou, tenths, µin, ft "
        "(degC is a temperature)");
  }
  EXPECT_THROW(parse_unit("", Kind::length, "--unit"), BadInput);
  EXPECT_THROW(parse_unit("7", Kind::length, "--unit"), BadInput);
}

TEST(ParseWritten, DoesNotDependOnTheLocale) {
  const std::string before = std::setlocale(LC_ALL, nullptr);
  for (const char* name : {"de_DE.UTF-8", "es_ES.UTF-8", "C.UTF-8", "C"}) {
    if (std::setlocale(LC_ALL, name) == nullptr) continue;
    EXPECT_EQ(length_m("0.18 mm"), 0.00018) << name;
    EXPECT_EQ(length_m("0,18 mm"), 0.00018) << name;
  }
  std::setlocale(LC_ALL, before.c_str());
}

}  // namespace
}  // namespace pumpwright
