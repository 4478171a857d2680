#include <gtest/gtest.h>

#include "engine/hydraulics/trim.h"
#include "tests/support/given_pump.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

using namespace hydraulics;

TEST(TrimReference, TheReducedDiameterRuleIsItsFormula) {
  const Impeller impeller{metres(0.2), metres(0.1), {}};
  const double r = flow_factor(CutRule::reduced_diameter, impeller, metres(0.192));
  expect_outside({"R of 200 to 192 mm, inlet edge 100 mm",
                  "sqrt((192^2 - 100^2)/(200^2 - 100^2)), worked out apart", Obtained::closed_form,
                  "0.946291", r, "", 6});
  expect_outside({"the same: factor of head", "R^2", Obtained::closed_form, "0.895467", r * r, "", 6});
}

// A 10 % cut takes about 10 % of flow, 20 % (19 %) of head and 27 % of power.
TEST(TrimReference, ATenPercentCutComesOut) {
  const Impeller impeller{metres(0.2), {}, {}};
  const double r = flow_factor(CutRule::affinity, impeller, metres(0.18));
  const std::string source = "public article on impeller trim, affinity laws";
  expect_outside({"10 % cut: flow falls by", source, Obtained::read, "10", 100 * (1 - r), "%", 2});
  expect_outside({"10 % cut: head falls by", source + " (rounded there to 20)", Obtained::closed_form, "19",
                  100 * (1 - r * r), "%", 2});
  expect_outside({"10 % cut: power falls by", source, Obtained::read, "27", 100 * (1 - r * r * r), "%", 2});
}

}  // namespace
}  // namespace pumpwright::testing
