#include "job/fastener_figures.h"

#include <fmt/format.h>

#include "catalog/fastener_grade.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::job {
namespace {

[[noreturn]] void refuse(const char* word, const std::string& value, const char* table,
                         const std::string& place) {
  throw BadInput(
      {.field = word,
       .place = place.empty() ? "" : fmt::format("{}/{}", place, word),
       .value = value,
       .expected = fmt::format("one that the catalog table {0} has (`pumpwright catalog show {0}`)", table)});
}

const Row& wanted(const Catalog& catalog, const char* table, const std::string& id, const char* word,
                  const std::string& place) {
  const Row* row = catalog.find(table, id);
  if (row == nullptr) refuse(word, id, table, place);
  return *row;
}

const Row& grade_row(const Catalog& catalog, const std::string& grade, Length diameter,
                     const std::string& place) {
  const Table* table = catalog.table("fastener-grades");
  const Row* found = table == nullptr ? nullptr : grade_for_size(*table, grade, diameter);
  if (found == nullptr) refuse("grade", grade, "fastener-grades", place);
  return *found;
}

}  // namespace

std::optional<FastenerFigures> find_fastener(const FastenerWords& words, const Catalog& catalog,
                                             const std::string& place) {
  const Row& thread = wanted(catalog, "fastener-threads", words.thread, "thread", place);
  const Row& friction = wanted(catalog, "nut-factor", words.condition, "condition", place);
  const Length diameter = *thread.length("diameter");
  const Row& grade = grade_row(catalog, words.grade, diameter, place);
  const auto low = friction.number("k_low");
  const auto high = friction.number("k_high");
  if (!low || !high) return std::nullopt;
  const auto form = thread.text("series") == "ISO coarse" ? ThreadForm::iso_metric : ThreadForm::unified;
  return FastenerFigures{{form, diameter, *thread.length("pitch")},
                         *grade.pressure("proof"),
                         {*low, *high},
                         grade.source(),
                         friction.source()};
}

}  // namespace pumpwright::job
