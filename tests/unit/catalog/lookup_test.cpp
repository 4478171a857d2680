// Size ranges: who owns the end of a range decides which key or limit a shaft gets.
#include <array>
#include <string>

#include <gtest/gtest.h>

#include "catalog/catalog.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

std::string ranges(const std::string& upper, const std::string& rows) {
  return "table = \"keys\"\ntitle = \"Keys\"\nrange = { over = \"from\", to = \"to\"" + upper + R"( }
[sources.chart]
document = "A public chart"
obtained = "read"
[columns]
from = { kind = "length", title = "from" }
to = { kind = "length", title = "to" }
[rows]
)" + rows;
}

const std::string two_rows = R"(
low = { to = "7/8 in", source = "chart" }
high = { from = "7/8 in", source = "chart" }
)";

Catalog load_one(const std::string& bytes) {
  const std::array files{NamedBytes{"keys.toml", bytes}};
  return Catalog::load(files);
}

std::string row_at(const Catalog& catalog, double size_m) {
  const Row* row = catalog.table("keys")->row_for(metres(size_m));
  return row == nullptr ? "none" : row->id();
}

TEST(CatalogRange, GivesTheUpperEndToTheLowerRowUnlessTheTableSaysOtherwise) {
  const Catalog catalog = load_one(ranges("", two_rows));
  EXPECT_EQ(row_at(catalog, 0.022225), "low");
  EXPECT_EQ(row_at(catalog, 0.022226), "high");
  EXPECT_EQ(row_at(catalog, 25.4 * 0.875e-3), "low") << "22.225 mm by another way of computing it";
}

TEST(CatalogRange, GivesTheUpperEndToTheHigherRowWhenTheTableSaysSo) {
  const Catalog catalog = load_one(ranges(", upper = \"exclusive\"", two_rows));
  EXPECT_EQ(row_at(catalog, 0.022225), "high");
  EXPECT_EQ(row_at(catalog, 25.4 * 0.875e-3), "high");
  EXPECT_EQ(row_at(catalog, 0.022224), "low");
}

TEST(CatalogRange, TakesAnEmptyEndAsZeroOrWithoutEnd) {
  const Catalog catalog = load_one(ranges("", two_rows));
  EXPECT_EQ(row_at(catalog, 1e-6), "low");
  EXPECT_EQ(row_at(catalog, 100), "high");
}

TEST(CatalogRange, GivesNothingOutsideAllRanges) {
  const Catalog catalog =
      load_one(ranges("", "low = { from = \"10 mm\", to = \"12 mm\", source = \"chart\" }\n"));
  EXPECT_EQ(row_at(catalog, 0.0099), "none");
  EXPECT_EQ(row_at(catalog, 0.0121), "none");
}

TEST(CatalogRange, RefusesRangesThatOverlapOrRunBackwards) {
  EXPECT_THROW(
      (void)load_one(ranges(
          "", "a = { to = \"12 mm\", source = \"chart\" }\nb = { from = \"10 mm\", source = \"chart\" }\n")),
      BadInput);
  EXPECT_THROW((void)load_one(ranges("", "a = { from = \"12 mm\", to = \"10 mm\", source = \"chart\" }\n")),
               BadInput);
  EXPECT_THROW((void)load_one(ranges("", "a = { from = \"12 mm\", to = \"12 mm\", source = \"chart\" }\n")),
               BadInput);
}

TEST(CatalogRange, RefusesARangeOverColumnsThatAreNotLengths) {
  EXPECT_THROW((void)load_one(ranges(", upper = \"open\"", two_rows)), BadInput);
  std::string text = ranges("", two_rows);
  text.replace(text.find("from = { kind = \"length\""), 24, "from = { kind = \"force\" ");
  EXPECT_THROW((void)load_one(text), BadInput);
}

TEST(CatalogGroup, PutsThePreferredRowFirst) {
  const std::string rows = R"(
second = { group = "g", to = "1 in", source = "chart" }
first = { group = "g", preferred = true, to = "1 in", source = "chart" }
other = { from = "1 in", source = "chart" }
)";
  const Catalog catalog = load_one(ranges("", rows));
  const Table* table = catalog.table("keys");
  ASSERT_EQ(table->rows_of_group("g").size(), 2U);
  EXPECT_EQ(table->rows_of_group("g").front()->id(), "first");
  EXPECT_EQ(table->row_for(metres(0.01))->id(), "first");
  ASSERT_EQ(table->rows_for(metres(0.01)).size(), 2U);
  EXPECT_TRUE(table->rows_of_group("h").empty());
}

}  // namespace
}  // namespace pumpwright
