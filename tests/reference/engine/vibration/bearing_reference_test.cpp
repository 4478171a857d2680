// Bearing frequencies beside published figures.
#include <numbers>

#include <gtest/gtest.h>

#include "engine/vibration/bearing_frequencies.h"
#include "tests/support/outside_check.h"

namespace pumpwright::vibration {
namespace {

using testing::expect_outside;
using testing::Obtained;

constexpr double inch_m = 0.0254;

TEST(BearingFrequenciesPublished, TimesTheTurningFrequency) {
  const auto f = bearing_frequencies({9, metres(0.3126 * inch_m), metres(1.537 * inch_m), {}},
                                     Speed::from_value(2 * std::numbers::pi));
  const char* source =
      "Case Western Reserve University, Bearing Data Center: drive-end bearing of the test rig, defect "
      "frequencies as multiples of the running speed";
  expect_outside({"outer race", source, Obtained::remembered, "3.5848", f.outer_race.value(), "", 4});
  expect_outside({"inner race", source, Obtained::remembered, "5.4152", f.inner_race.value(), "", 4});
  expect_outside({"cage", source, Obtained::remembered, "0.39828", f.cage.value(), "", 4});
  expect_outside(
      {"rolling element, both races", source, Obtained::remembered, "4.7135", 2 * f.element.value(), "", 4});
}

TEST(BearingFrequenciesPublished, RoundFigures) {
  const auto f = bearing_frequencies({8, metres(0.01), metres(0.05), {}},
                                     Speed::from_value(1800 * std::numbers::pi / 30));
  const char* source =
      "public example table of bearing fault frequencies: 1800 r/min, 8 elements of 10 mm on 50 mm, 0 deg";
  expect_outside({"cage", source, Obtained::read, "12", f.cage.value(), "Hz", 2});
  expect_outside({"outer race", source, Obtained::read, "96", f.outer_race.value(), "Hz", 2});
  expect_outside({"inner race", source, Obtained::read, "144", f.inner_race.value(), "Hz", 3});
  expect_outside({"element", source, Obtained::read, "72", f.element.value(), "Hz", 2});
}

}  // namespace
}  // namespace pumpwright::vibration
