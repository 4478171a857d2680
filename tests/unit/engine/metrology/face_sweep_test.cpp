// Tilt of a face with the shaft floating, held, and read by two indicators.
#include "engine/metrology/face_sweep.h"

#include <gtest/gtest.h>

#include "engine/quantity/bad_input.h"
#include "tests/unit/engine/metrology/known_surface.h"

namespace pumpwright {
namespace {

using testing::even_places;
using testing::KnownSurface;
using testing::swept;

const FaceGeometry geometry{.radius = metres(0.040), .seat_diameter = metres(0.050)};
const KnownSurface tilted{.harmonics = {{1, 20e-6, 110}}};  // 0.5 mrad at 40 mm
const SweepSetup face{.axis = Axis::face, .mount = Mount::housing};

// Shaft float at the instant of reading i: not related to the angle.
double float_m(std::size_t i) {
  return 30e-6 * std::sin(2.3 * static_cast<double>(i));
}

std::vector<TwoIndicatorReading> two_indicators(const KnownSurface& surface) {
  std::vector<TwoIndicatorReading> readings;
  std::size_t i = 0;
  for (const double place : even_places(12)) {
    const double shift_m = float_m(i++);
    readings.push_back({.angle = degrees(place),
                        .first = metres(surface.at(place) + shift_m),
                        .opposite = metres(surface.at(place + 180) + shift_m + 5e-5)});  // another zero
  }
  return readings;
}

TEST(FaceSweep, OneIndicatorOnAHeldShaftGivesTiltDirectionAndSquareness) {
  const FaceResult r =
      evaluate_face_sweep(swept(tilted, even_places(12)), face, HeldToward::driver, geometry);
  ASSERT_TRUE(r.tilt);
  EXPECT_NEAR(r.tilt->tilt.value(), std::atan(0.5e-3), 1e-12);
  ASSERT_TRUE(r.tilt->direction);
  EXPECT_NEAR(degrees_of(*r.tilt->direction), 110, 1e-6);
  EXPECT_NEAR(r.tilt->squareness.value(), 25e-6, 1e-12);
  EXPECT_FALSE(r.end_float);
}

TEST(FaceSweep, OneIndicatorOnAFloatingShaftClaimsNoTilt) {
  const FaceResult r =
      evaluate_face_sweep(swept(tilted, even_places(12)), face, HeldToward::not_held, geometry);
  EXPECT_FALSE(r.tilt);
  EXPECT_NEAR(r.sweep.tir.value.value(), 40e-6, 2e-6);  // what was read is still there to be seen
}

TEST(FaceSweep, TwoIndicatorsGiveTheTiltWhateverTheShaftDoes) {
  const FaceResult r = evaluate_face_sweep(two_indicators(tilted), face, geometry);
  ASSERT_TRUE(r.tilt);
  EXPECT_NEAR(r.tilt->squareness.value(), 25e-6, 1e-12);
  ASSERT_TRUE(r.tilt->direction);
  EXPECT_NEAR(degrees_of(*r.tilt->direction), 110, 1e-5);
  EXPECT_NEAR(r.sweep.tir_fitted.value.value(), 40e-6, 1e-12);
}

TEST(FaceSweep, TwoIndicatorsGiveTheFloatByHalfTheirSum) {
  const FaceResult r = evaluate_face_sweep(two_indicators(tilted), face, geometry);
  double low = 1;
  double high = -1;
  for (std::size_t i = 0; i < 12; ++i) {
    low = std::min(low, float_m(i));
    high = std::max(high, float_m(i));
    EXPECT_NEAR(r.float_at[i].value(), float_m(i) - float_m(0), 1e-15);
  }
  ASSERT_TRUE(r.end_float);
  EXPECT_NEAR(r.end_float->value(), high - low, 1e-15);
}

TEST(FaceSweep, AveragingTheTwoWouldHaveHiddenTheTilt) {
  // The defect this guards against: the mean of both indicators has no first harmonic at all.
  std::vector<SweepReading> means;
  for (const TwoIndicatorReading& r : two_indicators(tilted))
    means.push_back({r.angle, 0.5 * (r.first + r.opposite)});
  for (std::size_t i = 0; i < means.size(); ++i)
    means[i].reading -= metres(float_m(i));
  EXPECT_NEAR(evaluate_sweep(means, face).eccentricity.value.value(), 0, 1e-12);
}

TEST(FaceSweep, TwoIndicatorsShareTheirDoubt) {
  const Instrument dial{.id = "dial", .graduation = metres(10e-6)};
  const auto one =
      evaluate_face_sweep(swept(tilted, even_places(4)), face, HeldToward::impeller, geometry, &dial);
  std::vector<TwoIndicatorReading> pairs;
  for (const double place : even_places(4))
    pairs.push_back({degrees(place), metres(tilted.at(place)), metres(tilted.at(place + 180))});
  const auto two = evaluate_face_sweep(pairs, face, geometry, &dial);
  ASSERT_TRUE(one.tilt->tilt_u && two.tilt->tilt_u);
  EXPECT_NEAR(two.tilt->tilt_u->value() * std::sqrt(2.0), one.tilt->tilt_u->value(), 1e-12);
  EXPECT_NEAR(one.tilt->squareness_u->value(), 0.05 / 0.04 * 10e-6 / std::sqrt(12.0) / std::sqrt(2.0), 1e-12);
}

TEST(FaceSweep, RefusesARadialSetUpAndSizesThatAreNone) {
  const auto readings = swept(tilted, even_places(4));
  EXPECT_THROW(evaluate_face_sweep(readings, {}, HeldToward::driver, geometry), BadInput);
  for (const double bad : {0.0, -1.0, std::nan("")}) {
    EXPECT_THROW(evaluate_face_sweep(readings, face, HeldToward::driver,
                                     {.radius = metres(bad), .seat_diameter = metres(0.05)}),
                 BadInput);
    EXPECT_THROW(evaluate_face_sweep(readings, face, HeldToward::driver,
                                     {.radius = metres(0.04), .seat_diameter = metres(bad)}),
                 BadInput);
  }
}

}  // namespace
}  // namespace pumpwright
