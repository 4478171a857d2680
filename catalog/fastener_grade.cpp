#include "catalog/fastener_grade.h"

#include "catalog/same_word.h"

namespace pumpwright {
namespace {

constexpr double slack_m = 1e-9;

bool made_in(const Row& row, Length diameter) {
  const auto from = row.length("size_from");
  const auto to = row.length("size_to");
  return (!from || from->value() <= diameter.value() + slack_m) &&
         (!to || diameter.value() <= to->value() + slack_m);
}

}  // namespace

const Row* grade_for_size(const Table& grades, std::string_view grade, Length diameter) {
  const Row* found = nullptr;
  for (const auto& row : grades.rows) {
    if (!same_word(row.text("grade"), grade) || !made_in(row, diameter)) continue;
    if (found == nullptr || (row.preferred() && !found->preferred())) found = &row;
  }
  return found;
}

}  // namespace pumpwright
