// Radial thrust and unbalance beside published worked examples.
#include <gtest/gtest.h>

#include "engine/rotor/radial_thrust.h"
#include "engine/rotor/unbalance.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

constexpr double ft = 0.3048, in = 0.0254, lbf = 4.4482216152605;

rotor::ThrustCase sewage_pump(double factor) {
  return {{factor, factor, factor, "given"},
          metres(138 * ft),
          kilograms_per_cubic_metre(1000),
          metres(11.88 * in),
          metres(3.5 * in)};
}

TEST(RadialThrustReference, SewagePumpAtPartLoad) {
  expect_outside({"radial thrust, K 0.21, 138 ft, 11.88 x 3.5 in",
                  "J. Evans, radial thrust calculator, worked example (public copy)", Obtained::read, "522",
                  rotor::radial_thrust(sewage_pump(0.21)).expected.value() / lbf, "lbf", 3});
}

TEST(RadialThrustReference, StepanoffsForm) {
  rotor::ThrustCase pump = sewage_pump(0.36);
  pump.head = metres(100 * ft);
  pump.outlet_diameter = metres(10 * in);
  pump.outlet_width = metres(1 * in);
  // 0.36 x 100 / 2.31 x 10 x 1 = 155.84 lbf; 2.31 ft of water to the psi is rounded
  expect_outside({"radial thrust, K 0.36, 100 ft, 10 x 1 in",
                  "K H D2 B2 / 2.31, form read in two trade articles", Obtained::read, "156",
                  rotor::radial_thrust(pump).expected.value() / lbf, "lbf", 3});
}

// The same pump: 0.21 at 40 % of best efficiency was taken from the Hydraulic Institute's graph; 59 lbf at
// best efficiency, where its head is 110 ft, is 0.0298.
TEST(RadialThrustReference, FactorsOfAPublishedExampleLieInTheRange) {
  const rotor::RadialFactor part = rotor::single_volute_factor(0.4);
  EXPECT_LT(part.least, 0.21);
  EXPECT_GT(part.most, 0.21);
  const rotor::RadialFactor best = rotor::single_volute_factor(1);
  const double left = 59 / (110 / 2.31 * 11.88 * 3.5);
  EXPECT_LT(best.least, left);
  EXPECT_GT(best.most, left);
  expect_outside({"factor left at best efficiency", "the same example: 59 lbf at 110 ft, 11.88 x 3.5 in",
                  Obtained::read, "0.030", best.expected, "", 2});
}

TEST(RadialThrustReference, UnbalanceOfAGrade) {
  const rotor::Unbalance u =
      rotor::unbalance_of_grade(kilograms(2), metres_per_second(2.5e-3), radians_per_second(100 * pi));
  expect_outside({"permissible unbalance, 2 kg, 3000 r/min, G 2.5",
                  "1000 G m / w, inputs and w of a public note on impeller balancing", Obtained::closed_form,
                  "15.9155", u.value() * 1e6, "g·mm", 6});
}

}  // namespace
}  // namespace pumpwright::testing
