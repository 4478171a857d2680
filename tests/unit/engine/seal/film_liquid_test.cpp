#include "engine/seal/film_liquid.h"

#include <gtest/gtest.h>

#include "tests/support/given_liquid.h"

namespace pumpwright::seal {
namespace {

// Viscosity by a Vogel law near that of water, so that the logarithm is no polynomial.
class VogelLiquid : public testing::GivenLiquid {
 public:
  Viscosity viscosity(Temperature t, AbsolutePressure) const override {
    return pascal_seconds(2.414e-5 * std::pow(10, 247.8 / (kelvin_of(t) - 140)));
  }
};

TEST(FilmLiquid, TheTableReadsAsTheLiquidItself) {
  const VogelLiquid liquid;
  const FilmLiquid table(liquid, {pascals(5e5)});
  for (double t_k = liquid.lowest_k; t_k <= liquid.highest_k; t_k += 0.37) {
    const AbsolutePressure p{pascals(1e7)};
    EXPECT_NEAR(table.viscosity(t_k).pa_s / liquid.viscosity(kelvin(t_k), p).value(), 1, 5e-7) << t_k;
    EXPECT_NEAR(table.saturation_pa(t_k) / liquid.saturation_pressure(kelvin(t_k)).value.value(), 1, 5e-7)
        << t_k;
  }
  EXPECT_NEAR(table.heat_per_volume_j_m3k(300), 4.2e6, 1e-6);
}

TEST(FilmLiquid, TheSlopeIsThatOfTheTable) {
  const FilmLiquid table(VogelLiquid(), {pascals(5e5)});
  for (double t_k = 280.3; t_k < 500; t_k += 17.3) {
    const double slope = (table.viscosity(t_k + 1e-4).pa_s - table.viscosity(t_k - 1e-4).pa_s) / 2e-4;
    EXPECT_NEAR(table.viscosity(t_k).per_k / slope, 1, 1e-6);
  }
}

TEST(FilmLiquid, BeyondTheRangeItStaysAtTheEndAndAsksTheLiquidNothing) {
  const testing::ThinningLiquid liquid;
  const FilmLiquid table(liquid, {pascals(5e5)});
  EXPECT_EQ(table.viscosity(900).pa_s, table.viscosity(table.highest_k()).pa_s);
  EXPECT_EQ(table.viscosity(900).per_k, 0);
  EXPECT_EQ(table.viscosity(100).pa_s, table.viscosity(table.lowest_k()).pa_s);
  EXPECT_NEAR(table.highest_k(), liquid.highest_k, 1e-9);
  EXPECT_NEAR(table.lowest_k(), liquid.lowest_k, 1e-9);
}

}  // namespace
}  // namespace pumpwright::seal
