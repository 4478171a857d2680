#include <array>
#include <cmath>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/assembly/shaft_alignment_feet.h"
#include "tests/support/given_alignment.h"
#include "tests/support/live_python.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

using alignment::BaseOn;
using alignment::Dial;
using alignment::DialOn;
using alignment::DialResult;
using alignment::ShaftLine;

constexpr double mil_m = 25.4e-6;
constexpr double inch_m = 0.0254;

// A dial zeroed at the top that reads `bottom` at the bottom; sideways nothing.
Dial zeroed_at_top(DialOn on, BaseOn base, double at_in, double radius_in, double bottom_mil) {
  Dial d;
  d.on = on;
  d.base = base;
  d.at = metres(at_in * inch_m);
  d.radius = metres(radius_in * inch_m);
  d.readings = {{degrees(0), metres(0)},
                {degrees(90), metres(bottom_mil / 2 * mil_m)},
                {degrees(180), metres(bottom_mil * mil_m)},
                {degrees(270), metres(bottom_mil / 2 * mil_m)}};
  return d;
}

ShaftLine line_of(const std::array<Dial, 2>& dials, double coupling_in) {
  const std::array<DialResult, 2> results{evaluate_dial(dials[0], nullptr), evaluate_dial(dials[1], nullptr)};
  return shaft_line(dials, results, metres(coupling_in * inch_m));
}

TEST(ShaftAlignmentReference, TwoRimsOfASolvedExample) {
  const std::string source =
      "\"Alignment tolerances\", scribd.com presentation 384305193: total readings +5 and -11 mil, 8 in "
      "apart";
  const auto line = line_of({zeroed_at_top(DialOn::rim, BaseOn::moved_shaft, 0, 0, 5),
                             zeroed_at_top(DialOn::rim, BaseOn::moved_shaft, 8, 0, -11)},
                            4);
  expect_outside({"offset half way", source, Obtained::read, "-1.5", line.up_m / mil_m, "mil", 2});
  expect_outside({"slope", source, Obtained::read, "1.0", -line.up_slope * 1000, "mil/in", 2});
}

// F = bf·B/D - br/2 and R = bf·A/D - br/2, plane to feet B and A, face swing D: 8·10/4 + 3 and 8·22/4 + 3.
TEST(ShaftAlignmentReference, TheFormulaOfRimAndFace) {
  const std::string source =
      "\"Formula for Face and Rim Alignment Calculation\", fdocuments.us (formula read), bf = 8, br = -6 "
      "mil, D = 4, B = "
      "10, A = 22 in";
  const auto line = line_of({zeroed_at_top(DialOn::rim, BaseOn::moved_shaft, 0, 0, -6),
                             zeroed_at_top(DialOn::face, BaseOn::moved_shaft, 0, 2, 8)},
                            0);
  const alignment::Feet feet{metres(10 * inch_m), metres(22 * inch_m)};
  const auto moves = moves_for(line, metres(0), feet);
  expect_outside({"front feet, to raise", source, Obtained::closed_form, "23.0000000",
                  moves.front.raise.value() / mil_m, "mil", 9});
  expect_outside({"rear feet, to raise", source, Obtained::closed_form, "47.0000000",
                  moves.back.raise.value() / mil_m, "mil", 9});
}

// Base on the moved shaft reads twice the offset, base on the fixed one minus twice: offsets +12 and +10 mil.
TEST(ShaftAlignmentReference, TwoRimsWithBasesOnBothShafts) {
  const std::string source =
      "similar triangles: offsets 12 and 10 mil 6 in apart, feet 14 and 32 in from the first";
  const auto line = line_of({zeroed_at_top(DialOn::rim, BaseOn::moved_shaft, 0, 0, 24),
                             zeroed_at_top(DialOn::rim, BaseOn::fixed_shaft, 6, 0, -20)},
                            0);
  const auto moves = moves_for(line, metres(0), {metres(14 * inch_m), metres(32 * inch_m)});
  expect_outside({"front feet, high by", source, Obtained::closed_form, "7.3333333333",
                  -moves.front.raise.value() / mil_m, "mil", 10});
  expect_outside({"rear feet, high by", source, Obtained::closed_form, "1.3333333333",
                  -moves.back.raise.value() / mil_m, "mil", 10});
}

TEST(ShaftAlignmentReference, ThermalGrowth) {
  const auto growth_in = [](double per_f, double height_in, double rise_f) {
    return alignment::thermal_growth(per_kelvin(per_f * 1.8), metres(height_in * inch_m),
                                     kelvin_step(rise_f / 1.8))
               .value() /
           inch_m;
  };
  expect_outside({"growth of 26 in of cast iron by 250 °F",
                  "\"Understanding thermal growth\", thermoinspect.ca", Obtained::read, "0.038",
                  growth_in(5.9e-6, 26, 250), "in", 2});
  const std::string table = "a public article on thermal growth: 12 in heated by 100 °F";
  expect_outside(
      {"growth of cast iron", table, Obtained::read, "0.007", growth_in(5.9e-6, 12, 100), "in", 1});
  expect_outside(
      {"growth of mild steel", table, Obtained::read, "0.008", growth_in(6.3e-6, 12, 100), "in", 1});
  expect_outside(
      {"growth of stainless steel", table, Obtained::read, "0.009", growth_in(7.4e-6, 12, 100), "in", 1});
}

std::string arguments_of(const Dial& dial, double u_m) {
  const double sign = dial.on == DialOn::face || dial.base == BaseOn::fixed_shaft ? 1 : -1;
  std::string text = fmt::format(" {} {} {} {}", dial.at.value(), sign,
                                 dial.on == DialOn::face ? dial.radius.value() : 0.0, u_m);
  for (const auto& reading : dial.readings)
    text += fmt::format(" {} {}", reading.angle.value(), reading.reading.value());
  return text;
}

// Eight even places: the single wave is the same whether higher ones are fitted beside it or not.
void compare_live(std::array<Dial, 2> dials, const std::string& what) {
  Instrument instrument;
  instrument.graduation = metres(12.7e-6);
  instrument.repeatability = metres(5e-6);
  std::array<DialResult, 2> results;
  std::string arguments = "shaft_line 0.02 8";
  for (std::size_t d = 0; d < 2; ++d) {
    std::vector<double> places;
    for (int i = 0; i < 8; ++i)
      places.push_back(i * pi / 4);
    dials[d].readings = given_readings(dials[d], {90e-6, -40e-6, 0.3e-3, -0.5e-3}, places);
    for (std::size_t i = 0; i < 8; ++i)  // reading errors, made up
      dials[d].readings[i].reading += metres(4e-6 * std::sin(7.3 * static_cast<double>(i + 3 * d)));
    results[d] = evaluate_dial(dials[d], &instrument);
    arguments += arguments_of(dials[d], results[d].sweep.reading_u->value());
  }
  const auto line = shaft_line(dials, results, metres(0.02));
  ASSERT_TRUE(line.covariance);
  const auto words = live_words(arguments);
  ASSERT_EQ(words.size(), 8U);
  const std::array<double, 4> ours{line.up_m, line.right_m, line.up_slope, line.right_slope};
  const std::array<const char*, 4> names{"up", "right", "slope up", "slope right"};
  for (std::size_t i = 0; i < 4; ++i) {
    expect_outside({fmt::format("{}, {}", what, names[i]), live_versions() + ", lstsq over all readings",
                    Obtained::live, words[i], ours[i], "", 9});
    expect_outside({fmt::format("{}, variance of {}", what, names[i]), live_versions() + ", inverse of XᵀX",
                    Obtained::live, words[4 + i], (*line.covariance)[i * 5], "", 9});
  }
}

TEST(ShaftAlignmentReference, OneFitToAllReadingsOfTwoRims) {
  Dial near;
  near.base = BaseOn::moved_shaft;
  near.at = metres(-0.05);
  Dial far;
  far.at = metres(0.09);
  compare_live({near, far}, "two rims");
}

TEST(ShaftAlignmentReference, OneFitToAllReadingsOfRimAndFace) {
  Dial rim;
  rim.at = metres(0.04);
  Dial face;
  face.on = DialOn::face;
  face.radius = metres(0.07);
  compare_live({rim, face}, "rim and face");
}

}  // namespace
}  // namespace pumpwright::testing
