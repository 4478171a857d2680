// Sizes read warm, stated at 20 °C.
#include "engine/metrology/temperature.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

Warmth steel(double at_c, double u_k = 0, double u_alpha = 0) {
  return {kelvin(at_c + 273.15), kelvin_step(u_k), per_kelvin(11.6e-6), per_kelvin(u_alpha)};
}

TEST(ReferenceTemperature, AWarmPartIsSmallerAtTwentyDegrees) {
  const auto r = at_reference_temperature({metres(0.1), metres(0)}, steel(80));
  EXPECT_NEAR(r.value.value(), 0.1 / (1 + 11.6e-6 * 60), 1e-16);
  EXPECT_NEAR(r.correction.value(), r.value.value() - 0.1, 1e-18);
  EXPECT_LT(r.correction.value(), 0);
  EXPECT_EQ(r.u.value(), 0);
}

TEST(ReferenceTemperature, NothingHappensAtTwentyDegreesButItsDoubtStays) {
  const auto r = at_reference_temperature({metres(0.1), metres(1e-6)}, steel(20, 2, 1e-6));
  EXPECT_NEAR(r.value.value(), 0.1, 1e-16);
  EXPECT_NEAR(r.u.value(), std::hypot(1e-6, 0.1 * 11.6e-6 * 2), 1e-15);
}

TEST(ReferenceTemperature, AScaleAsWarmAsThePartOfTheSameMaterialReadsRight) {
  const auto r = at_reference_temperature({metres(0.1), metres(0)}, steel(45), steel(45));
  EXPECT_NEAR(r.value.value(), 0.1, 1e-16);
}

TEST(ReferenceTemperature, DoubtComesFromTemperatureAndFromExpansion) {
  const auto r = at_reference_temperature({metres(0.05), metres(2e-6)}, steel(70, 1.5, 0.6e-6));
  const double growth = 1 + 11.6e-6 * 50;
  const double expected =
      std::sqrt(std::pow(2e-6 / growth, 2) + std::pow(0.05 * 11.6e-6 * 1.5 / growth / growth, 2) +
                std::pow(0.05 * 50 * 0.6e-6 / growth / growth, 2));
  EXPECT_NEAR(r.u.value(), expected, 1e-15);
}

TEST(ReferenceTemperature, RefusesWhatCanNotBe) {
  const ReadSize size{metres(0.1), metres(0)};
  EXPECT_THROW(at_reference_temperature(size, steel(501)), BadInput);
  EXPECT_THROW(at_reference_temperature(size, steel(std::nan(""))), BadInput);
  EXPECT_THROW(at_reference_temperature(size, steel(20, -1)), BadInput);
  EXPECT_THROW(at_reference_temperature(size, steel(20, 0, -1e-6)), BadInput);
  Warmth rubber = steel(20);
  rubber.alpha = per_kelvin(0.1);
  EXPECT_THROW(at_reference_temperature(size, steel(20), rubber), BadInput);
  EXPECT_THROW(at_reference_temperature({metres(std::nan("")), metres(0)}, steel(20)), BadInput);
  EXPECT_THROW(at_reference_temperature({metres(1), metres(-1)}, steel(20)), BadInput);
}

}  // namespace
}  // namespace pumpwright
