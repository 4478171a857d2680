// Keys and keyseats against the standards' tables and the geometry behind them.
#include <cmath>

#include <gtest/gtest.h>

#include "catalog/catalog.h"
#include "catalog/embedded.h"
#include "tests/reference/catalog/shipped_value.h"

namespace pumpwright {
namespace {

using testing::expect_outside;
using testing::length_in;
using testing::Obtained;

const Catalog& shipped() {
  static const Catalog catalog = Catalog::load(embedded_catalog());
  return catalog;
}

const std::string b17_size = "ASME/ANSI B17.1-1967 (R1998), key size table, two public restatements";
const std::string b17_depth = "ASME/ANSI B17.1-1967 (R1989), depth control values, handbook pocket companion";
const std::string din6885 = "DIN 6885-1 / ISO 773, public restatement";

TEST(InchKeys, TheUpperEndOfARangeBelongsToIt) {
  struct Case {
    double shaft_in;
    const char* key;
  };
  for (const Case& c : {Case{0.5, "0.125"},
                        {0.875, "0.1875"},
                        {0.9375, "0.25"},
                        {1.25, "0.25"},
                        {1.375, "0.3125"},
                        {1.75, "0.375"},
                        {1.875, "0.5"},
                        {2.25, "0.5"},
                        {2.5, "0.625"},
                        {3.25, "0.75"}}) {
    const Row* row = shipped().table("keys-inch")->row_for(metres(c.shaft_in * 0.0254));
    ASSERT_NE(row, nullptr) << c.shaft_in;
    expect_outside({"key width for a shaft of " + std::to_string(c.shaft_in) + " in", b17_size,
                    Obtained::read, c.key, length_in(row->length("width")->value(), "in"), "in",
                    testing::digits_of(c.key)});
  }
}

// S = D - Y - H/2, T = D - Y + H/2 + 0.005 in, Y = (D - sqrt(D² - W²))/2: computed here from D and W and
// compared with the depths the handbook prints.
TEST(InchKeys, EveryPrintedDepthFollowsFromDiameterAndWidth) {
  for (const auto& row : shipped().table("keyseats-inch")->rows) {
    const double d_in = length_in(row.length("shaft_diameter")->value(), "in");
    const double w_in = length_in(row.length("width")->value(), "in");
    const double y_in = (d_in - std::sqrt(d_in * d_in - w_in * w_in)) / 2;
    const auto printed = [&](const char* column) {
      const std::string text(row.text(column));
      return text.substr(0, text.find(' '));
    };
    const std::string what = "keyseat of a " + row.id() + " shaft, ";
    expect_outside(
        {what + "S", b17_depth, Obtained::read, printed("shaft_depth"), d_in - y_in - w_in / 2, "in", 3});
    expect_outside({what + "T", b17_depth, Obtained::read, printed("hub_depth"),
                    d_in - y_in + w_in / 2 + 0.005, "in", 3});
    const Row* key = shipped().table("keys-inch")->row_for(*row.length("shaft_diameter"));
    ASSERT_NE(key, nullptr);
    EXPECT_DOUBLE_EQ(key->length("width")->value(), row.length("width")->value()) << row.id();
  }
}

TEST(InchKeys, TheFractionChartLiesBelowTheDecimalsByItsRounding) {
  for (const auto& row : shipped().table("keyseats-nema")->rows) {
    if (!row.preferred()) continue;
    const auto rivals = shipped().table("keyseats-nema")->rows_of_group(row.group());
    ASSERT_EQ(rivals.size(), 2U) << row.id();
    const double step_m =
        rivals[0]->length("keyseat_bottom")->value() - rivals[1]->length("keyseat_bottom")->value();
    EXPECT_LT(std::fabs(step_m), 0.0254 / 64) << row.id();
  }
}

TEST(MetricKeys, SectionAndDepthsOfTheTable) {
  struct Case {
    double shaft_mm;
    const char *b, *h, *t1, *t2;
  };
  for (const Case& c : {Case{14, "5", "5", "3.0", "2.3"},
                        {19, "6", "6", "3.5", "2.8"},
                        {24, "8", "7", "4.0", "3.3"},
                        {30, "8", "7", "4.0", "3.3"},
                        {38, "10", "8", "5.0", "3.3"},
                        {42, "12", "8", "5.0", "3.3"},
                        {50, "14", "9", "5.5", "3.8"},
                        {110, "28", "16", "10.0", "6.4"}}) {
    const Row* row = shipped().table("keys-metric")->row_for(metres(c.shaft_mm * 1e-3));
    ASSERT_NE(row, nullptr) << c.shaft_mm;
    const std::string what = "key for a " + std::to_string(static_cast<int>(c.shaft_mm)) + " mm shaft, ";
    const auto check = [&](const char* name, const char* column, const char* published) {
      expect_outside({what + name, din6885, Obtained::read, published,
                      length_in(row->length(column)->value(), "mm"), "mm", testing::digits_of(published)});
    };
    check("b", "width", c.b);
    check("h", "height", c.h);
    check("t1", "shaft_depth", c.t1);
    check("t2", "hub_depth", c.t2);
  }
}

TEST(MetricKeys, LeaveTwoToFourTenthsOfAMillimetreAboveTheKey) {
  for (const auto& row : shipped().table("keys-metric")->rows) {
    const double gap_m =
        row.length("shaft_depth")->value() + row.length("hub_depth")->value() - row.length("height")->value();
    EXPECT_GE(gap_m, 0.2e-3 - 1e-9) << row.id();
    EXPECT_LE(gap_m, 0.4e-3 + 1e-9) << row.id();
  }
}

}  // namespace
}  // namespace pumpwright
