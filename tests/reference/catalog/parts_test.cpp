// O-rings, fasteners and materials against the documents they were read in.
#include <algorithm>
#include <numbers>

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

TEST(ORings, Dash214) {
  const std::string file = "SAE AS568 -214, in the data of a public parts test file";
  expect_shipped({"oring-as568", "-214", "inside_diameter", "24.99", "mm", file});
  expect_shipped({"oring-as568", "-214", "cross_section", "3.53", "mm", file});
  expect_shipped(
      {"oring-as568", "-116", "inside_diameter", "0.737", "in", "SAE AS568", Obtained::remembered});
}

TEST(ORings, SeriesCrossSections) {
  const std::string pages = "SAE AS568 series table, two public restatements";
  for (const auto& [series, mm] :
       {std::pair{"0xx", "1.78"}, {"1xx", "2.62"}, {"2xx", "3.53"}, {"3xx", "5.33"}, {"4xx", "6.99"}})
    expect_shipped({"oring-as568-series", series, "cross_section", mm, "mm", pages});
}

TEST(ORings, EveryDashNumberHasTheCrossSectionOfItsSeries) {
  for (const auto& ring : shipped().table("oring-as568")->rows) {
    const double dash = std::stod(ring.id().substr(1));
    const auto& series = shipped().table("oring-as568-series")->rows;
    const auto own = std::ranges::find_if(series, [&](const Row& s) {
      return dash >= s.number("first_dash") && dash <= s.number("last_dash");
    });
    ASSERT_NE(own, series.end()) << ring.id();
    EXPECT_DOUBLE_EQ(ring.length("cross_section")->value(), own->length("cross_section")->value())
        << ring.id();
  }
}

// Smallest and largest squeeze follow from ring tolerance and gland depth; the guide prints both.
TEST(ORings, TheGlandGuidesSqueezeFollowsFromItsDepths) {
  const Row* gland = shipped().find("oring-gland", "static-radial 0.139");
  const Row* series = shipped().find("oring-as568-series", "2xx");
  ASSERT_TRUE(gland != nullptr && series != nullptr);
  const double cs_m = series->length("cross_section")->value();
  const double tolerance_m = series->length("tolerance")->value();
  const double least_m = cs_m - tolerance_m;
  const double most_m = cs_m + tolerance_m;
  const std::string guide = "a public seal design guide, static radial gland, 0.139 in";
  expect_outside({"least squeeze of a 0.139 in ring", guide, Obtained::read, "14",
                  100 * (least_m - gland->length("depth_max")->value()) / least_m, "%", 2});
  expect_outside({"largest squeeze of a 0.139 in ring", guide, Obtained::read, "23",
                  100 * (most_m - gland->length("depth_min")->value()) / most_m, "%", 2});
  EXPECT_EQ(gland->number("squeeze_min_percent"), 14);
  EXPECT_EQ(gland->number("squeeze_max_percent"), 23);
}

double area_mm2(const Row& row) {
  return row.area("stress_area")->value() * 1e6;
}

// A = (π/4)(d - 0.9743/n)² for unified threads, (π/4)(d - 0.9382 P)² for metric ones.
TEST(Fasteners, PrintedStressAreasFollowFromDiameterAndPitch) {
  for (const auto& row : shipped().table("fastener-threads")->rows) {
    const bool metric = row.text("series") == "ISO coarse";
    const double d_m = row.length("diameter")->value();
    const double p_m = row.length("pitch")->value();
    const double root_m = d_m - (metric ? 0.9382 : 0.9743) * p_m;
    const double area_m2 = std::numbers::pi / 4 * root_m * root_m;
    const std::string text(row.text("stress_area"));
    const double in_unit = metric ? area_m2 * 1e6 : area_m2 / (0.0254 * 0.0254);
    expect_outside({"stress area of " + row.id() + " from its thread",
                    metric ? "ISO 898-1, public restatement" : "unified threads, a public bolt torque guide",
                    Obtained::read, text.substr(0, text.find(' ')), in_unit, metric ? "mm²" : "in²", 2});
  }
}

TEST(Fasteners, ProofLoadIsProofStressTimesArea) {
  const std::string page = "ISO 898-1 proof loads, public restatement";
  for (const auto& row : shipped().table("fastener-threads")->rows) {
    const auto load = row.force("proof_load_8_8");
    if (!load) continue;
    const auto* grade = shipped().find("fastener-grades", "ISO 8.8, to M16");
    const std::string text(row.text("proof_load_8_8"));
    expect_outside({"proof load of " + row.id() + " class 8.8, N", page, Obtained::read,
                    text.substr(0, text.find(' ')), grade->pressure("proof")->value() * area_mm2(row) * 1e-6,
                    "N", 2});
  }
}

TEST(Fasteners, StrengthsOfTheInchGrades) {
  const std::string page = "SAE J429, restated in a fastener supplier's public torque page";
  const auto ksi = [](const char* row, const char* column) {
    return shipped().find("fastener-grades", row)->pressure(column)->value() / 6894757.293168361;
  };
  expect_outside({"SAE grade 5 proof stress to 1 in", page, Obtained::read, "85",
                  ksi("SAE 5, 1/4 to 1", "proof"), "ksi", 2});
  expect_outside({"SAE grade 5 tensile strength to 1 in", page, Obtained::read, "120",
                  ksi("SAE 5, 1/4 to 1", "tensile"), "ksi", 3});
  expect_outside({"SAE grade 8 proof stress", "SAE J429", Obtained::remembered, "120",
                  ksi("SAE 8, 1/4 to 1 1/2", "proof"), "ksi", 3});
  EXPECT_EQ(shipped().table("fastener-grades")->rows_of_group("sae-2-small").size(), 2U)
      << "72 and 74 ksi are both kept";
}

// 100 mm of 316 beside 100 mm of gray iron, 60 K warmer.
TEST(Materials, StainlessOutgrowsIronByTheirExpansions) {
  const auto alpha = [](const char* row) {
    return shipped().find("materials", row)->expansion("expansion")->value();
  };
  expect_outside({"expansion of 316", "a public table of thermal expansion of steels, 0 to 100 °C",
                  Obtained::read, "15.9", alpha("stainless-316") * 1e6, "1e-6/K", 3});
  expect_outside({"expansion of gray iron", "a public table of thermal expansion of metals", Obtained::read,
                  "11.4", alpha("gray-iron-30") * 1e6, "1e-6/K", 3});
  expect_outside({"growth of 100 mm of 316 over gray iron at 60 K", "closed form", Obtained::closed_form,
                  "0.0270", (alpha("stainless-316") - alpha("gray-iron-30")) * 100 * 60, "mm", 3});
}

TEST(Materials, ModulusAndDensityAsPrinted) {
  const auto row = [](const char* id) { return shipped().find("materials", id); };
  expect_outside({"modulus of 316", "a public material property sheet, AISI 316", Obtained::read, "193",
                  row("stainless-316")->pressure("elastic_modulus")->value() * 1e-9, "GPa", 3});
  expect_outside({"density of A36", "a university's public material property appendix", Obtained::read,
                  "7850", row("steel-a36")->density("density")->value(), "kg/m³", 4});
  expect_outside({"density of 416", "a metal distributor's public data sheet (0.282 lb/in³)", Obtained::read,
                  "0.282",
                  row("stainless-416")->density("density")->value() * 0.0254 * 0.0254 * 0.0254 / 0.45359237,
                  "lb/in³", 3});
  EXPECT_NEAR(kelvin_of(*shipped().find("elastomers", "FKM")->temperature("hot_water")), 353.15, 1e-9);
}

}  // namespace
}  // namespace pumpwright
