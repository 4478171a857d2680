// The data that is built into the program.
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <regex>
#include <set>
#include <string>

#include <gtest/gtest.h>

#include "catalog/catalog.h"
#include "catalog/embedded.h"

namespace pumpwright {
namespace {

const Catalog& shipped() {
  static const Catalog catalog = Catalog::load(embedded_catalog());
  return catalog;
}

TEST(ShippedCatalog, EveryRowAndEveryCellHasASource) {
  std::size_t rows = 0;
  std::size_t cells = 0;
  for (const auto& table : shipped().tables()) {
    for (const auto& row : table.rows) {
      ++rows;
      EXPECT_FALSE(row.source().document.empty()) << table.name << '/' << row.id();
      for (const auto& column : *table.columns) {
        const Value* value = row.value(column.name);
        if (value == nullptr) continue;
        ++cells;
        EXPECT_FALSE(value->source->document.empty()) << table.name << '/' << row.id() << '/' << column.name;
      }
    }
  }
  EXPECT_GT(rows, 250U);
  EXPECT_GT(cells, 1500U);
}

TEST(ShippedCatalog, EveryTableHasRowsAndEveryColumnIsUsed) {
  for (const auto& table : shipped().tables()) {
    EXPECT_FALSE(table.rows.empty()) << table.name;
    for (const auto& column : *table.columns) {
      const bool used =
          std::ranges::any_of(table.rows, [&](const Row& r) { return r.value(column.name) != nullptr; });
      EXPECT_TRUE(used) << table.name << '/' << column.name;
    }
  }
}

TEST(ShippedCatalog, IsNamedAfterItsFile) {
  for (const auto& table : shipped().tables()) {
    std::string expected = table.name + ".toml";
    std::ranges::replace(expected, '-', '_');
    EXPECT_EQ(table.file, expected);
  }
}

TEST(ShippedCatalog, CarriesNoWebAddress) {
  const std::regex address(R"((https?:|www\.|\.(com|net|org|io)\b))");
  for (const auto& file : embedded_catalog())
    EXPECT_FALSE(std::regex_search(std::string(file.bytes), address)) << file.name;
}

TEST(ShippedCatalog, IsTheFilesOfTheSourceTreeByteForByte) {
  namespace fs = std::filesystem;
  const fs::path root = PUMPWRIGHT_CATALOG_DATA;
  std::size_t count = 0;
  for (const auto& entry : fs::recursive_directory_iterator(root)) {
    if (entry.path().extension() != ".toml") continue;
    ++count;
    const std::string name = fs::relative(entry.path(), root).generic_string();
    const auto files = embedded_catalog();
    const auto found = std::ranges::find(files, name, &NamedBytes::name);
    ASSERT_NE(found, files.end()) << name;
    std::ifstream in(entry.path(), std::ios::binary);
    EXPECT_EQ(found->bytes, std::string(std::istreambuf_iterator<char>(in), {})) << name;
  }
  EXPECT_EQ(count, embedded_catalog().size());
}

TEST(ShippedCatalog, ComesInTheOrderOfItsNames) {
  EXPECT_TRUE(std::ranges::is_sorted(embedded_catalog(), {}, &NamedBytes::name));
}

TEST(ShippedCatalog, HasTheTablesOtherPartsAskForByName) {
  for (const auto* name :
       {"frames-nema", "frames-iec", "keys-inch", "keys-metric", "seal-limits", "runout-nema", "runout-iec",
        "materials", "fits", "clearances-inch", "clearances-metric", "fastener-grades", "fastener-threads",
        "nut-factor", "elastomers", "lubricants"})
    EXPECT_NE(shipped().table(name), nullptr) << name;
}

TEST(ShippedCatalog, NeverCallsTheImpellerSweepLimitAnythingButCommonPractice) {
  const Row* row = shipped().find("seal-limits", "impeller-sweep");
  ASSERT_NE(row, nullptr);
  EXPECT_DOUBLE_EQ(row->length("limit")->value(), 177.8e-6);
  EXPECT_EQ(row->value("limit")->source->obtained, Obtained::common_practice);
  EXPECT_EQ(row->text("limit_on"), "tir");
  EXPECT_EQ(row->text("standing"), "common-practice");
}

TEST(ShippedCatalog, MarksWhatNobodyReadAsRemembered) {
  const Row* motor = shipped().find("frames-nema", "184JM");
  ASSERT_NE(motor, nullptr);
  EXPECT_EQ(motor->value("register_diameter")->source->obtained, Obtained::read);
  EXPECT_EQ(motor->value("register_max")->source->obtained, Obtained::remembered);
  for (const auto& row : shipped().table("face-nema")->rows)
    EXPECT_EQ(row.source().obtained, Obtained::remembered);
  for (const auto& row : shipped().table("flanges-iec")->rows)
    EXPECT_EQ(row.source().obtained, Obtained::remembered);
}

TEST(ShippedCatalog, GivesNoPetroleumGreaseToEpdm) {
  for (const auto& row : shipped().table("elastomers")->rows) {
    if (!row.id().starts_with("EPDM")) continue;
    EXPECT_EQ(row.flag("petroleum_grease"), false) << row.id();
    const std::string not_for(shipped().find("lubricants", "petroleum-grease")->text("not_for"));
    EXPECT_NE(not_for.find(row.id()), std::string::npos) << row.id();
  }
}

TEST(ShippedCatalog, GivesNoCureTimeOfItsOwn) {
  for (const auto& row : shipped().table("compounds")->rows)
    EXPECT_EQ(row.text("cure"), "from the compound's sheet") << row.id();
}

TEST(ShippedCatalog, NamesOnlyElastomersItHasWhereALubricantMustNotTouchThem) {
  const std::regex separator(", ");
  for (const auto& row : shipped().table("lubricants")->rows) {
    const std::string names(row.text("not_for"));
    if (names.empty()) continue;
    for (std::sregex_token_iterator it(names.begin(), names.end(), separator, -1), end; it != end; ++it)
      EXPECT_NE(shipped().find("elastomers", it->str()), nullptr) << row.id() << ": " << it->str();
  }
}

TEST(ShippedCatalog, NamesOnlyFlangesItHasBesideAMetricFrame) {
  for (const auto& row : shipped().table("frames-iec")->rows) {
    EXPECT_NE(shipped().find("flanges-iec", row.text("large_flange")), nullptr) << row.id();
    EXPECT_NE(shipped().find("flanges-iec", row.text("small_flange")), nullptr) << row.id();
  }
}

TEST(ShippedCatalog, HasAKeyForEveryMetricFrameThatAgreesWithTheFrame) {
  for (const auto& row : shipped().table("frames-iec")->rows) {
    const Row* key = shipped().table("keys-metric")->row_for(*row.length("shaft_diameter"));
    ASSERT_NE(key, nullptr) << row.id();
    EXPECT_DOUBLE_EQ(key->length("width")->value(), row.length("key_width")->value()) << row.id();
  }
}

}  // namespace
}  // namespace pumpwright
