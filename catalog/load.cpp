#include <algorithm>
#include <array>
#include <set>

#include <fmt/format.h>

#include "catalog/catalog.h"
#include "catalog/digest.h"
#include "catalog/table_file.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

// Files of these folders are no tables: step texts and the fields of bench tests' sheets, read by who shows
// them.
constexpr std::array<std::string_view, 2> other_folders{"steps/", "sheets/"};
constexpr std::size_t files_max = 1000;
constexpr std::size_t rows_max = 20'000;

void check_names(std::span<const NamedBytes> files) {
  if (files.size() > files_max)
    throw BadInput({"catalog", "", fmt::format("{} files", files.size()), "at most 1000 files"});
  std::set<std::string_view> names;
  for (const auto& file : files) {
    if (file.name.empty()) throw BadInput({"catalog", "", "", "a name for every file"});
    if (!names.insert(file.name).second)
      throw BadInput({"catalog", std::string(file.name), "", "every file name once"});
    if (!file.name.ends_with(".toml"))
      throw BadInput({"catalog", std::string(file.name), "", "data files with names ending in .toml"});
  }
}

// Tables are sorted by name.
void check_tables(std::span<const Table> tables) {
  std::size_t rows = 0;
  for (std::size_t i = 0; i < tables.size(); ++i) {
    rows += tables[i].rows.size();
    if (i > 0 && tables[i].name == tables[i - 1].name)
      throw BadInput({"table", tables[i].file, tables[i].name,
                      fmt::format("a name that {} does not use already", tables[i - 1].file)});
  }
  if (rows > rows_max) throw BadInput({"catalog", "", fmt::format("{} rows", rows), "at most 20000 rows"});
}

}  // namespace

Catalog Catalog::load(std::span<const NamedBytes> files) {
  check_names(files);
  Catalog catalog;
  for (const auto& file : files)
    if (std::ranges::none_of(other_folders, [&](std::string_view f) { return file.name.starts_with(f); }))
      catalog.tables_.push_back(read_table_file(file));
  std::ranges::stable_sort(catalog.tables_, {}, &Table::name);
  check_tables(catalog.tables_);
  catalog.digest_ = digest_of(files);
  return catalog;
}

}  // namespace pumpwright
