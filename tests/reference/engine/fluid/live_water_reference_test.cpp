#include <algorithm>
#include <array>
#include <cmath>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/fluid/if97.h"
#include "engine/fluid/saturation.h"
#include "engine/fluid/water_conductivity.h"
#include "engine/fluid/water_viscosity.h"
#include "tests/support/live_python.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

using namespace fluid;

// 4000 liquid, 4000 steam and 2000 saturation states: 10,000 in all.
constexpr std::size_t states_of_a_region = 4000;
constexpr std::size_t saturation_states = 2000;
constexpr int digits_wanted = 9;

double between(std::mt19937_64& random, double low, double high) {
  return std::uniform_real_distribution<double>(low, high)(random);
}

// Pressures evenly spread in their logarithm.
double between_logs(std::mt19937_64& random, double low, double high) {
  return std::exp(between(random, std::log(low), std::log(high)));
}

double saturation_pa(double t_k) {
  return water_saturation_pressure(kelvin(t_k)).value.value();
}

std::vector<double> liquid_states() {
  std::mt19937_64 random(20'260'101);
  std::vector<double> states;
  for (std::size_t i = 0; i < states_of_a_region; ++i) {
    const double t_k = between(random, 273.15, 623.15);
    states.push_back(t_k);
    states.push_back(between_logs(random, saturation_pa(t_k) * 1.0001, 100e6));
  }
  return states;
}

double highest_of_steam_pa(double t_k) {
  if (t_k <= 623.15) return saturation_pa(t_k) * 0.9999;
  return t_k <= 863.15 ? steam_boundary(kelvin(t_k)).value.value() * 0.9999 : 100e6;
}

std::vector<double> steam_states() {
  std::mt19937_64 random(20'260'102);
  std::vector<double> states;
  for (std::size_t i = 0; i < states_of_a_region; ++i) {
    const double t_k = between(random, 273.16, 1073.15);
    states.push_back(t_k);
    states.push_back(between_logs(random, 1, highest_of_steam_pa(t_k)));
  }
  return states;
}

std::vector<double> numbers_of(const std::string& command, const std::vector<double>& input) {
  const SampleFile file(input);
  std::vector<double> numbers;
  for (const std::string& word : live_words(command + " '" + file.path() + "'"))
    numbers.push_back(std::stod(word));
  return numbers;
}

// Enthalpy, energy and entropy pass through zero: they are compared with at least RT and R.
constexpr double gas_constant = 461.526;

double difference(double ours, double theirs, double least_scale = 0) {
  return std::fabs(ours - theirs) / std::max(std::fabs(theirs), least_scale);
}

struct Largest {
  std::string what;
  double difference = 0;
};

void expect_region(const std::string& region, int number, const std::vector<double>& states,
                   WaterState (*state_of)(Temperature, AbsolutePressure)) {
  const auto theirs = numbers_of(fmt::format("states {}", number), states);
  std::array<Largest, 9> largest{{{"specific volume"},
                                  {"internal energy"},
                                  {"enthalpy"},
                                  {"entropy"},
                                  {"heat capacity at constant pressure"},
                                  {"heat capacity at constant volume"},
                                  {"speed of sound"},
                                  {"viscosity"},
                                  {"conductivity"}}};
  ASSERT_EQ(theirs.size(), largest.size() * states.size() / 2);
  for (std::size_t i = 0; i < states.size() / 2; ++i) {
    const Temperature t = kelvin(states[2 * i]);
    const WaterState ours = state_of(t, {pascals(states[2 * i + 1])});
    const double rt = gas_constant * kelvin_of(t);
    const std::array<std::pair<double, double>, 9> values{{{ours.specific_volume.value(), 0},
                                                           {ours.internal_energy.value(), rt},
                                                           {ours.enthalpy.value(), rt},
                                                           {ours.entropy.value(), gas_constant},
                                                           {ours.isobaric.value(), 0},
                                                           {ours.isochoric.value(), 0},
                                                           {ours.sound.value(), 0},
                                                           {water_viscosity(t, ours.density).value(), 0},
                                                           {water_conductivity(t, ours).value(), 0}}};
    for (std::size_t k = 0; k < values.size(); ++k)
      largest[k].difference =
          std::max(largest[k].difference,
                   difference(values[k].first, theirs[i * values.size() + k], values[k].second));
  }
  for (const Largest& l : largest)
    expect_outside({fmt::format("{}: {}, largest relative difference over {} seeded states", region, l.what,
                                states.size() / 2),
                    live_versions(), Obtained::live, "0", l.difference, "", digits_wanted});
}

TEST(LiveWaterReference, LiquidOverSeededStates) {
  expect_region("liquid water", 1, liquid_states(), liquid_water);
}

TEST(LiveWaterReference, SteamOverSeededStates) {
  expect_region("steam", 2, steam_states(), steam);
}

TEST(LiveWaterReference, SaturationOverSeededStates) {
  std::mt19937_64 random(20'260'103);
  std::vector<double> temperatures(saturation_states);
  for (double& t_k : temperatures)
    t_k = between(random, 273.15, 647.096);
  const auto theirs = numbers_of("saturation", temperatures);
  ASSERT_EQ(theirs.size(), 2 * temperatures.size());
  double largest_p = 0;
  double largest_t = 0;
  for (std::size_t i = 0; i < temperatures.size(); ++i) {
    largest_p = std::max(largest_p, difference(saturation_pa(temperatures[i]), theirs[2 * i]));
    const double t_k = kelvin_of(water_saturation_temperature({pascals(theirs[2 * i])}));
    largest_t = std::max(largest_t, difference(t_k, theirs[2 * i + 1]));
  }
  const std::string over =
      fmt::format("largest relative difference over {} seeded states", saturation_states);
  expect_outside(
      {"saturation pressure, " + over, live_versions(), Obtained::live, "0", largest_p, "", digits_wanted});
  expect_outside({"saturation temperature, " + over, live_versions(), Obtained::live, "0", largest_t, "",
                  digits_wanted});
}

}  // namespace
}  // namespace pumpwright::testing
