#include "engine/seal/atmosphere.h"

#include <gtest/gtest.h>

#include "tests/support/refused.h"

namespace pumpwright::seal {
namespace {

TEST(Atmosphere, GaugeAndAbsoluteAreEachOthersInverse) {
  for (const double altitude_m : {-400.0, 0.0, 1600.0, 8000.0}) {
    const AbsolutePressure p = absolute_at({pascals(83'000)}, metres(altitude_m));
    EXPECT_NEAR(gauge_at(p, metres(altitude_m)).value.value(), 83'000, 1e-9);
  }
}

TEST(Atmosphere, TheSameGaugeReadingIsLessUpTheHill) {
  const GaugePressure reading{pascals(83'000)};
  EXPECT_LT(absolute_at(reading, metres(1600)).value + pascals(15'000),
            absolute_at(reading, metres(0)).value);
}

TEST(Atmosphere, BelowVacuumAndBeyondTheFormulaAreRefused) {
  EXPECT_EQ(testing::refused_field([] { absolute_at({pascals(-101'000)}, metres(1000)); }), "pressure");
  EXPECT_EQ(testing::refused_field([] { standard_atmosphere(metres(20'000)); }), "altitude");
}

}  // namespace
}  // namespace pumpwright::seal
