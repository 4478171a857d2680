// Unit factors against what the keepers of the units publish.
//
// The NIST figures were read in public restatements of NIST Special Publication 811 (2008), appendices B.8
// and B.9 (unit factors listed alphabetically and by kind of quantity), not in the publication itself. Where
// the factor is a definition, all its digits are asked for; a rounded one must agree in every digit printed.
#include <string>
#include <string_view>

#include <gtest/gtest.h>

#include "engine/quantity/parse.h"
#include "engine/quantity/unit.h"
#include "tests/support/outside_check.h"

namespace pumpwright {
namespace {

using testing::expect_outside;
using testing::Obtained;

struct Factor {
  Kind kind;
  std::string_view symbol;
  const char* published;  // SI units in one such unit
  int digits;             // that must agree: all the printed ones
};

void check(const Factor& factor, const std::string& source, Obtained obtained) {
  const Unit& unit = unit_with_symbol(factor.symbol, factor.kind);
  expect_outside({.what = "1 " + std::string(factor.symbol) + " as " + std::string(info(factor.kind).name),
                  .source = source,
                  .obtained = obtained,
                  .published = factor.published,
                  .computed = step_to_si(1, unit),
                  .unit = std::string(si_unit(factor.kind).symbol),
                  .digits_required = factor.digits});
}

TEST(UnitFactorReference, AgreesWithTheRememberedDigitsOfSp811) {
  const std::string source = "NIST Special Publication 811, 2008, appendix B.8, from memory";
  for (const Factor& factor : {Factor{Kind::density, "lb/ft³", "1.601846E+01", 7},
                               Factor{Kind::heat_capacity, "Btu/(lb·°F)", "4.1868E+03", 5},
                               Factor{Kind::conductivity, "Btu/(h·ft·°F)", "1.730735", 7},
                               Factor{Kind::kinematic_viscosity, "cSt", "1.0E-06", 2},
                               Factor{Kind::spring_rate, "lbf/in", "1.751268E+02", 7},
                               Factor{Kind::inertia, "lb·ft²", "4.214011E-02", 7},
                               Factor{Kind::inertia, "lb·in²", "2.926397E-04", 7}})
    check(factor, source, Obtained::remembered);
}

TEST(UnitFactorReference, PressureTimesSpeedIsTheProductOfItsFactors) {
  check({Kind::pressure_velocity, "psi·ft/min", "35.02537", 7},
        "NIST Special Publication 811, 2008, appendices B.8 and B.9: psi 6.894757E+03 Pa times ft/min "
        "5.08E-03 m/s",
        Obtained::read);
}

TEST(UnitFactorReference, FollowsTheInternationalYardAndPound) {
  const std::string source =
      "International yard and pound agreement, 1959: yard 0.9144 m, pound 0.45359237 kg";
  for (const Factor& factor :
       {Factor{Kind::length, "in", "0.0254", 3}, Factor{Kind::length, "ft", "0.3048", 4},
        Factor{Kind::length, "thou", "0.0000254", 3}, Factor{Kind::length, "tenths", "0.00000254", 3},
        Factor{Kind::mass, "lb", "0.45359237", 8}})
    check(factor, source, Obtained::read);
}

TEST(UnitFactorReference, AgreesWithEveryDigitOfSp811) {
  const std::string source = "NIST Special Publication 811, 2008, appendices B.8 and B.9";
  for (const Factor& factor : {
           Factor{Kind::angle, "arcmin", "2.908882E-04", 7},
           Factor{Kind::angle, "arcsec", "4.848137E-06", 7},
           Factor{Kind::force, "kgf", "9.80665", 6},
           Factor{Kind::force, "lbf", "4.448222", 7},
           Factor{Kind::force, "ozf", "2.780139E-01", 7},
           Factor{Kind::length, "µin", "2.54E-08", 3},
           Factor{Kind::length, "thou", "2.54E-05", 3},
           Factor{Kind::mass, "oz", "2.834952E-02", 7},
           Factor{Kind::power, "hp", "7.456999E+02", 7},
           Factor{Kind::power, "PS", "7.354988E+02", 7},
           Factor{Kind::pressure_difference, "bar", "1.0E+05", 2},
           Factor{Kind::pressure_difference, "inHg", "3.386389E+03", 7},
           Factor{Kind::pressure_difference, "mmHg", "1.333224E+02", 7},
           Factor{Kind::pressure_difference, "psi", "6.894757E+03", 7},
           Factor{Kind::pressure_gauge, "psig", "6.894757E+03", 7},
           Factor{Kind::pressure_absolute, "psia", "6.894757E+03", 7},
           Factor{Kind::time, "d", "8.64E+04", 3},
           Factor{Kind::viscosity, "cP", "1.0E-03", 2},
           Factor{Kind::volume, "gal", "3.785412E-03", 7},
           Factor{Kind::volume, "fl oz", "2.957353E-05", 7},
           Factor{Kind::volume, "L", "1.0E-03", 2},
           Factor{Kind::speed, "rpm", "1.047198E-01", 7},
           Factor{Kind::torque, "ft·lbf", "1.355818", 7},
           Factor{Kind::torque, "in·lbf", "1.129848E-01", 7},
           Factor{Kind::torque, "in·ozf", "7.061552E-03", 7},
           Factor{Kind::volume_flow, "gpm", "6.309020E-05", 7},
       })
    check(factor, source, Obtained::read);
}

TEST(UnitFactorReference, HoldsThePoundForceToAllItsDigits) {
  check({Kind::force, "lbf", "4.4482216152605", 14},
        "NIST Special Publication 811, 2008, appendix B.8, footnote on the pound-force", Obtained::read);
}

TEST(UnitFactorReference, AgreesWithSciPysConstants) {
  const std::string source = "SciPy 1.10.1, scipy.constants";
  for (const Factor& factor : {Factor{Kind::pressure_difference, "psi", "6894.757293168361", 15},
                               Factor{Kind::power, "hp", "745.6998715822701", 15},
                               Factor{Kind::volume, "gal", "0.0037854117839999997", 15},
                               Factor{Kind::volume, "fl oz", "2.9573529562499998e-05", 15},
                               Factor{Kind::angle, "°", "0.017453292519943295", 15},
                               Factor{Kind::mass, "oz", "0.028349523124999998", 15}})
    check(factor, source, Obtained::read);
}

TEST(UnitFactorReference, ConvertsTheFixedPointsOfTheTemperatureScales) {
  // SP 811, appendix B.9: T/K = t/°C + 273.15 and t/°C = (t/°F - 32)/1.8; so the freezing point, the meeting
  // of the scales, and absolute zero are exact.
  const struct {
    const char* written;
    const char* kelvin;
    int digits;
  } points[] = {{"32 °F", "273.15", 5},  {"0 °C", "273.15", 5},   {"-40 °F", "233.15", 5},
                {"-40 °C", "233.15", 5}, {"212 °F", "373.15", 5}, {"72.5 °F", "295.65", 5}};
  for (const auto& point : points)
    expect_outside({.what = point.written,
                    .source = "NIST Special Publication 811, 2008, appendix B.9, temperature",
                    .obtained = Obtained::read,
                    .published = point.kelvin,
                    .computed = kelvin_of(parse_temperature(point.written, {.field = "t"})),
                    .unit = "K",
                    .digits_required = point.digits});
  EXPECT_EQ(kelvin_of(parse_temperature("-459.67 °F", {.field = "t"})), 0);
}

TEST(UnitFactorReference, HoldsIdentitiesThatNeedNoBook) {
  const auto si = [](std::string_view symbol, Kind kind) {
    return step_to_si(1, unit_with_symbol(symbol, kind));
  };
  const auto check_identity = [](const std::string& what, const std::string& exact, double computed) {
    expect_outside({.what = what,
                    .source = "identity of units",
                    .obtained = Obtained::closed_form,
                    .published = exact,
                    .computed = computed,
                    .unit = "",
                    .digits_required = static_cast<int>(exact.size())});
  };
  check_identity("inches in a foot", "12", si("ft", Kind::length) / si("in", Kind::length));
  check_identity("ounces in a pound", "16", si("lb", Kind::mass) / si("oz", Kind::mass));
  check_identity("in·lbf in a ft·lbf", "12", si("ft·lbf", Kind::torque) / si("in·lbf", Kind::torque));
  check_identity("ft·lbf/s in a horsepower", "550", si("hp", Kind::power) / si("ft·lbf", Kind::energy));
  check_identity("cubic inches in a US gallon", "231", si("gal", Kind::volume) / si("in³", Kind::volume));
  check_identity("psi in an lbf per in²", "1",
                 si("lbf", Kind::force) / si("in²", Kind::area) / si("psi", Kind::pressure_difference));
}

}  // namespace
}  // namespace pumpwright
