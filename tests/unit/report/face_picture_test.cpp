// The faces of a seal as the record draws them.
#include "report/face_picture.h"

#include <algorithm>

#include <gtest/gtest.h>

#include "report/drawings.h"
#include "tests/unit/job/demo_job.h"

namespace pumpwright::report {
namespace {

using job::testing::demo;
using job::testing::judge_document;

std::optional<FacePicture> picture_of(const nlohmann::json& document, job::Language language) {
  const auto judged = judge_document(document);
  return face_picture(judged.snapshot, judged.state, language);
}

TEST(FacePicture, ShowsFilmPressureAndTemperatureFromTheInsideOut) {
  const auto picture = picture_of(demo("greenhouse-circulator"), job::Language::english);
  ASSERT_TRUE(picture.has_value());
  ASSERT_EQ(picture->curves.size(), 4U);
  for (const auto& curve : picture->curves)
    EXPECT_EQ(curve.values.size(), picture->radii_m.size());
  EXPECT_LT(picture->radii_m.front(), picture->radii_m.back());
  // The liquid stands outside: its pressure rises outwards from close to the air's.
  const auto& pressure = picture->curves[1].values;
  EXPECT_LT(pressure.front(), pressure.back());
  EXPECT_NEAR(pressure.front(), 14.7, 1);
  EXPECT_EQ(picture->curves[1].title, "pressure of the liquid, psia");
  EXPECT_EQ(picture->curves[3].title, "temperature, °C");
}

TEST(FacePicture, SaysTheNumbersThatDecideInBothLanguages) {
  const auto english = picture_of(demo("greenhouse-circulator"), job::Language::english);
  const auto spanish = picture_of(demo("greenhouse-circulator"), job::Language::spanish);
  ASSERT_EQ(english->numbers.size(), spanish->numbers.size());
  EXPECT_EQ(english->numbers.front().first, "pressure at the seal over vapour pressure");
  EXPECT_EQ(spanish->numbers.front().first, "presión en el cierre sobre presión de vapor");
  EXPECT_EQ(english->numbers.front().second, spanish->numbers.front().second);
}

TEST(FacePicture, IsLeftOutWhereNoFilmCouldBeFound) {
  nlohmann::json document = demo("greenhouse-circulator");
  document["make_up"]["seal"].erase("sheet");
  EXPECT_FALSE(picture_of(document, job::Language::english).has_value());
}

TEST(FacePicture, IsADrawingOfTheRecordLikeTheOthers) {
  const auto judged = judge_document(demo("greenhouse-circulator"));
  const auto section = job::section_of(judged.snapshot.make_up);
  const BuildRecordInput input{judged.job.header, judged.snapshot, judged.state,
                               judged.judgement,  section,         "00"};
  const auto names = drawing_names(input);
  EXPECT_NE(std::find(names.begin(), names.end(), "faces"), names.end());
  const auto svg = drawing(input, "faces", Picture::svg);
  ASSERT_TRUE(svg.has_value());
  EXPECT_NE(svg->find("<svg"), std::string::npos);
}

}  // namespace
}  // namespace pumpwright::report
