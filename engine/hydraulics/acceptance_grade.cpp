#include "engine/hydraulics/acceptance_grade.h"

#include <cmath>

#include "engine/assembly/input_check.h"

namespace pumpwright::hydraulics {
namespace {

struct Row {
  Grade grade;
  std::string_view word;
  Tolerance tolerance;
};

constexpr std::array<Row, 6> table{{
    {Grade::g1B, "1B", {-0.05, 0.05, -0.03, 0.03, 0.04, -0.03}},
    {Grade::g1E, "1E", {-0.05, 0.05, -0.03, 0.03, 0.04, 0}},
    {Grade::g1U, "1U", {0, 0.10, 0, 0.06, 0.10, 0}},
    {Grade::g2B, "2B", {-0.08, 0.08, -0.05, 0.05, 0.08, -0.05}},
    {Grade::g2U, "2U", {0, 0.16, 0, 0.10, 0.16, -0.05}},
    {Grade::g3B, "3B", {-0.09, 0.09, -0.07, 0.07, 0.09, -0.07}},
}};

// τη = -[10 (1 - P/10 kW) + 7] %, τP = sqrt(7² + τη²) %.
Tolerance small_pump(std::optional<Power> power) {
  const double kw = power ? power->value() / 1000 : 0;
  require_between(kw, 1, 10, "power", "the guaranteed shaft power, 1 kW to 10 kW, for the grade \"small\"");
  const double efficiency_percent = -(10 * (1 - kw / 10) + 7);
  const double power_percent = std::sqrt(7 * 7 + efficiency_percent * efficiency_percent);
  return {-0.10, 0.10, -0.08, 0.08, power_percent / 100, efficiency_percent / 100};
}

}  // namespace

Tolerance tolerance_of(Grade grade, std::optional<Power> guaranteed_power) {
  for (const Row& row : table)
    if (row.grade == grade) return row.tolerance;
  return small_pump(guaranteed_power);
}

std::string_view word_for(Grade grade) {
  for (const Row& row : table)
    if (row.grade == grade) return row.word;
  return "small";
}

std::optional<Grade> grade_from(std::string_view word) {
  for (const Grade grade : all_grades)
    if (word_for(grade) == word) return grade;
  return std::nullopt;
}

PermittedUncertainty permitted_uncertainty(Grade grade, bool power_by_motor) {
  const bool first = grade == Grade::g1B || grade == Grade::g1E || grade == Grade::g1U;
  if (first) return {0.020, 0.015, power_by_motor ? 0.020 : 0.015, power_by_motor ? 0.032 : 0.029};
  return {0.035, 0.035, power_by_motor ? 0.040 : 0.035, power_by_motor ? 0.064 : 0.061};
}

}  // namespace pumpwright::hydraulics
