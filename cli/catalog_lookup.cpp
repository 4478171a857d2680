#include "cli/catalog_lookup.h"

#include <set>
#include <vector>

#include <fmt/format.h>

#include "catalog/fastener_grade.h"
#include "catalog/same_word.h"
#include "cli/command.h"

namespace pumpwright {

const Table& table_named(const Catalog& catalog, const std::string& name, const std::string& flag) {
  if (const auto* table = catalog.table(name)) return *table;
  std::vector<std::string> names;
  for (const auto& table : catalog.tables())
    names.push_back(table.name);
  throw bad_argument(flag, name, fmt::format("one of {}", fmt::join(names, ", ")));
}

const Row& row_named(const Table& table, const std::string& id, const std::string& flag) {
  if (const auto* row = table.find(id)) return *row;
  std::vector<std::string> ids;
  for (const auto& row : table.rows) {
    if (same_word(row.id(), id)) return row;
    ids.push_back(row.id());
  }
  throw bad_argument(flag, id, fmt::format("one of {}", fmt::join(ids, "; ")));
}

const Row& strength_of(const Catalog& catalog, const std::string& grade, Length diameter,
                       const std::string& flag) {
  const Table& table = table_named(catalog, "fastener-grades", flag);
  if (const Row* found = grade_for_size(table, grade, diameter)) return *found;
  std::set<std::string> grades;
  for (const auto& row : table.rows)
    grades.insert(std::string(row.text("grade")));
  throw bad_argument(flag, grade,
                     fmt::format("one that is made in this size of thread, of {}", fmt::join(grades, ", ")));
}

}  // namespace pumpwright
