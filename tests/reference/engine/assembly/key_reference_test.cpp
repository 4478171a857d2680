#include <string>
#include <vector>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/assembly/key.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

constexpr double inch = 0.0254;

struct InchRow {
  double diameter;
  const char* width;
  const char* s;
  const char* t;
};

// Depth control values for square keys; the printed table rounds to 0.001 in.
TEST(KeyReference, InchDepthControlValuesAreThoseOfThePrintedTable) {
  const std::string source =
      "ASME B17.1-1967 (R1989), depth control values S and T, handbook pocket companion";
  const std::vector<InchRow> rows{
      {0.5, "0.125", "0.430", "0.560"},   {0.625, "0.1875", "0.517", "0.709"},
      {0.75, "0.1875", "0.644", "0.837"}, {0.875, "0.1875", "0.771", "0.964"},
      {1.0, "0.25", "0.859", "1.114"},    {1.125, "0.25", "0.986", "1.241"},
      {1.25, "0.25", "1.112", "1.367"},   {1.375, "0.3125", "1.201", "1.518"},
      {1.5, "0.375", "1.289", "1.669"},   {1.625, "0.375", "1.416", "1.796"},
      {1.75, "0.375", "1.542", "1.922"},  {1.875, "0.500", "1.591", "2.096"},
      {2.0, "0.500", "1.718", "2.223"},   {2.125, "0.500", "1.845", "2.350"},
      {2.25, "0.500", "1.972", "2.477"},
  };
  for (const InchRow& row : rows) {
    const KeySection key = key_for_shaft(metres(row.diameter * inch), KeySystem::inch_square);
    const DepthControl depth = depth_control(key, metres(row.diameter * inch));
    const std::string name = fmt::format("shaft {} in: ", row.diameter);
    expect_outside({name + "key width",
                    "ASME B17.1-1967 (R1998), key size by shaft diameter, two restatements", Obtained::read,
                    row.width, key.width.value() / inch, "in", 2});
    expect_outside(
        {name + "S", source, Obtained::read, row.s, depth.seat_bottom_to_far_side.value() / inch, "in", 3});
    expect_outside(
        {name + "T", source, Obtained::read, row.t, depth.keyway_bottom_to_far_side.value() / inch, "in", 3});
  }
}

TEST(KeyReference, NemaKeyseatDimensionRIsTheDepthControlValueS) {
  const std::string source =
      "NEMA MG 1 frame dimensions R and S of T frames, public decimal table and motor maker's chart";
  const std::vector<InchRow> rows{{0.875, "0.188", "0.771", ""}, {1.125, "0.250", "0.986", ""},
                                  {1.375, "0.312", "1.201", ""}, {1.625, "0.375", "1.416", ""},
                                  {1.875, "0.500", "1.591", ""}, {2.125, "0.500", "1.845", ""}};
  for (const InchRow& row : rows) {
    const KeySection key = key_for_shaft(metres(row.diameter * inch), KeySystem::inch_square);
    const DepthControl depth = depth_control(key, metres(row.diameter * inch));
    expect_outside({fmt::format("NEMA R, U = {} in", row.diameter), source, Obtained::read, row.s,
                    depth.seat_bottom_to_far_side.value() / inch, "in", 3});
    expect_outside({fmt::format("NEMA S, U = {} in", row.diameter), source, Obtained::read, row.width,
                    key.width.value() / inch, "in", 2});
  }
}

struct SizeRow {
  double over;
  double to;
  const char* width;
  const char* square;
  const char* flat;
};

TEST(KeyReference, InchKeySizesAreThoseOfThePrintedTable) {
  const std::string source =
      "ASME B17.1-1967 (R1998), key size by shaft diameter, two restatements that agree";
  const std::vector<SizeRow> rows{
      {0.3125, 0.4375, "0.09375", "0.09375", ""},   {0.4375, 0.5625, "0.125", "0.125", "0.09375"},
      {0.5625, 0.875, "0.1875", "0.1875", "0.125"}, {0.875, 1.25, "0.25", "0.25", "0.1875"},
      {1.25, 1.375, "0.3125", "0.3125", "0.25"},    {1.375, 1.75, "0.375", "0.375", "0.25"},
      {1.75, 2.25, "0.5", "0.5", "0.375"},          {2.25, 2.75, "0.625", "0.625", "0.4375"},
      {2.75, 3.25, "0.75", "0.75", "0.5"},
  };
  for (const SizeRow& row : rows)
    for (const double diameter : {row.over + 0.001, row.to}) {
      const KeySection square = key_for_shaft(metres(diameter * inch), KeySystem::inch_square);
      const std::string name = fmt::format("shaft {} in: ", diameter);
      expect_outside({name + "W", source, Obtained::read, row.width, square.width.value() / inch, "in", 1});
      expect_outside(
          {name + "H square", source, Obtained::read, row.square, square.height.value() / inch, "in", 1});
      EXPECT_NEAR(square.width.value() / inch, std::stod(row.width), 1e-9);
      if (*row.flat == '\0') continue;
      const KeySection flat = key_for_shaft(metres(diameter * inch), KeySystem::inch_rectangular);
      expect_outside(
          {name + "H rectangular", source, Obtained::read, row.flat, flat.height.value() / inch, "in", 1});
      EXPECT_NEAR(flat.height.value() / inch, std::stod(row.flat), 1e-9);
    }
}

struct MetricRow {
  double to;
  const char* b;
  const char* h;
  const char* t1;
  const char* t2;
};

TEST(KeyReference, MetricKeysAreThoseOfThePrintedTables) {
  const std::string source =
      "DIN 6885-1 / ISO 773, public key table (to 58 mm) and gear unit maker's table (from 38 mm)";
  const std::vector<MetricRow> rows{
      {8, "2", "2", "1.2", "1.0"},    {10, "3", "3", "1.8", "1.4"},   {12, "4", "4", "2.5", "1.8"},
      {17, "5", "5", "3.0", "2.3"},   {22, "6", "6", "3.5", "2.8"},   {30, "8", "7", "4.0", "3.3"},
      {38, "10", "8", "5.0", "3.3"},  {44, "12", "8", "5.0", "3.3"},  {50, "14", "9", "5.5", "3.8"},
      {58, "16", "10", "6.0", "4.3"}, {65, "18", "11", "7.0", "4.4"}, {75, "20", "12", "7.5", "4.9"},
      {85, "22", "14", "9.0", "5.4"}, {95, "25", "14", "9.0", "5.4"}, {110, "28", "16", "10.0", "6.4"},
  };
  for (const MetricRow& row : rows) {
    const KeySection key = key_for_shaft(metres(row.to / 1000), KeySystem::metric);
    const std::string name = fmt::format("shaft {} mm: ", row.to);
    const auto expect_mm = [&](const char* what, const char* published, Length computed) {
      const int digits = std::string(published).size() == 1 ? 1 : 2;
      expect_outside({name + what, source, Obtained::read, published, computed.value() * 1000, "mm", digits});
    };
    expect_mm("b", row.b, key.width);
    expect_mm("h", row.h, key.height);
    expect_mm("t1", row.t1, key.shaft_depth);
    expect_mm("t2", row.t2, key.hub_depth);
  }
}

}  // namespace
}  // namespace pumpwright::testing
