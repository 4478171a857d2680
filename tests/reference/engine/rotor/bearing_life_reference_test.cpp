// Lives of rolling bearings beside published worked examples.
#include <array>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/rotor/bearing_life.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

using rotor::BearingKind;
using rotor::RatedBearing;

constexpr Speed rpm(double n) {
  return radians_per_second(n * pi / 30);
}

TEST(BearingLifeReference, DeepGrooveBearingUnderRadialLoad) {
  const RatedBearing bearing{BearingKind::deep_groove_ball, newtons(22'400), std::nullopt, std::nullopt};
  const Force p = rotor::equivalent_load(bearing, newtons(3200), newtons(0));
  const double life_s = rotor::basic_life(bearing, p, rpm(650)).value();
  const std::string source =
      "lecture notes on antifriction bearings, example 1 (public copy): C 22.4 kN, 3.2 kN, 650 rpm";
  expect_outside({"life in million turns", source, Obtained::read, "343", life_s * 650 / 60 / 1e6, "", 3});
  expect_outside({"life in hours", source, Obtained::read, "8795", life_s / 3600, "h", 4});
}

TEST(BearingLifeReference, EightTimesTheLoadRating) {
  const RatedBearing bearing{BearingKind::deep_groove_ball, newtons(16'000), std::nullopt, std::nullopt};
  expect_outside({"life under an eighth of the rating", "examination question with solution: C 16 kN, W 2 kN",
                  Obtained::read, "512", rotor::basic_life(bearing, newtons(2000), rpm(60)).value() / 1e6,
                  "million turns", 3});
}

TEST(BearingLifeReference, TwoBearingsTogether) {
  const std::array lives{seconds(37'037 * 3600.0), seconds(37'037 * 3600.0)};
  expect_outside({"life of two bearings of 37 037 h together",
                  "API 610 (12th ed.) 6.10.1.11, public restatement with example", Obtained::read, "23300",
                  rotor::system_life(lives).value() / 3600, "h", 2});
}

// The handbook's axis is Fa / (i Z D²) in psi; f0 Fa / C0 is the same in N/mm².
TEST(BearingLifeReference, FactorsOfDeepGrooveBearings) {
  struct Row {
    double psi;
    const char* e;
    const char* y;
  };
  const RatedBearing bearing{BearingKind::deep_groove_ball, newtons(30'000), newtons(14'000), 14.0};
  const std::string source = "Rules of Thumb for Mechanical Engineers, table 7a (after ABMA)";
  for (const Row& row :
       {Row{24.92, "0.19", "2.30"}, Row{50.03, "0.22", "1.99"}, Row{99.91, "0.26", "1.71"},
        Row{149.35, "0.28", "1.55"}, Row{200.10, "0.30", "1.45"}, Row{300.15, "0.34", "1.31"},
        Row{500.25, "0.38", "1.15"}, Row{749.65, "0.42", "1.04"}, Row{999.05, "0.44", "1.00"}}) {
    const Force axial = newtons(row.psi * 6.894757293168e-3 * 1000);
    const rotor::LoadFactors k = rotor::load_factors(bearing, newtons(0), axial);
    expect_outside({fmt::format("e at {} psi", row.psi), source, Obtained::read, row.e, k.e, "", 2});
    expect_outside({fmt::format("Y at {} psi", row.psi), source, Obtained::read, row.y, k.y, "", 3});
    EXPECT_EQ(k.x, 0.56);
  }
}

TEST(BearingLifeReference, FactorsOfAngularContactBearings) {
  const RatedBearing bearing{BearingKind::angular_contact_ball_40, newtons(30'000), std::nullopt,
                             std::nullopt};
  // Fa / Fr = 2 > 1.14: P = 0.35 x 1000 + 0.57 x 2000
  expect_outside({"equivalent load of a 40° bearing, 1000 N across and 2000 N along",
                  "university's design guide, table of X and Y", Obtained::read, "1490",
                  rotor::equivalent_load(bearing, newtons(1000), newtons(2000)).value(), "N", 4});
}

}  // namespace
}  // namespace pumpwright::testing
