#include <gtest/gtest.h>

#include "engine/seal/tracking.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

TEST(TrackingReference, ACrookedSeatMovesTheRingAsWorkedOut) {
  seal::TrackingCase c;
  c.style = seal::HeadStyle::stationary;
  c.seat = {Tir{metres(0.05e-3)}, metres(0)};
  c.swept_diameter = metres(0.060);
  c.faces = {metres(0.058), metres(0.052), metres(0.054),
             seal::PressureSide::outside};  // mean radius 27.5 mm
  c.speed = radians_per_second(3600 * 2 * pi / 60);
  c.ring = kilograms(0.04);
  c.spring = newtons(90);
  const seal::Tracking t = seal::tracking(c);
  const std::string source =
      "own mechanics: 0.05 mm on 60 mm, 3600 r/min, radius 27.5 mm, worked out separately";
  const auto row = [&](const char* what, const char* value, double computed, const char* unit) {
    expect_outside({what, source, Obtained::closed_form, value, computed, unit, 4});
  };
  row("tilt of the seat", "0.8333", t.tilt.value() * 1000, "mrad");
  row("stroke of the ring", "22.92", t.stroke.value() * 1e6, "um");
  row("largest axial speed", "8.640", t.peak_velocity.value() * 1000, "mm/s");
  row("axial acceleration", "3.257", t.acceleration.value(), "m/s2");
  row("force to follow, 40 g", "0.1303", t.required.value(), "N");
}

}  // namespace
}  // namespace pumpwright::testing
