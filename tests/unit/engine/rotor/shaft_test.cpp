#include "engine/rotor/shaft.h"

#include <gtest/gtest.h>

#include "tests/support/refused.h"

namespace pumpwright::rotor {
namespace {

ShaftStep step(double length_m, double diameter_m, double bore_m = 0) {
  return {metres(length_m), metres(diameter_m), metres(bore_m)};
}

TEST(Shaft, SectionsAreThoseOfARing) {
  const BeamSection s = beam_section(step(1, 0.04, 0.02), 0.3);
  EXPECT_NEAR(s.area_m2, pi * (0.02 * 0.02 - 0.01 * 0.01), 1e-18);
  EXPECT_NEAR(s.inertia_m4, pi / 4 * (1.6e-7 - 1e-8), 1e-20);
}

TEST(Shaft, AThinTubeShearsTwiceAsEasilyAsASolidBar) {
  EXPECT_GT(round_shear_coefficient(0, 0.3), 0.88);
  // Cowper's thin tube: 2 (1 + v) / (4 + 3 v)
  EXPECT_NEAR(round_shear_coefficient(0.9999, 0.3), 2.6 / 4.9, 1e-6);
  double before = round_shear_coefficient(0, 0.3);
  for (double m = 0.1; m < 0.95; m += 0.1) {
    EXPECT_LT(round_shear_coefficient(m, 0.3), before);
    before = round_shear_coefficient(m, 0.3);
  }
}

TEST(Shaft, EveryNamedMaterialIsValidAndHasASource) {
  EXPECT_GE(shaft_material_names().size(), 4U);
  for (const std::string& name : shaft_material_names()) {
    const ShaftMaterial material = shaft_material(name, "material");
    EXPECT_NO_THROW(require_valid(material)) << name;
    EXPECT_FALSE(material.source.empty()) << name;
  }
}

TEST(Shaft, AnUnknownMaterialIsToldTheKnownOnes) {
  const auto what = testing::refused([] { shaft_material("cheese", "material"); });
  EXPECT_EQ(what.field, "material");
  EXPECT_EQ(what.value, "cheese");
  EXPECT_NE(what.expected.find("carbon-steel"), std::string::npos);
}

TEST(Shaft, ImpossibleStepsAreNamed) {
  const auto field = [](std::vector<ShaftStep> steps) {
    return testing::refused_field([&] { require_valid(steps); });
  };
  EXPECT_EQ(field({}), "shaft");
  EXPECT_EQ(field(std::vector<ShaftStep>(61, step(0.1, 0.03))), "shaft");
  EXPECT_EQ(field({step(0.1, 0.03), step(0, 0.03)}), "shaft/1/length");
  EXPECT_EQ(field({step(0.1, 0.0005)}), "shaft/0/diameter");
  EXPECT_EQ(field({step(0.1, 0.03, 0.0290)}), "shaft/0/bore");
  EXPECT_EQ(field({step(0.1, 0.03, 0.0284)}), "");
}

TEST(Shaft, ImpossibleMaterialsAreNamed) {
  const auto field = [](double modulus_pa, double density_kg_m3, double poisson) {
    return testing::refused_field([&] {
      require_valid(
          ShaftMaterial{pascals(modulus_pa), kilograms_per_cubic_metre(density_kg_m3), poisson, "given"});
    });
  };
  EXPECT_EQ(field(205e6, 7850, 0.3), "material/modulus");
  EXPECT_EQ(field(205e9, 7.85, 0.3), "material/density");
  EXPECT_EQ(field(205e9, 7850, 0.5), "material/poisson");
}

}  // namespace
}  // namespace pumpwright::rotor
