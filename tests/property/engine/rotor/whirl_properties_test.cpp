// What holds of every whirling shaft: how frequencies follow stiffness, mass and spin.
#include <cmath>

#include <gtest/gtest.h>

#include "engine/rotor/whirl.h"
#include "tests/property/engine/rotor/random_rotor.h"
#include "tests/support/hold.h"

namespace pumpwright::testing {
namespace {

constexpr int cases = 60;
constexpr int elements = 12;
constexpr double rounding = 1e-7;

rotor::CriticalSpeeds critical(const rotor::Rotor& r) {
  return rotor::critical_speeds(rotor::rotor_matrices(r, elements), 3);
}

bool none_lower(const std::vector<Speed>& higher, const std::vector<Speed>& lower) {
  for (std::size_t i = 0; i < std::min(higher.size(), lower.size()); ++i)
    if (higher[i] < (1 - rounding) * lower[i]) return false;
  return true;
}

TEST(WhirlProperty, StifferBearingsRaiseEveryCriticalSpeed) {
  hold(
      "bearing stiffness",
      [] {
        rotor::Rotor soft = any_rotor();
        for (rotor::Support& support : soft.supports)
          support.stiffness = newtons_per_metre(between(1e6, 1e8));
        rotor::Rotor stiff = soft;
        for (rotor::Support& support : stiff.supports)
          support.stiffness = between(1, 10) * *support.stiffness;
        rotor::Rotor rigid = soft;
        for (rotor::Support& support : rigid.supports)
          support.stiffness.reset();
        const auto a = critical(soft), b = critical(stiff), c = critical(rigid);
        RC_ASSERT(none_lower(b.forward, a.forward) && none_lower(b.backward, a.backward));
        RC_ASSERT(none_lower(c.forward, b.forward) && none_lower(c.backward, b.backward));
      },
      cases);
}

TEST(WhirlProperty, FourTimesAsStiffATurnsTwiceAsFast) {
  hold(
      "modulus",
      [] {
        rotor::Rotor weak = any_rotor();
        weak.material.modulus = pascals(50e9);
        rotor::Rotor strong = weak;
        strong.material.modulus = pascals(200e9);
        for (rotor::Support& support : strong.supports)
          if (support.stiffness) support.stiffness = 4.0 * *support.stiffness;
        const auto a = critical(weak), b = critical(strong);
        RC_ASSERT(a.forward.size() == b.forward.size());
        for (std::size_t i = 0; i < a.forward.size(); ++i)
          RC_ASSERT(std::fabs(b.forward[i] / a.forward[i] - 2) < 1e-6);
      },
      cases);
}

TEST(WhirlProperty, MoreMassLowersThem) {
  hold(
      "mass",
      [] {
        const rotor::Rotor light = any_rotor();
        rotor::Rotor heavy = light;
        heavy.impeller.mass = light.impeller.mass + kilograms(between(0.1, 5));
        RC_ASSERT(none_lower(critical(light).backward, critical(heavy).backward));
        RC_ASSERT(none_lower(critical(light).forward, critical(heavy).forward));
      },
      cases);
}

TEST(WhirlProperty, SpinPartsForwardFromBackwardAndLeavesThemPaired) {
  hold(
      "spin",
      [] {
        const rotor::RotorMatrices m = rotor::rotor_matrices(any_rotor(), elements);
        const auto rest = rotor::whirl_modes(m, radians_per_second(0), 2);
        const auto spun = rotor::whirl_modes(m, radians_per_second(between(10, 1000)), 2);
        double forward = 0, backward = 0;
        for (const rotor::WhirlMode& mode : spun) {
          RC_ASSERT(mode.frequency.value() > 0);
          double& first = mode.forward ? forward : backward;
          if (first == 0) first = mode.frequency.value();
        }
        const double still = rest.front().frequency.value();
        RC_ASSERT(forward >= still * (1 - rounding));
        RC_ASSERT(backward <= still * (1 + rounding));
      },
      cases);
}

TEST(WhirlProperty, ABackwardCriticalSpeedIsNeverAboveTheForwardOne) {
  hold(
      "senses",
      [] {
        const auto c = critical(any_rotor());
        RC_ASSERT(none_lower(c.forward, c.backward));
      },
      cases);
}

}  // namespace
}  // namespace pumpwright::testing
