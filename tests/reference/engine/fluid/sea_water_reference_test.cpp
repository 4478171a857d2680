#include <algorithm>
#include <cmath>
#include <random>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/fluid/known_range.h"
#include "engine/fluid/saturation.h"
#include "engine/fluid/sea_water.h"
#include "tests/support/live_python.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

using namespace fluid;

constexpr AbsolutePressure atmosphere{pascals(101'325)};
constexpr double reference_salinity = 0.03516504;

Temperature celsius(double c) {
  return kelvin(celsius_zero_k + c);
}

// The towing tanks' tables come from the thermodynamic equation of seawater 2010, not from these
// correlations.
TEST(SeaWaterReference, DensityOfTheTowingTanks) {
  struct Row {
    double celsius;
    const char* density;
  };
  const auto sea = sea_water(reference_salinity);
  for (const Row& row :
       {Row{1, "1028.0941"}, Row{15, "1026.0210"}, Row{25, "1023.3873"}, Row{30, "1021.7694"}})
    expect_outside({fmt::format("standard sea water at {:g} °C: density", row.celsius),
                    "ITTC 7.5-02-01-03 (2011), Table 3", Obtained::read, row.density,
                    sea->density(celsius(row.celsius), atmosphere).value(), "kg/m³", 3});
  expect_outside({"standard sea water at 15 °C: viscosity", "ITTC 7.5-02-01-03 (2011), Table 3",
                  Obtained::read, "0.001220", sea->viscosity(celsius(15), atmosphere).value(), "Pa·s", 4});
  expect_outside({"standard sea water at 15 °C: vapour pressure", "ITTC 7.5-02-01-03 (2011), Table 3",
                  Obtained::read, "1670.9", sea->saturation_pressure(celsius(15)).value.value(), "Pa", 2});
}

// Another implementation of the same papers prints these; it leaves out the steps between the temperature and
// salinity scales of 1968, 1978 and today.
TEST(SeaWaterReference, AnotherImplementationOfTheSamePapers) {
  struct Row {
    double celsius;
    double salinity;
    const char* density;
    const char* viscosity;
    const char* heat_capacity;
    const char* conductivity;
    const char* vapour_pressure;
  };
  for (const Row& row : {Row{25, 0.035, "1023.5", "9.588e-4", "4001", "0.6086", "3111"},
                         Row{50, 0.01, "995.4", "5.596e-4", "4130", "0.6400", "1.229e4"},
                         Row{10, 0.05, "1039", "1.443e-3", "3916", "0.5854", "1194"}}) {
    const auto sea = sea_water(row.salinity);
    const Temperature t = celsius(row.celsius);
    const std::string at =
        fmt::format("sea water of {:g} g/kg at {:g} °C: ", 1000 * row.salinity, row.celsius);
    const auto expect = [&](const char* what, const char* published, double computed, const char* unit,
                            int digits) {
      expect_outside({at + what, "WaterTAP, tests of its seawater properties (Sharqawy 2010, Nayar 2016)",
                      Obtained::read, published, computed, unit, digits});
    };
    expect("density", row.density, sea->density(t, atmosphere).value(), "kg/m³", 4);
    expect("viscosity", row.viscosity, sea->viscosity(t, atmosphere).value(), "Pa·s", 4);
    expect("heat capacity", row.heat_capacity, sea->heat_capacity(t, atmosphere).value(), "J/(kg·K)", 3);
    expect("conductivity", row.conductivity, sea->conductivity(t, atmosphere).value(), "W/(m·K)", 3);
    expect("vapour pressure", row.vapour_pressure, sea->saturation_pressure(t).value.value(), "Pa", 3);
  }
}

// IAPWS 2008 for seawater, inside the range in which oceans gave it its data: to 40 °C and 42 g/kg.
TEST(SeaWaterReference, ThermodynamicEquationOverSeededStates) {
  constexpr std::size_t count = 100;
  std::mt19937_64 random(20'260'104);
  std::uniform_real_distribution<double> temperature(273.65, 313.15);
  std::uniform_real_distribution<double> salinity(0.001, 0.042);
  std::vector<double> states;
  for (std::size_t i = 0; i < count; ++i) {
    states.push_back(temperature(random));
    states.push_back(salinity(random));
  }
  const SampleFile file(states);
  const auto words = live_words("sea_water '" + file.path() + "'");
  ASSERT_EQ(words.size(), 3 * count);
  double density = 0;
  double heat_capacity = 0;
  double vapour = 0;
  for (std::size_t i = 0; i < count; ++i) {
    const Temperature t = kelvin(states[2 * i]);
    const auto sea = sea_water(states[2 * i + 1]);
    const auto differs = [&](double ours, std::size_t k) {
      return std::fabs(ours / std::stod(words[3 * i + k]) - 1);
    };
    density = std::max(density, differs(sea->density(t, atmosphere).value(), 0));
    heat_capacity = std::max(heat_capacity, differs(sea->heat_capacity(t, atmosphere).value(), 1));
    vapour =
        std::max(vapour, differs(sea->saturation_pressure(t).value / water_saturation_pressure(t).value, 2));
  }
  const auto expect = [&](const char* what, double computed, int digits) {
    expect_outside(
        {fmt::format("sea water: {}, largest relative difference over {} seeded states", what, count),
         live_versions() + ", IAPWS formulation 2008 for seawater", Obtained::live, "0", computed, "",
         digits});
  };
  expect("density", density, 3);
  expect("heat capacity", heat_capacity, 2);
  expect("vapour pressure against fresh water", vapour, 3);
}

}  // namespace
}  // namespace pumpwright::testing
