#include "catalog/fastener_grade.h"

#include <algorithm>

namespace pumpwright {
namespace {

constexpr double slack_m = 1e-9;

char small(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

bool same_word(std::string_view a, std::string_view b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](char x, char y) { return small(x) == small(y); });
}

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
