#include "engine/assembly/fastener.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

const Thread m10{ThreadForm::iso_metric, metres(0.010), metres(0.0015)};
const LongFormJoint m10_joint{m10, {metres(0.016), metres(0.011)}};

TEST(Fastener, TheTwoThreadFormsHaveTheirOwnStressArea) {
  const Thread as_unified{ThreadForm::unified, m10.diameter, m10.pitch};
  EXPECT_LT(stress_area(as_unified), stress_area(m10));
}

TEST(Fastener, LeastPreloadComesFromMostFriction) {
  const PreloadRange range = preload_from_torque({newton_metres(40), 0.05}, metres(0.010), {0.15, 0.25});
  EXPECT_NEAR(range.smallest.value(), 40 * 0.95 / (0.25 * 0.010), 1e-6);
  EXPECT_NEAR(range.largest.value(), 40 * 1.05 / (0.15 * 0.010), 1e-6);
}

TEST(Fastener, TorqueAndPreloadAreEachOthersInverse) {
  const Torque torque = torque_for_preload(0.2, metres(0.010), newtons(25'000));
  const PreloadRange range = preload_from_torque({torque, 0}, metres(0.010), {0.2, 0.2});
  EXPECT_NEAR(range.smallest.value(), 25'000, 1e-6);
  EXPECT_NEAR(range.largest.value(), 25'000, 1e-6);
}

TEST(Fastener, LongFormsDifferLittleAndRiseWithFriction) {
  double last = 0;
  for (const double mu : {0.08, 0.12, 0.16, 0.20}) {
    const double motosh = torque_per_preload(m10_joint, mu, mu, LongForm::motosh).value();
    EXPECT_NEAR(torque_per_preload(m10_joint, mu, mu, LongForm::vdi2230).value() / motosh, 1, 0.005);
    EXPECT_NEAR(torque_per_preload(m10_joint, mu, mu, LongForm::power_screw).value() / motosh, 1, 0.01);
    EXPECT_GT(motosh, last);
    last = motosh;
  }
}

TEST(Fastener, LongFormRangeSpansItsFrictions) {
  const JointFriction friction{{0.10, 0.20}, {0.08, 0.16}};
  const PreloadRange range =
      preload_from_torque({newton_metres(40), 0}, m10_joint, friction, LongForm::motosh);
  EXPECT_NEAR(range.smallest.value(),
              40 / torque_per_preload(m10_joint, 0.20, 0.16, LongForm::motosh).value(), 1e-6);
  EXPECT_NEAR(range.largest.value(), 40 / torque_per_preload(m10_joint, 0.10, 0.08, LongForm::motosh).value(),
              1e-6);
}

TEST(Fastener, ShareAboveOneShowsAStretchedBolt) {
  const ShareRange share = share_of_proof_load({newtons(20'000), newtons(40'000)}, m10, pascals(580e6));
  EXPECT_LT(share.smallest, 1);
  EXPECT_GT(share.largest, 1);
  EXPECT_NEAR(share.largest / share.smallest, 2, 1e-12);
}

TEST(Fastener, RefusesWhatIsNotAThreadOrATorque) {
  EXPECT_THROW(stress_area({ThreadForm::unified, metres(0), metres(0.001)}), BadInput);
  EXPECT_THROW(stress_area({ThreadForm::unified, metres(0.01), metres(0.006)}), BadInput);
  EXPECT_THROW(stress_area({ThreadForm::unified, metres(10), metres(1.5)}), BadInput);  // mm given as m
  EXPECT_THROW(stress_area({ThreadForm::unified, metres(0.01), metres(std::nan(""))}), BadInput);
  EXPECT_THROW(torque_for_preload(0, metres(0.01), newtons(1)), BadInput);
  EXPECT_THROW(torque_for_preload(0.2, metres(0.01), newtons(-1)), BadInput);
  EXPECT_THROW(preload_from_torque({newton_metres(0), 0}, metres(0.01), {0.1, 0.2}), BadInput);
  EXPECT_THROW(preload_from_torque({newton_metres(10), 1}, metres(0.01), {0.1, 0.2}), BadInput);
  EXPECT_THROW(preload_from_torque({newton_metres(10), 0}, metres(0.01), {0.2, 0.1}), BadInput);
  EXPECT_THROW(torque_per_preload(m10_joint, 0, 0.1, LongForm::motosh), BadInput);
  EXPECT_THROW(torque_per_preload({m10, {metres(0.01), metres(0.011)}}, 0.1, 0.1, LongForm::motosh),
               BadInput);
  EXPECT_THROW(share_of_proof_load({newtons(1), newtons(2)}, m10, pascals(580)), BadInput);
}

}  // namespace
}  // namespace pumpwright
