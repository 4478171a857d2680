// What a pump on acceptance test may deviate by: the grades of ISO 9906:2012 and ANSI/HI 14.6, as data.
//
// The existence of the grades, and that the tolerances hold manufacture and measurement together, was read.
// The figures are REMEMBERED (Table 8 of ISO 9906:2012; the 2B row agrees with the class 2 row of the 1999
// edition, which was read); public summaries contradict each other. They decide nothing until somebody has
// compared them with the standard. `small` is the rule for pumps of 1 to 10 kW: ±10 % of flow and ±8 % of
// head read in a trade article, the two formulas for efficiency and power remembered.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>

#include "engine/assembly/how_known.h"
#include "engine/quantity/quantity.h"

namespace pumpwright::hydraulics {

enum class Grade { g1B, g1E, g1U, g2B, g2U, g3B, small };

inline constexpr std::array all_grades{Grade::g1B, Grade::g1E, Grade::g1U,  Grade::g2B,
                                       Grade::g2U, Grade::g3B, Grade::small};

// Fractions of the guaranteed value. A lower end of 0 for flow and head makes a unilateral grade.
struct Tolerance {
  double flow_low = 0, flow_high = 0;
  double head_low = 0, head_high = 0;
  double power_high = 0;      // P <= PG (1 + this)
  double efficiency_low = 0;  // η >= ηG (1 + this); not above 0; a factor, not percentage points
  HowKnown known = HowKnown::remembered;
};

// `small` needs the guaranteed shaft power, 1 to 10 kW; BadInput "power" without it or outside.
Tolerance tolerance_of(Grade grade, std::optional<Power> guaranteed_power = {});

// "1B" … "3B", "small".
std::string_view word_for(Grade grade);
std::optional<Grade> grade_from(std::string_view word);

// Largest permitted uncertainty of the measurement at 95 %, as a fraction (remembered; the efficiency rows
// are the root sum of squares of the others, which supports them).
struct PermittedUncertainty {
  double flow = 0, head = 0, power = 0, efficiency = 0;
};
PermittedUncertainty permitted_uncertainty(Grade grade, bool power_by_motor);

constexpr const char* grades_source = "ISO 9906:2012, Table 8; ANSI/HI 14.6, 14.6.3.4";

}  // namespace pumpwright::hydraulics
