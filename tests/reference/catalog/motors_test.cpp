// Motor frames and motor runout limits against the documents they were taken from, and against rules that tie
// them together.
#include <cmath>
#include <string>

#include <gtest/gtest.h>

#include "catalog/catalog.h"
#include "catalog/embedded.h"
#include "tests/reference/catalog/shipped_value.h"

namespace pumpwright {
namespace {

using testing::expect_shipped;
using testing::Obtained;

const Catalog& shipped() {
  static const Catalog catalog = Catalog::load(embedded_catalog());
  return catalog;
}

const std::string jm_chart = "NEMA MG 1, JM and JP dimensions, restated in a motor maker's public chart";
const std::string face_chart = "NEMA MG 1, type C face, restated in a motor maker's public chart";
const std::string decimals = "NEMA MG 1, frame dimensions, restated in a public table of decimals";
const std::string mg1 = "NEMA MG 1 condensed, 2011, 8.4 (MG 1-4.9.7)";

TEST(MotorFrames, SameNumberDifferentRegister) {
  expect_shipped({"frames-nema", "184TC", "register_diameter", "8.5", "in", face_chart});
  expect_shipped({"frames-nema", "184TC", "bolt_circle", "7.25", "in", face_chart});
  expect_shipped({"frames-nema", "184JM", "register_diameter", "4.5", "in", jm_chart});
  expect_shipped({"frames-nema", "184JM", "bolt_circle", "5.875", "in", jm_chart});
  expect_shipped({"frames-nema", "284TC", "register_diameter", "10.5", "in", face_chart});
  expect_shipped({"frames-nema", "284JM", "register_diameter", "12.5", "in", jm_chart});
}

TEST(MotorFrames, JmAndJpShaftsOfTheChart) {
  expect_shipped({"frames-nema", "143JM", "shaft_diameter", "0.875", "in", jm_chart});
  expect_shipped({"frames-nema", "215JM", "shaft_diameter", "0.875", "in", jm_chart});
  expect_shipped({"frames-nema", "215JP", "shaft_diameter", "1.25", "in", jm_chart});
  expect_shipped({"frames-nema", "254JM", "shaft_diameter", "1.25", "in", jm_chart});
  expect_shipped({"frames-nema", "256JP", "shoulder_length", "5.875", "in", jm_chart});
  expect_shipped({"frames-nema", "145JM", "impeller_end_diameter", "1", "in", jm_chart});
}

TEST(MotorFrames, LimitsOfJmShaftsAreOnlyRemembered) {
  const std::string memory = "NEMA MG 1, 18.250";
  expect_shipped(
      {"frames-nema", "184JM", "shaft_diameter_max", "0.8745", "in", memory, Obtained::remembered});
  expect_shipped(
      {"frames-nema", "184JM", "shaft_diameter_min", "0.8740", "in", memory, Obtained::remembered});
  expect_shipped(
      {"frames-nema", "256JM", "shaft_diameter_max", "1.2495", "in", memory, Obtained::remembered});
}

TEST(MotorFrames, ShaftHeightIsAQuarterOfTheFirstTwoDigits) {
  for (const auto& row : shipped().table("frames-nema")->rows) {
    const double rule_in = std::stoi(row.id().substr(0, 2)) / 4.0;
    testing::expect_outside({"frames-nema: " + row.id() + ", centre height",
                             "NEMA frame number rule, public page", Obtained::read,
                             std::to_string(rule_in).substr(0, 4),
                             testing::length_in(row.length("centre_height")->value(), "in"), "in", 3});
  }
}

TEST(MotorFrames, FeetOfTheTableOfDecimals) {
  expect_shipped({"frames-nema", "182TC", "feet_half_width", "3.75", "in", decimals});
  expect_shipped({"frames-nema", "184TC", "feet_length", "5.5", "in", decimals});
  expect_shipped({"frames-nema", "256TC", "feet_length", "10", "in", decimals});
}

// R = D - Y - H/2 with Y = (D - sqrt(D² - W²))/2 and a square key: the depth formula of ASME B17.1 must give
// the motor table's R.
TEST(MotorFrames, KeyseatsFollowTheKeyStandardsFormula) {
  for (const auto& row : shipped().table("frames-nema")->rows) {
    if (row.text("face") != "C") continue;
    const Row* key = shipped().table("keys-inch")->row_for(*row.length("shaft_diameter"));
    ASSERT_NE(key, nullptr) << row.id();
    const double d_in = testing::length_in(row.length("shaft_diameter")->value(), "in");
    const double w_in = testing::length_in(key->length("width")->value(), "in");
    const double y_in = (d_in - std::sqrt(d_in * d_in - w_in * w_in)) / 2;
    testing::expect_outside({"frames-nema: " + row.id() + ", R from the depth formula of the key standard",
                             decimals, Obtained::read, std::string(row.text("keyseat_bottom")),
                             d_in - y_in - w_in / 2, "in", 3});
    EXPECT_NEAR(row.length("keyseat_width")->value(), key->length("width")->value(), 0.0006 * 0.0254)
        << row.id();
  }
}

TEST(MotorFrames, MetricShaftsOfTheGuide) {
  const std::string guide = "IEC 60072-1, restated in a public frame guide";
  expect_shipped({"frames-iec", "71", "shaft_diameter", "14", "mm", guide});
  expect_shipped({"frames-iec", "80", "shaft_diameter", "19", "mm", guide});
  expect_shipped({"frames-iec", "90L", "shaft_diameter", "24", "mm", guide});
  expect_shipped({"frames-iec", "100L", "shaft_diameter", "28", "mm", guide});
  expect_shipped({"frames-iec", "112M", "shaft_diameter", "28", "mm", guide});
}

TEST(MotorRunout, InchLimitsChangeAtOneAndFiveEighths) {
  const Table& table = *shipped().table("runout-nema");
  const auto limit_at = [&](double d_in) {
    return testing::length_in(table.row_for(metres(d_in * 0.0254))->length("limit")->value(), "in");
  };
  testing::expect_outside(
      {"shaft runout limit at 1.625 in", mg1, Obtained::read, "0.002", limit_at(1.625), "in", 1});
  testing::expect_outside(
      {"shaft runout limit at 1.875 in", mg1, Obtained::read, "0.003", limit_at(1.875), "in", 1});
  EXPECT_EQ(table.row_for(metres(6.6 * 0.0254)), nullptr) << "the standard ends at 6.5 in";
}

TEST(MotorRunout, MetricShaftClasses) {
  const std::string normal =
      "IEC 60072-1, restated in EASA AR100-2015 Table 2-4 and a sheet restating DIN 42955";
  const std::string reduced = "DIN 42955 class R, restated in a public sheet";
  const Table& table = *shipped().table("runout-iec");
  struct Case {
    double d_mm;
    const char* normal;
    const char* reduced;
  };
  for (const Case& c : {Case{10, "0.030", "0.015"},
                        {14, "0.035", "0.018"},
                        {24, "0.040", "0.021"},
                        {30, "0.040", "0.021"},
                        {38, "0.050", "0.025"},
                        {42, "0.050", "0.025"},
                        {60, "0.060", "0.030"},
                        {200, "0.090", "0.045"}}) {
    const Row* row = table.row_for(metres(c.d_mm * 1e-3));
    ASSERT_NE(row, nullptr) << c.d_mm;
    const std::string what = "shaft runout at " + std::to_string(static_cast<int>(c.d_mm)) + " mm, ";
    testing::expect_outside({what + "class N", normal, Obtained::read, c.normal,
                             testing::length_in(row->length("normal")->value(), "mm"), "mm", 2});
    testing::expect_outside({what + "class R", reduced, Obtained::read, c.reduced,
                             testing::length_in(row->length("reduced")->value(), "mm"), "mm", 2});
  }
}

TEST(MotorRunout, MetricSpigotsAndTheirTolerance) {
  const std::string runout = "IEC 60072-1 C.7, restated in EASA AR100-2020 Table 2-11";
  const std::string tolerance = "IEC 60072-1 C.1.7, restated in EASA AR100-2020 Table 2-10";
  const Row* row = shipped().table("flange-runout-iec")->row_for(metres(0.180));
  testing::expect_outside({"spigot and face runout at 180 mm, class N", runout, Obtained::read, "0.100",
                           testing::length_in(row->length("normal")->value(), "mm"), "mm", 3});
  row = shipped().table("spigot-tolerance-iec")->row_for(metres(0.180));
  testing::expect_outside({"spigot 180 mm, upper deviation", tolerance, Obtained::read, "0.014",
                           testing::length_in(row->length("upper")->value(), "mm"), "mm", 2});
  testing::expect_outside({"spigot 180 mm, lower deviation", tolerance, Obtained::read, "-0.011",
                           testing::length_in(row->length("lower")->value(), "mm"), "mm", 2});
}

}  // namespace
}  // namespace pumpwright
