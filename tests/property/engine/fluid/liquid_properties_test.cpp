#include <algorithm>
#include <cmath>
#include <memory>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "engine/fluid/glycol.h"
#include "engine/fluid/if97.h"
#include "engine/fluid/saturation.h"
#include "engine/fluid/sea_water.h"
#include "engine/fluid/user_liquid.h"
#include "engine/fluid/water.h"
#include "engine/quantity/bad_input.h"
#include "tests/support/hold.h"

namespace pumpwright::testing {
namespace {

using namespace fluid;

double part() {
  return *rc::gen::inRange(0, 1'000'001) * 1e-6;
}

double between(double low, double high) {
  return std::clamp(low + part() * (high - low), low, high);
}

std::shared_ptr<const Liquid> random_user_liquid() {
  const double a = between(20, 24);
  const double b = between(2500, 5500);
  const double c = between(-70, -10);
  UserLiquid sheet{.name = "of a sheet",
                   .source = "drawn",
                   .vapour_pressure = {},
                   .viscosity = {{{kelvin(280), square_metres_per_second(between(2, 300) * 1e-6)},
                                  {kelvin(370), square_metres_per_second(between(0.25, 1.9) * 1e-6)}}},
                   .density = {{kelvin(280), kilograms_per_cubic_metre(between(700, 1200))},
                               {kelvin(380), kilograms_per_cubic_metre(between(600, 690))}},
                   .heat_capacity = joules_per_kilogram_kelvin(2000),
                   .conductivity = watts_per_metre_kelvin(0.15)};
  const int points = *rc::gen::inRange(2, 7);
  for (int i = 0; i < points; ++i) {
    const double t_k = 275 + 100.0 * i / (points - 1);
    sheet.vapour_pressure.push_back({kelvin(t_k), {pascals(std::exp(a - b / (t_k + c)))}});
  }
  return user_liquid(sheet);
}

std::shared_ptr<const Liquid> any_liquid() {
  switch (*rc::gen::inRange(0, 5)) {
    case 0:
      return water();
    case 1:
      return sea_water(between(0, highest_salinity));
    case 2:
      return ethylene_glycol(between(0, highest_glycol_fraction));
    case 3:
      return propylene_glycol(between(0, highest_glycol_fraction));
    default:
      return random_user_liquid();
  }
}

Temperature any_temperature(const Liquid& liquid) {
  return kelvin(between(kelvin_of(liquid.lowest_temperature()), kelvin_of(liquid.highest_temperature())));
}

// A pressure at which every liquid here is known.
AbsolutePressure enough_pressure(const Liquid& liquid, Temperature t) {
  return {std::max(liquid.saturation_pressure(t).value, pascals(101'325))};
}

TEST(LiquidProperty, TheSaturationTemperatureIsTheInverseOfTheSaturationPressure) {
  hold("T(p(T)) = T and p(T(p)) = p to 1e-9", [] {
    const auto liquid = any_liquid();
    const Temperature t = any_temperature(*liquid);
    const AbsolutePressure p = liquid->saturation_pressure(t);
    const Temperature back = liquid->saturation_temperature(p);
    RC_ASSERT(std::fabs(kelvin_of(back) / kelvin_of(t) - 1) < 1e-9);
    RC_ASSERT(std::fabs(liquid->saturation_pressure(back).value / p.value - 1) < 1e-9);
  });
}

TEST(LiquidProperty, WaterComesBackOverTheWholeSaturationLine) {
  hold("water: T(p(T)) = T to 1e-9", [] {
    const double t_k = between(273.15, 647.096);
    const AbsolutePressure p = water_saturation_pressure(kelvin(t_k));
    const Temperature back = water_saturation_temperature(p);
    RC_ASSERT(std::fabs(kelvin_of(back) / t_k - 1) < 1e-9);
    RC_ASSERT(std::fabs(water_saturation_pressure(back).value / p.value - 1) < 1e-9);
  });
}

TEST(LiquidProperty, WarmerBoilsAtMorePressure) {
  hold("p(T) rises strictly", [] {
    const auto liquid = any_liquid();
    const Temperature a = any_temperature(*liquid);
    const Temperature b = any_temperature(*liquid);
    RC_PRE(kelvin_of(a) < kelvin_of(b));
    RC_ASSERT(liquid->saturation_pressure(a).value < liquid->saturation_pressure(b).value);
  });
}

TEST(LiquidProperty, WarmerIsThinner) {
  hold("viscosity falls", [] {
    const auto liquid = any_liquid();
    const Temperature a = any_temperature(*liquid);
    const Temperature b = any_temperature(*liquid);
    RC_PRE(kelvin_of(b) - kelvin_of(a) > 0.1);
    const AbsolutePressure p = enough_pressure(*liquid, b);
    RC_PRE(p.value.value() <= 10e6);
    RC_ASSERT(liquid->viscosity(a, p) > liquid->viscosity(b, p));
  });
}

TEST(LiquidProperty, ASmallStepOfTemperatureIsASmallStepOfEverything) {
  hold("no property jumps", [] {
    const auto liquid = any_liquid();
    const double low = kelvin_of(liquid->lowest_temperature());
    const double high = kelvin_of(liquid->highest_temperature());
    const double a = between(low, high - 1e-3);
    const Temperature from = kelvin(a);
    const Temperature to = kelvin(std::min(a + 1e-3, high));
    const AbsolutePressure p{1.001 * enough_pressure(*liquid, to).value};
    RC_PRE(p.value.value() <= 10e6);
    const auto close = [](double x, double y) { return std::fabs(y / x - 1) < 1e-3; };
    RC_ASSERT(close(liquid->saturation_pressure(from).value.value(),
                    liquid->saturation_pressure(to).value.value()));
    RC_ASSERT(close(liquid->density(from, p).value(), liquid->density(to, p).value()));
    RC_ASSERT(close(liquid->viscosity(from, p).value(), liquid->viscosity(to, p).value()));
    RC_ASSERT(close(liquid->heat_capacity(from, p).value(), liquid->heat_capacity(to, p).value()));
    RC_ASSERT(close(liquid->conductivity(from, p).value(), liquid->conductivity(to, p).value()));
  });
}

TEST(LiquidProperty, EveryPropertyIsPositiveOrRefused) {
  hold("a number in its place, or BadInput", [] {
    const auto liquid = any_liquid();
    const Temperature t = kelvin(between(0, 1300));
    const AbsolutePressure p{pascals(std::exp(between(-10, 20)))};
    try {
      RC_ASSERT(liquid->saturation_pressure(t).value.value() <= p.value.value() * (1 + 1e-9) ||
                (liquid->density(t, p), false));
      for (const double value : {liquid->density(t, p).value(), liquid->viscosity(t, p).value(),
                                 liquid->heat_capacity(t, p).value(), liquid->conductivity(t, p).value()})
        RC_ASSERT(std::isfinite(value) && value > 0);
    } catch (const BadInput& e) {
      RC_ASSERT(!e.what_was_wrong().expected.empty());
    }
  });
}

// dg = v dp - s dT: the mixed derivatives of the Gibbs energy agree, whichever way they are taken.
TEST(LiquidProperty, LiquidAndSteamObeyMaxwell) {
  hold("(∂v/∂T)_p = -(∂s/∂p)_T", [] {
    const bool liquid = *rc::gen::arbitrary<bool>();
    const double t_k = liquid ? between(280, 600) : between(400, 1000);
    const double saturation_pa = t_k < 623.15 ? water_saturation_pressure(kelvin(t_k)).value.value() : 15e6;
    const double p_pa = liquid ? between(2 * saturation_pa + 1e6, 90e6) : between(0.1, 0.7) * saturation_pa;
    const auto state = [&](double t, double p) {
      return liquid ? liquid_water(kelvin(t), {pascals(p)}) : steam(kelvin(t), {pascals(p)});
    };
    const double dt = 1e-2;
    const double dp = 1e-4 * p_pa;
    const double by_t =
        (state(t_k + dt, p_pa).specific_volume - state(t_k - dt, p_pa).specific_volume).value() / (2 * dt);
    const double by_p = (state(t_k, p_pa + dp).entropy - state(t_k, p_pa - dp).entropy).value() / (2 * dp);
    RC_ASSERT(std::fabs(by_t + by_p) < 1e-3 * std::fabs(by_t) + 1e-12);
  });
}

}  // namespace
}  // namespace pumpwright::testing
