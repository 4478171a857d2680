#include "engine/seal/face_geometry.h"

#include <gtest/gtest.h>

#include "tests/support/given_seal.h"
#include "tests/support/refused.h"

namespace pumpwright::seal {
namespace {

TEST(FaceGeometry, PressureFromInsidePushesOnTheRestOfTheFace) {
  Faces faces = testing::given_faces();
  const double from_outside = balance_ratio(faces);
  faces.pressure = PressureSide::inside;
  EXPECT_NEAR(balance_ratio(faces) + from_outside, 1, 1e-12);
  EXPECT_LT(balance_ratio(faces), from_outside);
}

TEST(FaceGeometry, ABalanceDiameterBelowTheFaceOverbalances) {
  Faces faces = testing::given_faces();
  faces.balance_diameter = metres(0.045);
  EXPECT_GT(balance_ratio(faces), 1);
}

TEST(FaceGeometry, WidthMeanAndAreaBelongTogether) {
  const Faces faces = testing::given_faces();
  EXPECT_NEAR(face_area(faces).value(), pi * mean_diameter(faces).value() * face_width(faces).value(), 1e-12);
}

TEST(FaceGeometry, ANarrowFaceHasHalfThePressure) {
  Faces faces = testing::given_faces();
  faces.inner_diameter = faces.outer_diameter - metres(1e-5);
  EXPECT_NEAR(parallel_gradient_factor(faces), 0.5, 1e-4);
  EXPECT_GT(parallel_gradient_factor(testing::given_faces()), 0.5);
}

TEST(FaceGeometry, ImpossibleDiametersAreNamed) {
  const auto field = [](double outer_m, double inner_m, double balance_m) {
    return testing::refused_field([&] {
      face_area({metres(outer_m), metres(inner_m), metres(balance_m), PressureSide::outside});
    });
  };
  EXPECT_EQ(field(0.06, 0.05, 0.052), "");
  EXPECT_EQ(field(0, 0.05, 0.052), "faces/outer_diameter");
  EXPECT_EQ(field(0.06, 0.06, 0.052), "faces/inner_diameter");
  EXPECT_EQ(field(0.06, 0.05, 0.02), "faces/balance_diameter");
  EXPECT_EQ(field(0.06, 0.05, 0.1), "faces/balance_diameter");
}

}  // namespace
}  // namespace pumpwright::seal
