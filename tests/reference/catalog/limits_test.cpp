// Limits around the seal and running clearances against the documents they were read in.
#include <gtest/gtest.h>

#include "catalog/catalog.h"
#include "catalog/embedded.h"
#include "tests/reference/catalog/shipped_value.h"

namespace pumpwright {
namespace {

using testing::expect_outside;
using testing::expect_shipped;
using testing::length_in;
using testing::Obtained;

const Catalog& shipped() {
  static const Catalog catalog = Catalog::load(embedded_catalog());
  return catalog;
}

const std::string api610 =
    "API 610 11th ed., minimum running clearances, restated in a pump maker's public manual, p. 80";
const std::string tm = "US Army TM 10-4320-307-24, p. 4-4";
const std::string iso9908 = "ISO 9908:1993, 4.10.5, public excerpt";

double clearance_mm(const char* table, double diameter_mm) {
  const Row* row = shipped().table(table)->row_for(metres(diameter_mm * 1e-3));
  return row == nullptr ? -1 : length_in(row->length("clearance")->value(), "mm");
}

double clearance_in(double diameter_in) {
  const Row* row = shipped().table("clearances-inch")->row_for(metres(diameter_in * 0.0254));
  return row == nullptr ? -1 : length_in(row->length("clearance")->value(), "in");
}

TEST(Clearances, MillimetreBandsAreNotConvertedInchBands) {
  expect_outside({"least clearance at 89.5 mm, millimetre column", api610, Obtained::read, "0.33",
                  clearance_mm("clearances-metric", 89.5), "mm", 2});
  expect_outside({"least clearance at 89.5 mm (3.524 in), inch column", api610, Obtained::read, "0.014",
                  clearance_in(89.5 / 25.4), "in", 2});
}

TEST(Clearances, ABandBeginsAtItsLowerEnd) {
  struct Case {
    double d_in;
    const char* in;
  };
  for (const Case& c : {Case{1.5, "0.010"},
                        {2.0, "0.011"},
                        {2.4999, "0.011"},
                        {2.5, "0.012"},
                        {5.0, "0.017"},
                        {9.999, "0.021"},
                        {10.0, "0.022"},
                        {15.5, "0.027"},
                        {25.5, "0.037"}})
    expect_outside({"least clearance at " + std::to_string(c.d_in) + " in", api610, Obtained::read, c.in,
                    clearance_in(c.d_in), "in", 2});
  struct Metric {
    double d_mm;
    const char* mm;
  };
  for (const Metric& c : {Metric{49.9, "0.25"},
                          {50, "0.28"},
                          {64.99, "0.28"},
                          {65, "0.30"},
                          {120, "0.41"},
                          {160, "0.46"},
                          {250, "0.56"},
                          {399.99, "0.69"},
                          {630, "0.94"}})
    expect_outside({"least clearance at " + std::to_string(c.d_mm) + " mm", api610, Obtained::read, c.mm,
                    clearance_mm("clearances-metric", c.d_mm), "mm", 2});
}

TEST(Clearances, EndWithTheTable) {
  EXPECT_EQ(clearance_in(26.0), -1);
  EXPECT_EQ(clearance_mm("clearances-metric", 650), -1);
}

// A second pump maker prints least gaps by ring bore; its figures may differ by the rounding it used.
TEST(Clearances, AgreeWithASecondMakersListWithinThreeHundredths) {
  struct Case {
    double bore_mm, gap_mm;
  };
  for (const Case& c : {Case{70, 0.30},
                        {80, 0.33},
                        {85, 0.33},
                        {95, 0.35},
                        {120, 0.40},
                        {135, 0.43},
                        {165, 0.45},
                        {175, 0.45},
                        {195, 0.48},
                        {200, 0.48},
                        {235, 0.53},
                        {280, 0.58},
                        {330, 0.63}})
    EXPECT_NEAR(clearance_mm("clearances-metric", c.bore_mm), c.gap_mm, 0.0301) << c.bore_mm;
}

TEST(SealLimits, AsThePumpAndSealMakersPrintThem) {
  const std::string manual =
      "a close-coupled pump maker's public owner's manual, shaft inspection with the sleeve fitted";
  const std::string seal = "a seal maker's public installation instruction, seal chamber requirements";
  const std::string b73 = "ASME B73.1M, quoted in a pump maker's public instructions";
  expect_shipped({"seal-limits", "shaft-runout, sleeve fitted", "limit", "0.002", "in", manual});
  expect_shipped({"seal-limits", "shaft-runout, seal maker", "limit", "0.002", "in", seal});
  expect_shipped({"seal-limits", "end-float", "limit", "0.010", "in", seal});
  expect_shipped({"seal-limits", "seat-squareness", "limit", "0.003", "in", b73});
  expect_shipped({"seal-limits", "chamber-concentricity", "limit", "0.005", "in", b73});
  expect_shipped({"seal-limits", "shaft-finish", "limit", "0.8", "µm",
                  "a seal maker's two public installation instructions"});
  expect_shipped({"seal-limits", "impeller-sweep", "limit", "7", "thou",
                  "common practice, no published source", Obtained::common_practice});
}

TEST(SealLimits, SquarenessThatGrowsWithTheBore) {
  const Row* row = shipped().find("seal-limits", "seat-squareness, seal maker");
  ASSERT_NE(row, nullptr);
  EXPECT_FALSE(row->length("limit"));
  expect_outside({"seat squareness, in per in of bore", "a seal maker's public installation instruction",
                  Obtained::read, "0.0005", row->number("per_diameter").value_or(0), "", 1});
}

TEST(SealLimits, DisagreeingEndFloatsAreAllKept) {
  const auto rows = shipped().table("seal-limits")->rows_of_group("end-float");
  ASSERT_EQ(rows.size(), 5U);
  EXPECT_EQ(rows.front()->id(), "end-float");
  expect_shipped({"seal-limits", "end-float, army manual", "limit", "0.004", "in", tm});
  expect_shipped({"seal-limits", "end-float, textbook", "limit", "0.003", "in",
                  "Know and Understand Centrifugal Pumps, p. 223"});
  expect_shipped({"seal-limits", "end-float, type P", "limit", "0.015", "in",
                  "a motor maker's public page on vertical motors"});
}

TEST(SealLimits, OfTheRepairManualBySize) {
  for (const auto& [row, runout, squareness, concentricity] : {std::tuple{"25 mm", "0.03", "0.05", "0.05"},
                                                               {"50 mm", "0.05", "0.05", "0.08"},
                                                               {"75 mm", "0.08", "0.08", "0.10"},
                                                               {"100 mm", "0.10", "0.10", "0.13"}}) {
    expect_shipped({"seal-limits-by-size", row, "shaft_runout", runout, "mm", tm});
    expect_shipped({"seal-limits-by-size", row, "squareness", squareness, "mm", tm});
    expect_shipped({"seal-limits-by-size", row, "concentricity", concentricity, "mm", tm});
  }
}

// The manual prints both units; they may differ by the rounding of the inch column only.
TEST(SealLimits, BothUnitColumnsOfTheRepairManualMeanTheSame) {
  for (const auto& row : shipped().table("seal-limits-by-size")->rows)
    for (const char* column : {"shaft_runout", "squareness", "concentricity"})
      EXPECT_NEAR(row.length(column)->value(), row.length(std::string(column) + "_inch")->value(),
                  0.5e-3 * 0.0254)
          << row.id() << ", " << column;
}

TEST(SealLimits, ShaftRunoutByDiameterForClassThreePumps) {
  const Table& table = *shipped().table("shaft-runout-iso9908");
  for (const auto& [d_mm, limit] : {std::pair{35.0, "50"}, {70.0, "80"}, {100.0, "80"}, {120.0, "100"}})
    expect_outside({"shaft runout at " + std::to_string(static_cast<int>(d_mm)) + " mm", iso9908,
                    Obtained::read, limit,
                    length_in(table.row_for(metres(d_mm * 1e-3))->length("limit")->value(), "µm"), "µm", 1});
  expect_shipped(
      {"seal-limits", "shaft-deflection", "limit", "50", "µm", "ISO 9908:1993, 4.10.3, public excerpt"});
}

}  // namespace
}  // namespace pumpwright
