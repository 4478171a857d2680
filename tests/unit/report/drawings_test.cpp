#include "report/drawings.h"

#include <gtest/gtest.h>

#include "tests/unit/report/sample_job.h"

namespace pumpwright::report {
namespace {

TEST(Drawings, AreNamedAfterWhatTheyShow) {
  const auto sample = testing::sample_job();
  EXPECT_EQ(drawing_names(sample.input()),
            (std::vector<std::string>{"section", "seal", "sweep:register-sweep", "chain:working-length"}));
}

TEST(Drawings, AreThereAsSvgAndPng) {
  const auto sample = testing::sample_job();
  for (const std::string& name : drawing_names(sample.input())) {
    const auto svg = drawing(sample.input(), name, Picture::svg);
    ASSERT_TRUE(svg) << name;
    EXPECT_EQ(svg->substr(0, 5), "<?xml");
    EXPECT_NE(svg->find("</svg>"), std::string::npos);
    const auto png = drawing(sample.input(), name, Picture::png);
    ASSERT_TRUE(png) << name;
    EXPECT_EQ(png->substr(1, 3), "PNG");
    EXPECT_GT(png->size(), 5000U);
  }
}

TEST(Drawings, AreTheSameEveryTime) {
  const auto sample = testing::sample_job();
  for (const std::string& name : drawing_names(sample.input()))
    EXPECT_EQ(drawing(sample.input(), name, Picture::svg), drawing(sample.input(), name, Picture::svg));
}

TEST(Drawings, AreNothingForAnUnknownName) {
  const auto sample = testing::sample_job();
  EXPECT_FALSE(drawing(sample.input(), "sweep:none", Picture::svg));
  EXPECT_FALSE(drawing(sample.input(), "poster", Picture::png));
}

TEST(Drawings, AreThereForAJobWithNothingReadYet) {
  const auto sample = testing::empty_job();
  for (const std::string& name : drawing_names(sample.input()))
    EXPECT_TRUE(drawing(sample.input(), name, Picture::svg)) << name;
}

}  // namespace
}  // namespace pumpwright::report
