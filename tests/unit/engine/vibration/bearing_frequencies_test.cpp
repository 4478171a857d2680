#include "engine/vibration/bearing_frequencies.h"

#include <numbers>

#include <gtest/gtest.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright::vibration {
namespace {

const Speed speed = Speed::from_value(1800 * std::numbers::pi / 30);

TEST(BearingFrequencies, RacesTogetherMeetEveryElementOnceATurn) {
  const auto f = bearing_frequencies({9, metres(0.008), metres(0.039), Angle::from_value(0.3)}, speed);
  EXPECT_NEAR((f.outer_race + f.inner_race).value(), 9 * 30.0, 1e-9);
  EXPECT_NEAR((f.outer_race / f.cage).value(), 9, 1e-12);
}

TEST(BearingFrequencies, RefusesWhatIsNoBearing) {
  EXPECT_THROW((void)bearing_frequencies({2, metres(0.008), metres(0.039), {}}, speed), BadInput);
  EXPECT_THROW((void)bearing_frequencies({9, metres(0), metres(0.039), {}}, speed), BadInput);
  EXPECT_THROW((void)bearing_frequencies({9, metres(0.04), metres(0.039), {}}, speed), BadInput);
  EXPECT_THROW((void)bearing_frequencies({9, metres(0.008), metres(0.039), Angle::from_value(1.5)}, speed),
               BadInput);
  EXPECT_THROW((void)bearing_frequencies({9, metres(0.008), metres(0.039), {}}, Speed{}), BadInput);
}

}  // namespace
}  // namespace pumpwright::vibration
