#include <memory>
#include <string>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/fluid/glycol.h"
#include "engine/fluid/known_range.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

using namespace fluid;

const std::string package = "SecondaryCoolantProps' own tests (Melinder, IIR 2010)";
constexpr AbsolutePressure atmosphere{pascals(101'325)};

struct Row {
  double fraction;
  double celsius;
  const char* viscosity;
  const char* density;
  const char* heat_capacity;
  const char* conductivity;
};

using Factory = std::shared_ptr<const Liquid> (*)(double);

// Four of the five printed digits: the package checks itself to 0.1 %, and one printed value is rounded
// wrongly.
void expect_rows(const std::string& name, Factory make, std::initializer_list<Row> rows) {
  for (const Row& row : rows) {
    const auto liquid = make(row.fraction);
    const Temperature t = kelvin(celsius_zero_k + row.celsius);
    const std::string at = fmt::format("{} {:g} at {:g} °C: ", name, row.fraction, row.celsius);
    const auto expect = [&](const char* what, const char* published, double computed, const char* unit) {
      expect_outside({at + what, package, Obtained::read, published, computed, unit, 5});
    };
    expect("viscosity", row.viscosity, liquid->viscosity(t, atmosphere).value(), "Pa·s");
    expect("density", row.density, liquid->density(t, atmosphere).value(), "kg/m³");
    expect("heat capacity", row.heat_capacity, liquid->heat_capacity(t, atmosphere).value(), "J/(kg·K)");
    expect("conductivity", row.conductivity, liquid->conductivity(t, atmosphere).value(), "W/(m·K)");
  }
}

TEST(GlycolReference, EthyleneGlycol) {
  expect_rows("ethylene glycol", ethylene_glycol,
              {{0, 20, "1.0078e-3", "997.35", "4186.2", "0.59913"},
               {0.2, 5, "2.6594e-3", "1028.1", "3869.5", "0.49022"},
               {0.2, 20, "1.6624e-3", "1024.1", "3896.2", "0.50766"},
               {0.2, 40, "1.0133e-3", "1016.4", "3932.8", "0.52908"},
               {0.4, 5, "4.7569e-3", "1058.5", "3455.9", "0.41376"},
               {0.4, 20, "2.8191e-3", "1051.9", "3519.0", "0.42530"},
               {0.4, 40, "1.6351e-3", "1041.4", "3597.8", "0.44050"}});
}

TEST(GlycolReference, PropyleneGlycol) {
  expect_rows("propylene glycol", propylene_glycol,
              {{0, 20, "1.0072e-3", "998.52", "4186.6", "0.59913"},
               {0.2, 5, "3.4941e-3", "1019.1", "3945.9", "0.47647"},
               {0.2, 20, "2.0301e-3", "1014.8", "3976.8", "0.49221"},
               {0.2, 40, "1.1693e-3", "1006.4", "4019.0", "0.51228"},
               {0.4, 5, "8.9817e-3", "1040.1", "3658.0", "0.39089"},
               {0.4, 20, "4.3838e-3", "1032.3", "3706.7", "0.40026"},
               {0.4, 40, "2.1408e-3", "1020.1", "3770.8", "0.41321"}});
}

TEST(GlycolReference, FreezingPoints) {
  const auto expect = [](const char* name, Factory make, double fraction, const char* published) {
    expect_outside({fmt::format("{} {:g}: freezing point", name, fraction), package, Obtained::read,
                    published, celsius_of(make(fraction)->lowest_temperature()), "°C", 3});
  };
  expect("ethylene glycol", ethylene_glycol, 0.1, "-3.357");
  expect("ethylene glycol", ethylene_glycol, 0.3, "-14.576");
  expect("ethylene glycol", ethylene_glycol, 0.5, "-35.994");
  expect("ethylene glycol", ethylene_glycol, 0.6, "-51.201");
  expect("propylene glycol", propylene_glycol, 0.3, "-12.79");
  expect("propylene glycol", propylene_glycol, 0.5, "-32.19");
}

TEST(GlycolReference, MoleFractionForRaoult) {
  expect_outside({"moles of water in 50 % ethylene glycol", "18.015 and 62.068 g/mol", Obtained::closed_form,
                  "0.7750", water_mole_fraction_of_ethylene_glycol(0.5), "", 4});
}

// Another fit of another author: what an independent source makes of the same mixture, roughly.
TEST(GlycolReference, AnotherSourceAgreesRoughly) {
  const std::string other = "Modelica Standard Library, Thermal.FluidHeatFlow.Media, glycol 20:80 at 20 °C";
  const auto liquid = ethylene_glycol(0.2);
  const Temperature t = kelvin(293.15);
  expect_outside({"glycol 20:80: density", other, Obtained::read, "1028",
                  liquid->density(t, atmosphere).value(), "kg/m³", 2});
  expect_outside({"glycol 20:80: heat capacity", other, Obtained::read, "3910",
                  liquid->heat_capacity(t, atmosphere).value(), "J/(kg·K)", 2});
  expect_outside(
      {"glycol 20:80: kinematic viscosity", other, Obtained::read, "1.69",
       liquid->viscosity(t, atmosphere) / liquid->density(t, atmosphere) / square_metres_per_second(1e-6),
       "mm²/s", 1});
}

}  // namespace
}  // namespace pumpwright::testing
