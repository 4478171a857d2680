#include "report/labels.h"

#include <set>

#include <gtest/gtest.h>

#include "job/make_up.h"
#include "job/section.h"

namespace pumpwright::report {
namespace {

TEST(Labels, AreThereInBothLanguages) {
  for (int i = 0; i <= static_cast<int>(Label::role); ++i) {
    EXPECT_FALSE(text_of(static_cast<Label>(i), job::Language::english).empty()) << i;
    EXPECT_FALSE(text_of(static_cast<Label>(i), job::Language::spanish).empty()) << i;
  }
}

TEST(Labels, TakeTheSameNumberOfValuesInBothLanguages) {
  const auto holes = [](const std::string& text) {
    int count = 0;
    for (auto at = text.find("{}"); at != std::string::npos; at = text.find("{}", at + 1))
      ++count;
    return count;
  };
  for (int i = 0; i <= static_cast<int>(Label::role); ++i)
    EXPECT_EQ(holes(text_of(static_cast<Label>(i), job::Language::english)),
              holes(text_of(static_cast<Label>(i), job::Language::spanish)))
        << text_of(static_cast<Label>(i), job::Language::english);
}

TEST(Labels, NameEveryPlaceOfTheSectionDifferently) {
  std::set<std::string> english, spanish;
  for (const auto place : job::place_names()) {
    EXPECT_NE(place_title(place).en, place) << "no name for the place";
    english.insert(place_title(place).en);
    spanish.insert(place_title(place).es);
  }
  EXPECT_EQ(english.size(), job::place_names().size());
  EXPECT_EQ(spanish.size(), job::place_names().size());
}

TEST(Labels, NameEveryDimensionTheSectionCanMiss) {
  const job::Section section = job::section_of({});
  EXPECT_GT(section.assumed.size(), 25U);
  for (const std::string& dimension : section.assumed)
    EXPECT_NE(dimension_title(dimension).en, dimension);
}

TEST(Labels, FallBackToTheKeyWhenThereIsNoName) {
  EXPECT_EQ(place_title("somewhere-new").es, "somewhere-new");
}

}  // namespace
}  // namespace pumpwright::report
