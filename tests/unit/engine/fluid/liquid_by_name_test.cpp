#include "engine/fluid/liquid_by_name.h"

#include <gtest/gtest.h>

#include "engine/quantity/bad_input.h"
#include "tests/support/refused.h"

namespace pumpwright {
namespace {

using namespace fluid;

TEST(LiquidByName, MakesEachLiquidItNames) {
  EXPECT_EQ(liquid_by_name({.name = "water"})->name(), "water");
  EXPECT_EQ(liquid_by_name({.name = "sea-water"})->name(), "sea water of 35 g/kg");
  EXPECT_EQ(liquid_by_name({.name = "sea-water", .salinity = 0.02})->name(), "sea water of 20 g/kg");
  EXPECT_EQ(liquid_by_name({.name = "ethylene-glycol", .mass_fraction = 0.5})->name(),
            "50 % ethylene glycol in water");
  EXPECT_EQ(liquid_by_name({.name = "propylene-glycol", .mass_fraction = 0.3})->name(),
            "30 % propylene glycol in water");
  EXPECT_EQ(liquid_names().size(), 4U);
}

TEST(LiquidByName, SaysWhichNamesThereAre) {
  const auto wrong = testing::refused([] { liquid_by_name({.name = "brine"}); });
  EXPECT_EQ(wrong.value, "brine");
  EXPECT_EQ(wrong.expected, "one of water, sea-water, ethylene-glycol, propylene-glycol");
}

TEST(LiquidByName, WantsWhatBelongsToTheLiquidAndNothingElse) {
  EXPECT_EQ(testing::refused([] { liquid_by_name({.name = "ethylene-glycol"}); }).value, "nothing");
  EXPECT_EQ(testing::refused([] { liquid_by_name({.name = "water", .mass_fraction = 0.3}); }).field,
            "mass fraction of glycol");
  EXPECT_EQ(testing::refused([] { liquid_by_name({.name = "water", .salinity = 0.03}); }).field, "salinity");
  EXPECT_THROW(liquid_by_name({.name = "sea-water", .mass_fraction = 0.3}), BadInput);
  EXPECT_THROW(liquid_by_name({.name = "ethylene-glycol", .mass_fraction = 0.3, .salinity = 0.03}), BadInput);
  EXPECT_THROW(liquid_by_name({.name = "ethylene-glycol", .mass_fraction = 0.61}), BadInput);
}

}  // namespace
}  // namespace pumpwright
