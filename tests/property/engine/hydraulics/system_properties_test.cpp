#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "engine/hydraulics/operating_point.h"
#include "engine/hydraulics/pressure_decay.h"
#include "tests/support/hold.h"

namespace pumpwright::testing {
namespace {

using namespace hydraulics;

double between(double low, double high) {
  return low + (high - low) * *rc::gen::inRange(0, 10'001) * 1e-4;
}

TEST(SystemProperty, FrictionSolvesItsEquation) {
  hold("colebrook", [] {
    const double re = std::pow(10, between(3.7, 8.9)), roughness = between(0, 0.1);
    const double x = 1 / std::sqrt(friction_factor(re, roughness));
    RC_ASSERT(std::fabs(x + 2 * std::log10(roughness / 3.7 + 2.51 * x / re)) < 1e-12 * x);
  });
}

FlowCurve pump(double h0, double a, double to) {
  std::vector<double> q, h;
  for (int i = 0; i <= 8; ++i) {
    q.push_back(to * i / 8);
    h.push_back(h0 - a * q.back() * q.back());
  }
  return FlowCurve::through(q, h, {CurveKind::polynomial, 2});
}

TEST(SystemProperty, AtTheOperatingPointPumpsGiveWhatThePlantAsks) {
  hold(
      "point",
      [] {
        PumpGroup group{pump(between(20, 60), between(1e4, 1e5), 0.02), *rc::gen::inRange(1, 4),
                        *rc::gen::inRange(1, 4), between(0.5, 1.2)};
        Plant plant;
        plant.static_head = metres(between(-5, 10));
        plant.pipes = {{metres(between(1, 300)), metres(between(0.05, 0.2)), metres(4.5e-5), between(0, 30)}};
        plant.viscosity = square_metres_per_second(1e-6);
        const auto p = operating_point(group, plant);
        const double surplus_m = p.head_m - plant_head_m(plant, p.flow_m3_s);
        if (p.meeting == Meeting::found)
          RC_ASSERT(std::fabs(surplus_m) < 1e-6);
        else
          RC_ASSERT((p.meeting == Meeting::beyond_runout) == (surplus_m > 0));
      },
      1000);
}

// What a liquid loses over two spells is what it loses over both; so for a gas.
TEST(PressureDecayProperty, SpellsAddUp) {
  hold("spells", [] {
    const double p1 = between(1e5, 2e6), p2 = between(1e5, 2e6), p3 = between(1e5, 2e6);
    const double t1 = between(280, 320), t2 = between(280, 320), t3 = between(280, 320);
    LiquidMedium m;
    m.bulk_modulus = pascals(2.2e9);
    m.expansion_per_k = between(0, 1e-3);
    m.trapped_air = cubic_metres(between(0, 1e-4));
    const auto leaked_m3 = [&](double pa, double ta, double pb, double tb) {
      HoldTest t{{{pascals(pa)}, kelvin(ta)},
                 {{pascals(pb)}, kelvin(tb)},
                 seconds(60),
                 cubic_metres(0.005),
                 {pascals(101'325)}};
      return 60 * liquid_leak(t, m).leak_m3_s.value;
    };
    RC_ASSERT(std::fabs(leaked_m3(p1, t1, p2, t2) + leaked_m3(p2, t2, p3, t3) - leaked_m3(p1, t1, p3, t3)) <
              1e-15);
  });
}

}  // namespace
}  // namespace pumpwright::testing
