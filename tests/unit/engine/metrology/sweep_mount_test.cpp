// The set-up decides sign and direction: each way of sitting an indicator, against a surface that is known.
#include <gtest/gtest.h>

#include "engine/metrology/sweep.h"
#include "engine/quantity/bad_input.h"
#include "tests/unit/engine/metrology/known_surface.h"

namespace pumpwright {
namespace {

using testing::even_places;
using testing::KnownSurface;
using testing::swept;

const KnownSurface surface{.mean_m = 1e-4, .harmonics = {{1, 20e-6, 75}, {2, 4e-6, 10}}};

double high_spot_deg(const std::vector<SweepReading>& readings, const SweepSetup& setup) {
  const SweepResult r = evaluate_sweep(readings, setup);
  EXPECT_TRUE(r.high_spot);
  EXPECT_NEAR(r.eccentricity.value.value(), 20e-6, 1e-12);
  return r.high_spot ? degrees_of(*r.high_spot) : -1;
}

std::vector<SweepReading> negated(std::vector<SweepReading> readings) {
  for (SweepReading& r : readings)
    r.reading = -r.reading;
  return readings;
}

// Sheet of a hand that writes how far it turned: `place_sign` is how the place under the plunger moved
// meanwhile.
std::vector<SweepReading> turned_sheet(double place_sign, double first_deg) {
  std::vector<SweepReading> readings;
  for (const double amount : even_places(12))
    readings.push_back({degrees(amount), metres(surface.at(first_deg + place_sign * amount))});
  return readings;
}

TEST(SweepMount, NeedleThatFallsWhenPushedInIsTurnedOver) {
  SweepSetup setup{.plunger_in = PlungerIn::minus};
  EXPECT_NEAR(high_spot_deg(negated(swept(surface, even_places(12))), setup), 75, 1e-6);
}

TEST(SweepMount, PlungerPushedInMeansABoreStandsCloser) {
  SweepSetup setup{.mount = Mount::housing, .surface = Surface::inside};
  // Where the bore is farthest from the axis the plunger comes out and the needle falls.
  EXPECT_NEAR(high_spot_deg(negated(swept(surface, even_places(12))), setup), 75, 1e-6);
  setup.plunger_in = PlungerIn::minus;
  EXPECT_NEAR(high_spot_deg(swept(surface, even_places(12)), setup), 75, 1e-6);
}

TEST(SweepMount, AFaceHasNoInside) {
  SweepSetup setup{.axis = Axis::face, .surface = Surface::inside};
  EXPECT_NEAR(high_spot_deg(swept(surface, even_places(12)), setup), 75, 1e-6);
}

TEST(SweepMount, TurningTheShaftInItsRotationBringsFallingPlacesUnderAFixedPlunger) {
  SweepSetup setup{.mount = Mount::shaft, .written = WrittenAngle::turned};
  setup.turning.first_place = degrees(20);
  EXPECT_NEAR(high_spot_deg(turned_sheet(-1, 20), setup), 75, 1e-6);
}

TEST(SweepMount, TurningBackwardsOrMarksThatFallTurnTheAngleRound) {
  SweepSetup setup{.mount = Mount::shaft, .written = WrittenAngle::turned};
  setup.turning.in_rotation = false;
  EXPECT_NEAR(high_spot_deg(turned_sheet(1, 0), setup), 75, 1e-6);
  setup.turning.marks_rise_with_rotation = false;
  EXPECT_NEAR(high_spot_deg(turned_sheet(-1, 0), setup), 75, 1e-6);
}

TEST(SweepMount, AnIndicatorMovedRoundMeetsRisingPlaces) {
  SweepSetup setup{.mount = Mount::shaft, .written = WrittenAngle::turned};
  setup.turning.moved = Moved::indicator;
  EXPECT_NEAR(high_spot_deg(turned_sheet(1, 0), setup), 75, 1e-6);
}

TEST(SweepMount, AnIndicatorCarriedByTheShaftMeetsRisingPlacesWhateverIsSaidToHaveMoved) {
  SweepSetup setup{.mount = Mount::housing, .written = WrittenAngle::turned};
  for (const Moved moved : {Moved::shaft, Moved::indicator}) {
    setup.turning.moved = moved;
    EXPECT_NEAR(high_spot_deg(turned_sheet(1, 0), setup), 75, 1e-6);
  }
}

TEST(SweepMount, AWrongMountWouldGiveAWrongDirectionSoATurnedAngleNeedsOne) {
  SweepSetup setup{.written = WrittenAngle::turned};
  EXPECT_THROW(evaluate_sweep(turned_sheet(1, 0), setup), BadInput);
  // The same sheet under the two mounts: mirrored places.
  setup.mount = Mount::housing;
  const double on_housing = high_spot_deg(turned_sheet(1, 0), setup);
  setup.mount = Mount::shaft;
  EXPECT_NEAR(high_spot_deg(turned_sheet(1, 0), setup), 360 - on_housing, 1e-6);
}

TEST(SweepMount, BarSagIsTakenOut) {
  SweepSetup setup{.mount = Mount::housing};
  setup.sag = BarSag{.at_bottom = metres(-60e-6), .top = degrees(0)};
  std::vector<SweepReading> readings = swept(surface, even_places(12));
  for (SweepReading& r : readings)
    r.reading += metres(-60e-6 * 0.5 * (1 - std::cos(r.angle.value())));
  EXPECT_NEAR(high_spot_deg(readings, setup), 75, 1e-6);
}

TEST(SweepMount, SagLeftInLooksLikeAHighTop) {
  std::vector<SweepReading> readings;
  for (const double place : even_places(12))
    readings.push_back({degrees(place), metres(-60e-6 * 0.5 * (1 - std::cos(place * pi / 180)))});
  const SweepResult r = evaluate_sweep(readings, {.mount = Mount::housing});
  EXPECT_NEAR(r.eccentricity.value.value(), 30e-6, 1e-12);
  ASSERT_TRUE(r.high_spot);
  EXPECT_NEAR(std::cos(r.high_spot->value()), 1, 1e-9);
}

TEST(SweepMount, DoubtAboutTheSagLiesAlongTheVertical) {
  const Instrument dial{.id = "dial", .graduation = metres(1e-6)};
  SweepSetup setup{.mount = Mount::housing};
  const auto readings = swept(surface, even_places(4));
  const auto before = evaluate_sweep(readings, setup, &dial).vector_uncertainty->covariance;
  setup.sag = BarSag{.at_bottom = metres(0), .top = degrees(90), .u = metres(8e-6)};
  const auto after = evaluate_sweep(readings, setup, &dial).vector_uncertainty->covariance;
  EXPECT_NEAR(after[0], before[0], 1e-20);
  EXPECT_NEAR(after[3], before[3] + 16e-12, 1e-20);
}

TEST(SweepMount, SagBelongsToABaseThatTurns) {
  for (const Mount mount : {Mount::unknown, Mount::shaft}) {
    SweepSetup setup{.mount = mount};
    setup.sag = BarSag{.at_bottom = metres(-60e-6)};
    EXPECT_THROW(evaluate_sweep(swept(surface, even_places(12)), setup), BadInput);
  }
}

}  // namespace
}  // namespace pumpwright
