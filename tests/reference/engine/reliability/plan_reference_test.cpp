#include <array>
#include <cmath>
#include <string>

#include <gtest/gtest.h>

#include "engine/reliability/returns_to_settle.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

using namespace pumpwright::reliability;

TEST(PlanReference, SchoenfeldsFormulaGivesThePublishedNumbersOfPatients) {
  // Two equal groups, half of the patients with an event, power 80 %, level 5 %: events of a group rounded
  // up, both groups, twice as many patients.
  struct Row {
    double ratio;
    const char* patients;
  };
  for (const Row row : {Row{1.25, "1264"}, Row{1.5, "384"}, Row{1.75, "204"}, Row{2.0, "132"}}) {
    const double in_a_group = std::ceil(returns_to_settle(row.ratio, 0.5) / 2);
    expect_outside({"patients to prove a ratio of " + std::to_string(row.ratio).substr(0, 4),
                    "BMC Trials 16 (2015) 213, table 1 (Schoenfeld's formula)", Obtained::read, row.patients,
                    2 * in_a_group / 0.5, "", 3});
  }
}

TEST(PlanReference, FreedmansFormulaIsNineTimesTheQuantilesForAHalving) {
  // ((1 + 1/2)/(1 - 1/2))² = 9; (1.959964 + 0.841621)² = 7.848880.
  expect_outside({"returns to prove a halving, Freedman", "9·(z0.975 + z0.8)²", Obtained::closed_form,
                  "70.6399176091", returns_to_settle_freedman(0.5), "", 12});
}

}  // namespace
}  // namespace pumpwright::testing
