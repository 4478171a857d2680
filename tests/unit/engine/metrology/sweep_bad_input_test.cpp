// Sheets that can not be evaluated are refused with a line that says why.
#include <cmath>
#include <limits>

#include <gtest/gtest.h>

#include "engine/metrology/sweep.h"
#include "engine/quantity/bad_input.h"
#include "tests/unit/engine/metrology/known_surface.h"

namespace pumpwright {
namespace {

using testing::even_places;
using testing::swept;

std::string refusal(const std::vector<SweepReading>& readings, const SweepSetup& setup = {}) {
  try {
    evaluate_sweep(readings, setup);
  } catch (const BadInput& e) {
    return e.what();
  }
  return {};
}

bool says(const std::string& line, const std::string& part) {
  return line.find(part) != std::string::npos;
}

TEST(SweepBadInput, TooFewReadings) {
  EXPECT_TRUE(says(refusal({}), "0 readings"));
  EXPECT_TRUE(says(refusal(swept({}, {0, 180})), "2 readings"));
}

TEST(SweepBadInput, TooFewPlacesOutsideTheGaps) {
  SweepSetup setup;
  setup.gaps = {{degrees(80), degrees(280)}};
  EXPECT_TRUE(says(refusal(swept({}, even_places(4)), setup), "1 different places outside the gaps"));
}

TEST(SweepBadInput, ThreeReadingsAtTwoPlacesAreNotASweep) {
  EXPECT_TRUE(says(refusal(swept({}, {0, 180, 360})), "2 different places"));
}

TEST(SweepBadInput, AnAngleTwiceInOneTurnIsNamedWithItsReadings) {
  const std::string line = refusal(swept({}, {0, 90, 90, 270}));
  EXPECT_TRUE(says(line, "90 deg in readings 2 and 3")) << line;
  EXPECT_TRUE(says(line, "past 360 deg")) << line;
  // The same place written two ways within one turn.
  EXPECT_FALSE(refusal(swept({}, {0, -90, 90, 180, 270})).empty());
  // Repeating the first angle anywhere but at the end.
  EXPECT_FALSE(refusal(swept({}, {0, 90, 0, 180, 270})).empty());
  EXPECT_TRUE(refusal(swept({}, {0, 90, 180, 270, 0})).empty());
  EXPECT_TRUE(refusal(swept({}, {0, 90, 180, 270, 360})).empty());
}

TEST(SweepBadInput, ASecondTurnMustGoOnPastTheFirst) {
  EXPECT_FALSE(refusal(swept({}, {0, 90, 180, 270, 0, 90, 180, 270})).empty());
  EXPECT_TRUE(refusal(swept({}, {0, 90, 180, 270, 360, 450, 540, 630})).empty());
}

TEST(SweepBadInput, NumbersThatAreNoNumbers) {
  for (const double bad : {std::nan(""), std::numeric_limits<double>::infinity(), 2.0}) {
    auto readings = swept({}, even_places(4));
    readings[2].reading = metres(bad);
    EXPECT_TRUE(says(refusal(readings), "reading 3")) << bad;
  }
  for (const double bad : {std::nan(""), -std::numeric_limits<double>::infinity(), 1e12}) {
    auto readings = swept({}, even_places(4));
    readings[1].angle = radians(bad);
    EXPECT_TRUE(says(refusal(readings), "angle of reading 2")) << bad;
  }
}

TEST(SweepBadInput, PlacesCrowdedOnAShortArc) {
  EXPECT_TRUE(says(refusal(swept({}, {0, 5, 10, 15})), "short an arc"));
  EXPECT_TRUE(says(refusal(swept({}, {0, 1e-4, 2e-4})), "short an arc"));
}

TEST(SweepBadInput, MoreReadingsThanAnyoneTakes) {
  std::vector<SweepReading> readings(readings_max + 1);
  EXPECT_TRUE(says(refusal(readings), "1000001 readings"));
}

TEST(SweepBadInput, StylusAnglesBeyondSixtyDegrees) {
  for (const double bad : {-1.0, 61.0, std::nan("")}) {
    SweepSetup setup;
    setup.lever.stylus = degrees(bad);
    EXPECT_TRUE(says(refusal(swept({}, even_places(4)), setup), "stylus angle")) << bad;
  }
}

TEST(SweepBadInput, GapsAndSagThatAreNone) {
  SweepSetup empty_gap;
  empty_gap.gaps = {{degrees(20), degrees(380)}};
  EXPECT_TRUE(says(refusal(swept({}, even_places(4)), empty_gap), "sweep gap"));
  SweepSetup sag{.mount = Mount::housing};
  sag.sag = BarSag{.at_bottom = metres(std::nan(""))};
  EXPECT_TRUE(says(refusal(swept({}, even_places(4)), sag), "bar sag"));
  sag.sag = BarSag{.at_bottom = metres(0), .u = metres(-1e-6)};
  EXPECT_TRUE(says(refusal(swept({}, even_places(4)), sag), "bar sag"));
}

TEST(SweepBadInput, InstrumentsThatAreNone) {
  const auto readings = swept({}, even_places(4));
  const Instrument no_graduation{.id = "a", .graduation = metres(0)};
  EXPECT_THROW(evaluate_sweep(readings, {}, &no_graduation), BadInput);
  Instrument negative{.id = "a", .graduation = metres(1e-5)};
  negative.mpe = metres(-1e-6);
  EXPECT_THROW(evaluate_sweep(readings, {}, &negative), BadInput);
}

}  // namespace
}  // namespace pumpwright
