// The loader takes nothing on trust: every way a data file can be wrong is refused with file, line and row
// named.
#include <array>
#include <string>

#include <gtest/gtest.h>

#include "catalog/catalog.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

// A small table that loads; tests spoil one place of it.
const std::string good = R"(table = "shafts"
title = "Shafts"
[sources.chart]
document = "A public chart"
obtained = "read"
[columns]
diameter = { kind = "length", title = "diameter", required = true }
finish = { kind = "text", title = "finish", one_of = ["ground", "turned"] }
keys = { kind = "number", title = "keyways" }
hard = { kind = "flag", title = "hardened" }
[rows]
small = { diameter = "7/8 in", finish = "ground", keys = 1, hard = true, source = "chart" }
large = { diameter = "1 1/4 in", source = "chart" }
)";

Catalog load_one(const std::string& bytes, std::string_view name = "shafts.toml") {
  const std::array files{NamedBytes{name, bytes}};
  return Catalog::load(files);
}

std::string spoiled(const std::string& from, const std::string& to) {
  std::string text = good;
  const auto at = text.find(from);
  EXPECT_NE(at, std::string::npos) << "the test's own text changed: " << from;
  return text.replace(at, from.size(), to);
}

// The message with which `bytes` is refused; a failure when it loads.
std::string refusal(const std::string& bytes) {
  try {
    (void)load_one(bytes);
  } catch (const BadInput& error) {
    return error.what();
  }
  ADD_FAILURE() << "loaded:\n" << bytes;
  return "";
}

void expect_refused(const std::string& bytes, const std::string& place, const std::string& about) {
  const std::string line = refusal(bytes);
  EXPECT_NE(line.find(place), std::string::npos) << line;
  EXPECT_NE(line.find(about), std::string::npos) << line;
}

TEST(CatalogLoad, ReadsEveryKindOfCell) {
  const Catalog catalog = load_one(good);
  const Row* row = catalog.find("shafts", "small");
  ASSERT_NE(row, nullptr);
  EXPECT_DOUBLE_EQ(row->length("diameter")->value(), 0.022225);
  EXPECT_EQ(row->value("diameter")->text, "7/8 in");
  EXPECT_EQ(row->value("diameter")->unit->symbol, "in");
  EXPECT_EQ(row->text("finish"), "ground");
  EXPECT_EQ(row->number("keys"), 1.0);
  EXPECT_EQ(row->flag("hard"), true);
  EXPECT_EQ(row->source().document, "A public chart");
}

TEST(CatalogLoad, GivesNothingForAnEmptyCellOrAnUnknownName) {
  const Catalog catalog = load_one(good);
  const Row* row = catalog.find("shafts", "large");
  ASSERT_NE(row, nullptr);
  EXPECT_EQ(row->number("keys"), std::nullopt);
  EXPECT_EQ(row->flag("hard"), std::nullopt);
  EXPECT_EQ(row->text("finish"), "");
  EXPECT_EQ(row->value("no_such_column"), nullptr);
  EXPECT_EQ(catalog.find("shafts", "no such row"), nullptr);
  EXPECT_EQ(catalog.find("no such table", "small"), nullptr);
}

TEST(CatalogLoad, KeepsRowsAndColumnsInTheOrderOfTheFile) {
  const Catalog catalog = load_one(good);
  const Table* table = catalog.table("shafts");
  ASSERT_NE(table, nullptr);
  EXPECT_EQ(table->rows.front().id(), "small");
  EXPECT_EQ(table->columns->front().name, "diameter");
  EXPECT_EQ(table->columns->back().name, "hard");
}

TEST(CatalogLoad, RefusesARowWithoutASource) {
  expect_refused(spoiled("\"1 1/4 in\", source = \"chart\"", "\"1 1/4 in\""), "shafts.toml:13",
                 "row \"large\", source");
}

TEST(CatalogLoad, RefusesASourceThatIsNotThere) {
  expect_refused(spoiled("\"1 1/4 in\", source = \"chart\"", "\"1 1/4 in\", source = \"sheet\""),
                 "shafts.toml:13", "sheet");
}

TEST(CatalogLoad, RefusesASourceWithoutADocument) {
  expect_refused(spoiled("document = \"A public chart\"\n", ""),
                 "shafts.toml:", "source \"chart\", document");
}

TEST(CatalogLoad, RefusesAnEmptyDocument) {
  expect_refused(spoiled("\"A public chart\"", "\"\""), "shafts.toml:4", "document");
}

TEST(CatalogLoad, RefusesASourceThatDoesNotSayHowItWasObtained) {
  expect_refused(spoiled("obtained = \"read\"\n", ""), "shafts.toml:", "source \"chart\", obtained");
}

TEST(CatalogLoad, RefusesAWordThatIsNotAWayOfObtaining) {
  expect_refused(spoiled("\"read\"", "\"heard\""), "shafts.toml:5", "common-practice");
}

TEST(CatalogLoad, RefusesAnUnknownKeyInASource) {
  expect_refused(spoiled("obtained =", "page = \"3\"\nobtained ="), "shafts.toml:5", "page");
}

TEST(CatalogLoad, RefusesTheSameRowTwice) {
  expect_refused(spoiled("large =", "small ="), "shafts.toml:13", "small");
}

TEST(CatalogLoad, RefusesAColumnTheTableDoesNotHave) {
  expect_refused(spoiled("keys = 1,", "colour = \"grey\","), "shafts.toml:12", "colour");
}

TEST(CatalogLoad, RefusesARowWithoutARequiredCell) {
  expect_refused(spoiled("diameter = \"1 1/4 in\",", ""), "shafts.toml:13", "row \"large\", diameter");
}

TEST(CatalogLoad, RefusesQuantitiesItCanNotRead) {
  for (const std::string bad :
       {"\"7/8\"", "\"seven in\"", "\"7/8 degC\"", "\"nan in\"", "\"1e999 in\"", "0.875", "true"}) {
    expect_refused(spoiled("\"7/8 in\"", bad), "shafts.toml:12", "row \"small\", diameter");
  }
}

TEST(CatalogLoad, RefusesCellsOfTheWrongType) {
  expect_refused(spoiled("keys = 1", "keys = \"1\""), "shafts.toml:12", "keys");
  expect_refused(spoiled("keys = 1", "keys = inf"), "shafts.toml:12", "keys");
  expect_refused(spoiled("keys = 1", "keys = nan"), "shafts.toml:12", "keys");
  expect_refused(spoiled("hard = true", "hard = 1"), "shafts.toml:12", "hard");
  expect_refused(spoiled("finish = \"ground\"", "finish = \"polished\""), "shafts.toml:12", "turned");
  expect_refused(spoiled("finish = \"ground\"", "finish = \"gro\\nund\""), "shafts.toml:12", "finish");
  expect_refused(spoiled("finish = \"ground\"", "finish = { a = 1 }"), "shafts.toml:12", "finish");
  expect_refused(spoiled("small = {", "small = 3 #"), "shafts.toml:12", "row \"small\"");
}

TEST(CatalogLoad, RefusesColumnsItDoesNotUnderstand) {
  expect_refused(spoiled("kind = \"length\"", "kind = \"weight\""), "shafts.toml:7", "weight");
  expect_refused(spoiled("title = \"diameter\", ", ""), "shafts.toml:7", "title");
  expect_refused(spoiled("title = \"diameter\"", "title = \"diameter\", unit = \"in\""), "shafts.toml:7",
                 "unit");
  expect_refused(spoiled("keys = { kind", "source = { kind"), "shafts.toml:9", "source");
  expect_refused(spoiled("one_of = [\"ground\", \"turned\"]", "one_of = []"), "shafts.toml:8", "one_of");
}

TEST(CatalogLoad, RefusesAFileWithoutItsParts) {
  expect_refused("", "shafts.toml", "table");
  expect_refused(spoiled("table = \"shafts\"\n", ""), "shafts.toml", "table");
  expect_refused(spoiled("\"shafts\"", "\"Shafts!\""), "shafts.toml:1", "small letters");
  expect_refused(good.substr(0, good.find("[rows]")), "shafts.toml", "rows");
  expect_refused(good.substr(0, good.find("small = ")), "shafts.toml:11", "at least one row");
  expect_refused(spoiled("title = \"Shafts\"", "title = \"Shafts\"\nedition = 3"), "shafts.toml:3",
                 "edition");
}

TEST(CatalogLoad, RefusesATruncatedFileWhereverItIsCut) {
  std::size_t refused = 0;
  for (std::size_t length = 0; length < good.size(); ++length) {
    const std::string cut = good.substr(0, length);
    try {
      const Catalog catalog = load_one(cut);
      // A cut between two whole rows leaves a shorter table that is right in itself.
      EXPECT_LE(catalog.tables().front().rows.size(), 2U);
      EXPECT_GE(length, good.find("small = ")) << cut;
    } catch (const BadInput& error) {
      ++refused;
      EXPECT_NE(std::string(error.what()).find("shafts.toml"), std::string::npos);
    }
  }
  EXPECT_GT(refused, good.size() / 2);
}

TEST(CatalogLoad, RefusesBytesThatAreNotText) {
  expect_refused(std::string("table = \"a\xff\xfe\""), "shafts.toml:1", "TOML");
  expect_refused(std::string(64, '\0'), "shafts.toml:1", "TOML");
}

TEST(CatalogLoad, RefusesAHugeFileBeforeReadingIt) {
  expect_refused(std::string(std::size_t{8} << 20U, '1'), "shafts.toml", "1 MiB");
}

TEST(CatalogLoad, RefusesNestingWithoutEnd) {
  const std::string line = refusal("a = " + std::string(100'000, '['));
  EXPECT_NE(line.find("shafts.toml"), std::string::npos) << line;
}

TEST(CatalogLoad, RefusesTwoFilesWithOneName) {
  const std::array files{NamedBytes{"a.toml", good}, NamedBytes{"a.toml", good}};
  EXPECT_THROW((void)Catalog::load(files), BadInput);
}

TEST(CatalogLoad, RefusesTwoTablesWithOneName) {
  const std::array files{NamedBytes{"a.toml", good}, NamedBytes{"b.toml", good}};
  EXPECT_THROW((void)Catalog::load(files), BadInput);
}

TEST(CatalogLoad, RefusesFilesItDoesNotKnow) {
  EXPECT_THROW((void)load_one(good, "shafts.txt"), BadInput);
  EXPECT_THROW((void)load_one(good, ""), BadInput);
}

TEST(CatalogLoad, LeavesStepFilesToTheirOwner) {
  const std::array files{NamedBytes{"shafts.toml", good},
                         NamedBytes{"steps/receive.toml", "not = [ a table"}};
  const Catalog catalog = Catalog::load(files);
  EXPECT_EQ(catalog.tables().size(), 1U);
  EXPECT_EQ(files_under(files, "steps/").size(), 1U);
}

TEST(CatalogLoad, TakesACellsOwnSourceBeforeTheRows) {
  std::string text = spoiled(
      "[columns]", "[sources.memory]\ndocument = \"The standard\"\nobtained = \"remembered\"\n[columns]");
  text.replace(text.find("keys = 1, hard = true,"), 22, "keys = 1, source_of = { keys = \"memory\" },");
  const Catalog catalog = load_one(text);
  const Row* row = catalog.find("shafts", "small");
  ASSERT_NE(row, nullptr);
  EXPECT_EQ(row->value("keys")->source->obtained, Obtained::remembered);
  EXPECT_EQ(row->value("diameter")->source->obtained, Obtained::read);
}

TEST(CatalogLoad, TakesAColumnsSourceBeforeTheRowsAndAfterTheCells) {
  const std::string columns =
      "[sources.memory]\ndocument = \"The standard\"\nobtained = \"remembered\"\n"
      "[sources.shop]\ndocument = \"Shop rule 7\"\nobtained = \"shop-rule\"\n[columns]";
  std::string text = spoiled("[columns]", columns);
  const std::string keys = "title = \"keyways\"";
  text.replace(text.find(keys), keys.size(), keys + ", source = \"memory\"");
  EXPECT_EQ(load_one(text).find("shafts", "small")->value("keys")->source->obtained, Obtained::remembered);
  EXPECT_EQ(load_one(text).find("shafts", "small")->value("diameter")->source->obtained, Obtained::read);
  const std::string hard = "hard = true,";
  text.replace(text.find(hard), hard.size(), "source_of = { keys = \"shop\" },");
  EXPECT_EQ(load_one(text).find("shafts", "small")->value("keys")->source->obtained, Obtained::shop_rule);
  expect_refused(spoiled(keys, keys + ", source = \"memory\""), "shafts.toml:9", "column \"keys\", source");
}

TEST(CatalogLoad, RefusesACellSourceForACellThatIsEmpty) {
  expect_refused(spoiled("keys = 1, hard = true,", "source_of = { keys = \"chart\" },"), "shafts.toml:12",
                 "source_of");
}

TEST(CatalogLoad, TakesASourceWrittenInPlace) {
  const Catalog catalog =
      load_one(spoiled("\"1 1/4 in\", source = \"chart\"",
                       R"("1 1/4 in", source = { document = "Shop rule 7", obtained = "shop-rule" })"));
  EXPECT_EQ(catalog.find("shafts", "large")->source().obtained, Obtained::shop_rule);
}

TEST(CatalogLoad, RefusesCompetingRowsUnlessExactlyOneIsPreferred) {
  const std::string none = spoiled("small = {", "small = { group = \"g\",");
  expect_refused(none, "shafts.toml", "group \"g\"");
  std::string two = spoiled("small = {", "small = { group = \"g\", preferred = true,");
  two.replace(two.find("large = {"), 9, "large = { group = \"g\", preferred = true,");
  expect_refused(two, "shafts.toml", "2 preferred rows");
  expect_refused(spoiled("small = {", "small = { preferred = true,"), "shafts.toml:12", "preferred");
}

}  // namespace
}  // namespace pumpwright
