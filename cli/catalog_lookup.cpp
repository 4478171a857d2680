#include "cli/catalog_lookup.h"

#include <algorithm>
#include <set>
#include <vector>

#include <fmt/format.h>

#include "cli/command.h"

namespace pumpwright {
namespace {

constexpr double slack_m = 1e-9;  // so that 25.4 mm meets "1 in"

char small(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

bool same_word(std::string_view a, std::string_view b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](char x, char y) { return small(x) == small(y); });
}

bool holds_size(const Row& row, Length diameter) {
  const auto from = row.length("size_from"), to = row.length("size_to");
  return (!from || from->value() <= diameter.value() + slack_m) &&
         (!to || diameter.value() <= to->value() + slack_m);
}

}  // namespace

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
  std::set<std::string> grades;
  const Row* found = nullptr;
  bool known = false;
  for (const auto& row : table_named(catalog, "fastener-grades", flag).rows) {
    grades.insert(std::string(row.text("grade")));
    if (!same_word(row.text("grade"), grade)) continue;
    known = true;
    if (holds_size(row, diameter) && (found == nullptr || (row.preferred() && !found->preferred())))
      found = &row;
  }
  if (found != nullptr) return *found;
  if (known) throw bad_argument(flag, grade, "a grade that the catalog holds for this size of thread");
  throw bad_argument(flag, grade, fmt::format("one of {}", fmt::join(grades, ", ")));
}

}  // namespace pumpwright
