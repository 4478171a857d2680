#include "job/section.h"

#include <algorithm>
#include <cmath>
#include <random>

#include <gtest/gtest.h>

namespace pumpwright::job {
namespace {

void give(MakeUp& make_up, std::string_view name, double millimetres) {
  Dimension dimension;
  dimension.nominal = metres(millimetres / 1000);
  make_up.dimensions[std::string(name)] = dimension;
}

// Every dimension of an invented pump.
MakeUp whole_make_up() {
  MakeUp m;
  m.sleeve = true;
  m.seal.kind = "elastomer-bellows";
  const std::pair<const char*, double> given[] = {{"shaft_diameter", 28.575},
                                                  {"shaft_length", 133.35},
                                                  {"shaft_shoulder", 22},
                                                  {"register_diameter", 114.3},
                                                  {"register_height", 4},
                                                  {"face_diameter", 165},
                                                  {"sleeve_bore", 28.6},
                                                  {"sleeve_outside_diameter", 34.925},
                                                  {"sleeve_length", 70},
                                                  {"seal_size", 34.925},
                                                  {"seal_head_outside_diameter", 50.8},
                                                  {"seal_working_length", 33.3},
                                                  {"seat_outside_diameter", 50.8},
                                                  {"seat_thickness", 11},
                                                  {"seat_depth", 47.5},
                                                  {"seat_bore", 50.8},
                                                  {"seal_chamber_bore", 62},
                                                  {"bracket_depth", 86},
                                                  {"bracket_outside_diameter", 245},
                                                  {"impeller_diameter", 178},
                                                  {"impeller_width", 38},
                                                  {"impeller_eye_diameter", 82},
                                                  {"impeller_outlet_width", 14},
                                                  {"hub_diameter", 48},
                                                  {"hub_length", 38},
                                                  {"key_width", 6.35},
                                                  {"key_length", 32},
                                                  {"keyway_length", 36},
                                                  {"gasket_thickness", 0.8},
                                                  {"wear_ring_bore", 82.5},
                                                  {"wear_ring_length", 14},
                                                  {"casing_depth", 47},
                                                  {"suction_bore", 64}};
  for (const auto& [name, mm] : given)
    give(m, name, mm);
  return m;
}

double signed_area_twice(SectionPoint a, SectionPoint b, SectionPoint c) {
  return (b.x_m - a.x_m) * (c.r_m - a.r_m) - (b.r_m - a.r_m) * (c.x_m - a.x_m);
}

// Whether two edges cross in their insides; touching does not count.
bool cross(SectionPoint a, SectionPoint b, SectionPoint c, SectionPoint d) {
  const double tiny = 1e-15;
  return signed_area_twice(a, b, c) * signed_area_twice(a, b, d) < -tiny * tiny &&
         signed_area_twice(c, d, a) * signed_area_twice(c, d, b) < -tiny * tiny;
}

bool crosses_itself(const std::vector<SectionPoint>& outline) {
  const std::size_t n = outline.size();
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = i + 1; j < n; ++j)
      if (cross(outline[i], outline[(i + 1) % n], outline[j], outline[(j + 1) % n])) return true;
  return false;
}

void expect_drawable(const Section& section) {
  for (const SectionShape& shape : section.shapes) {
    ASSERT_GE(shape.outline.size(), 3U);
    for (const SectionPoint& p : shape.outline) {
      ASSERT_TRUE(std::isfinite(p.x_m) && std::isfinite(p.r_m));
      ASSERT_GE(p.r_m, 0);
      ASSERT_GE(p.x_m, section.whole.x_min_m);
      ASSERT_LE(p.x_m, section.whole.x_max_m);
      ASSERT_LE(p.r_m, section.whole.r_max_m);
    }
    ASSERT_FALSE(crosses_itself(shape.outline)) << "part " << static_cast<int>(shape.part);
  }
  for (const auto name : place_names()) {
    const SectionPlace* place = section.find(name);
    ASSERT_NE(place, nullptr) << name;
    ASSERT_TRUE(section.whole.holds(place->at)) << name;
  }
}

SectionWindow extent(const Section& section, PartKind part) {
  SectionWindow w{1e9, -1e9, 1e9, -1e9};
  for (const SectionShape& shape : section.shapes) {
    if (shape.part != part) continue;
    for (const SectionPoint& p : shape.outline) {
      w.x_min_m = std::min(w.x_min_m, p.x_m);
      w.x_max_m = std::max(w.x_max_m, p.x_m);
      w.r_min_m = std::min(w.r_min_m, p.r_m);
      w.r_max_m = std::max(w.r_max_m, p.r_m);
    }
  }
  return w;
}

TEST(Section, IsDrawnToTheDimensionsThatWereGiven) {
  const Section section = section_of(whole_make_up());
  EXPECT_TRUE(section.assumed.empty());
  EXPECT_TRUE(section.set_aside.empty());
  for (const SectionShape& shape : section.shapes)
    EXPECT_FALSE(shape.assumed) << static_cast<int>(shape.part);
  const auto sleeve = extent(section, PartKind::sleeve);
  EXPECT_NEAR(sleeve.x_max_m - sleeve.x_min_m, 0.070, 1e-12);
  EXPECT_NEAR(sleeve.x_min_m, 0.022, 1e-12);
  EXPECT_NEAR(2 * sleeve.r_max_m, 0.034925, 1e-12);
  EXPECT_NEAR(extent(section, PartKind::shaft).x_max_m, 0.13335, 1e-12);
  EXPECT_NEAR(2 * extent(section, PartKind::impeller).r_max_m, 0.178, 1e-12);
  EXPECT_NEAR(2 * extent(section, PartKind::wear_ring).r_min_m, 0.0825, 1e-12);
  const auto gasket = extent(section, PartKind::gasket);
  EXPECT_NEAR(gasket.x_max_m - gasket.x_min_m, 0.0008, 1e-12);
  EXPECT_NEAR(gasket.x_min_m, 0.086, 1e-12);
  expect_drawable(section);
}

TEST(Section, ListsWhatWasNotGivenAndMarksWhatItShapes) {
  MakeUp m = whole_make_up();
  m.dimensions.erase("wear_ring_length");
  const Section section = section_of(m);
  EXPECT_EQ(section.assumed, std::vector<std::string>{"wear_ring_length"});
  for (const SectionShape& shape : section.shapes)
    EXPECT_EQ(shape.assumed, shape.part == PartKind::wear_ring) << static_cast<int>(shape.part);
}

TEST(Section, SetsAsideWhatCanNotBeDrawnWithTheRest) {
  MakeUp m = whole_make_up();
  give(m, "sleeve_length", 400);
  const Section section = section_of(m);
  EXPECT_NE(std::find(section.set_aside.begin(), section.set_aside.end(), "sleeve_length"),
            section.set_aside.end());
  expect_drawable(section);
}

TEST(Section, OfAnEmptyMakeUpIsAPumpInUsualProportions) {
  for (const bool sleeve : {false, true}) {
    MakeUp m;
    m.sleeve = sleeve;
    const Section section = section_of(m);
    EXPECT_TRUE(section.set_aside.empty());
    EXPECT_GE(section.assumed.size(), 29U);
    expect_drawable(section);
  }
}

TEST(Section, HasASleeveOnlyWhenThePumpHasOne) {
  MakeUp m = whole_make_up();
  m.sleeve = false;
  const Section section = section_of(m);
  EXPECT_TRUE(std::none_of(section.shapes.begin(), section.shapes.end(),
                           [](const SectionShape& s) { return s.part == PartKind::sleeve; }));
  expect_drawable(section);
}

TEST(Section, KeepsPartsInTheirOrderAlongTheShaft) {
  const Section section = section_of(whole_make_up());
  const auto seat = extent(section, PartKind::seat);
  const auto ring = extent(section, PartKind::seal_ring);
  const auto impeller = extent(section, PartKind::impeller);
  EXPECT_LE(seat.x_max_m, ring.x_min_m + 1e-12);
  EXPECT_LT(ring.x_max_m, impeller.x_min_m);
  EXPECT_LE(extent(section, PartKind::bracket).x_max_m, extent(section, PartKind::casing).x_max_m);
}

TEST(Section, NeverCrossesItselfWhateverWasEntered) {
  std::mt19937_64 random(7);
  std::uniform_real_distribution<double> share(0, 1);
  const MakeUp usual = whole_make_up();
  for (int round = 0; round < 500; ++round) {
    MakeUp m;
    m.sleeve = round % 2 == 0;
    m.seal.kind = round % 3 == 0 ? "conical-spring" : round % 3 == 1 ? "o-ring-pusher" : "elastomer-bellows";
    // From a few per cent off to a factor of eight, and from none to all of the dimensions.
    const double spread = 0.02 + 2 * share(random);
    const double how_many = share(random);
    const double size = std::exp(3 * share(random) - 1.5);
    for (const auto& [name, dimension] : usual.dimensions)
      if (share(random) < how_many)
        give(m, name, size * 1000 * dimension.nominal.value() * std::exp(spread * (2 * share(random) - 1)));
    SCOPED_TRACE("round " + std::to_string(round));
    expect_drawable(section_of(m));
    if (::testing::Test::HasFatalFailure()) return;
  }
}

TEST(Section, SurvivesDimensionsOfAnySize) {
  for (const double mm : {1e-9, 1e9})
    for (const auto& [name, dimension] : whole_make_up().dimensions) {
      MakeUp m = whole_make_up();
      give(m, name, mm);
      SCOPED_TRACE(name);
      expect_drawable(section_of(m));
      if (::testing::Test::HasFatalFailure()) return;
    }
}

TEST(Section, SaysWhatTurns) {
  EXPECT_EQ(turning_of(PartKind::impeller), Turning::rotating);
  EXPECT_EQ(turning_of(PartKind::seal_ring), Turning::rotating);
  EXPECT_EQ(turning_of(PartKind::seat), Turning::standing);
  EXPECT_EQ(turning_of(PartKind::wear_ring), Turning::standing);
}

}  // namespace
}  // namespace pumpwright::job
