#include "engine/rotor/mesh.h"

#include <gtest/gtest.h>

#include "tests/support/given_rotor.h"
#include "tests/support/refused.h"

namespace pumpwright::rotor {
namespace {

TEST(Mesh, EveryPlaceThatMattersIsANode) {
  Rotor rotor = testing::overhung_rotor();
  rotor.stations = {metres(0.07)};
  const Mesh mesh = divide(rotor);
  for (const double at_m : {0.0, 0.025, 0.05, 0.07, 0.11, 0.115, 0.22, 0.265, 0.3})
    EXPECT_NEAR(mesh.node_m[node_at(mesh, metres(at_m))], at_m, 1e-12) << at_m;
  EXPECT_NEAR(mesh.node_m[mesh.support_node[0]], 0.115, 1e-12);
  EXPECT_NEAR(mesh.node_m[mesh.support_node[1]], 0.265, 1e-12);
}

TEST(Mesh, ElementsAreNoLongerThanAskedAndLieInTheirStep) {
  const Rotor rotor = testing::overhung_rotor();
  const Mesh mesh = divide(rotor, 25);
  ASSERT_EQ(mesh.step.size() + 1, mesh.node_m.size());
  for (std::size_t i = 0; i < mesh.step.size(); ++i) {
    EXPECT_GT(mesh.node_m[i + 1], mesh.node_m[i]);
    EXPECT_LE(mesh.node_m[i + 1] - mesh.node_m[i], 0.3 / 25 + 1e-12);
    const double middle_m = (mesh.node_m[i] + mesh.node_m[i + 1]) / 2;
    const std::size_t expected = middle_m < 0.05 ? 0 : middle_m < 0.11 ? 1 : middle_m < 0.22 ? 2 : 3;
    EXPECT_EQ(mesh.step[i], expected) << middle_m;
  }
}

TEST(Mesh, PlacesNextToEachOtherShareANode) {
  Rotor rotor = testing::overhung_rotor();
  rotor.stations = {metres(0.11 + 3e-5), metres(0.115 - 4e-5)};
  EXPECT_EQ(divide(rotor).node_m.size(), divide(testing::overhung_rotor()).node_m.size());
}

TEST(Mesh, ADivisionThatIsNoneIsNamed) {
  EXPECT_EQ(testing::refused_field([] { divide(testing::overhung_rotor(), 3); }), "elements");
  EXPECT_EQ(testing::refused_field([] { divide(testing::overhung_rotor(), 401); }), "elements");
}

}  // namespace
}  // namespace pumpwright::rotor
