#include "engine/assembly/iso286.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

double um_of(Length length) {
  return length.value() * 1e6;
}
LimitDeviations at(double size_mm, const char* letters, int grade) {
  return limit_deviations(metres(size_mm / 1000), {letters, grade});
}

TEST(Iso286, ReadsDesignationsAsTheyAreWritten) {
  const FitDesignation both = parse_fit("50 H7/g6", "fit");
  EXPECT_NEAR(both.basic.value(), 0.050, 1e-15);
  ASSERT_TRUE(both.hole && both.shaft);
  EXPECT_EQ(both.hole->letters, "H");
  EXPECT_EQ(both.hole->grade, 7);
  EXPECT_EQ(both.shaft->letters, "g");
  EXPECT_EQ(both.shaft->grade, 6);

  EXPECT_TRUE(parse_fit("50H7", "fit").hole);
  EXPECT_FALSE(parse_fit("50H7", "fit").shaft);
  EXPECT_EQ(parse_fit("25 k6", "fit").shaft->letters, "k");
  EXPECT_EQ(parse_fit("64 mm H8-f7", "fit").shaft->grade, 7);
  EXPECT_EQ(parse_fit("180 JS7 / js6", "fit").hole->letters, "JS");
  EXPECT_NEAR(parse_fit("20,5 h6", "fit").basic.value(), 0.0205, 1e-15);
  EXPECT_NEAR(parse_fit("22.225 h6", "fit").basic.value(), 0.022225, 1e-15);
}

TEST(Iso286, RefusesDesignationsItCanNotRead) {
  for (const char* text :
       {"", "H7", "50", "50 H", "50 7H", "50 g6/H7", "50 H7/", "50 H7/H7", "50 H7 g", "50 H7/g6/h6",
        "1,250 H7", "50. H7", "5.0.0 H7", "-50 H7", "50 H777", "99999 H7", "50 in H7"})
    EXPECT_THROW(parse_fit(text, "fit"), BadInput) << text;
  EXPECT_THROW(parse_fit(std::string(1000, '5'), "fit"), BadInput);
  try {
    parse_fit("H7", "--bore");
    FAIL();
  } catch (const BadInput& e) {
    EXPECT_EQ(e.what_was_wrong().field, "--bore");
    EXPECT_EQ(e.what_was_wrong().value, "H7");
  }
}

TEST(Iso286, AStepIncludesItsUpperEnd) {
  EXPECT_NEAR(um_of(standard_tolerance(metres(0.050), 7).width), 25, 1e-9);
  EXPECT_NEAR(um_of(standard_tolerance(metres(0.05001), 7).width), 30, 1e-9);
  EXPECT_NEAR(um_of(standard_tolerance(metres(50.0 * 1e-3), 7).width), 25, 1e-9);
  EXPECT_NEAR(um_of(at(30, "k", 6).lower), 2, 1e-9);
  EXPECT_NEAR(um_of(at(66, "s", 6).lower), 59, 1e-9);
}

TEST(Iso286, EverySpanEqualsItsGrade) {
  for (const Iso286Row& row : all_iso286_rows()) {
    const double it = um_of(standard_tolerance(row.to, row.tolerance_class.grade).width);
    EXPECT_NEAR(um_of(row.deviations.upper - row.deviations.lower), it, 1e-9)
        << row.tolerance_class.letters << row.tolerance_class.grade;
    EXPECT_FALSE(row.deviations.source.empty());
  }
}

TEST(Iso286, RowsCoverTheWholeRangeOfEveryClass) {
  const auto rows = all_iso286_rows();
  EXPECT_GT(rows.size(), 700U);
  double reached_mm = 0;
  for (const Iso286Row& row : rows) {
    if (row.over.value() == 0) reached_mm = 0;
    EXPECT_NEAR(row.over.value() * 1000, reached_mm, 1e-9);
    reached_mm = row.to.value() * 1000;
  }
  EXPECT_NEAR(reached_mm, 250, 1e-9);
}

TEST(Iso286, HoleLettersMirrorShaftLetters) {
  for (const double size : {4.0, 25.0, 60.0, 200.0}) {
    EXPECT_NEAR(um_of(at(size, "F", 7).lower), -um_of(at(size, "f", 7).upper), 1e-9);
    EXPECT_NEAR(um_of(at(size, "G", 7).lower), -um_of(at(size, "g", 7).upper), 1e-9);
  }
}

TEST(Iso286, SmallestStepTakesNoShiftInTransitionHoles) {
  EXPECT_NEAR(um_of(at(3, "K", 7).upper), 0, 1e-9);
  EXPECT_NEAR(um_of(at(3, "M", 7).upper), -2, 1e-9);
  EXPECT_NEAR(um_of(at(3, "N", 9).upper), -4, 1e-9);
  EXPECT_NEAR(um_of(at(8, "N", 9).upper), 0, 1e-9);
}

TEST(Iso286, SaysWhatIsOnlyRemembered) {
  EXPECT_EQ(at(50, "g", 6).how, HowKnown::read);
  EXPECT_EQ(at(2, "g", 6).how, HowKnown::remembered);
  EXPECT_EQ(at(100, "s", 6).how, HowKnown::remembered);
  EXPECT_EQ(at(50, "K", 7).how, HowKnown::computed);
  EXPECT_STREQ(word_for(HowKnown::remembered), "remembered");
}

TEST(Iso286, RefusesSizesGradesAndLettersItDoesNotHold) {
  EXPECT_THROW(standard_tolerance(metres(0.2501), 7), BadInput);
  EXPECT_THROW(standard_tolerance(metres(0), 7), BadInput);
  EXPECT_THROW(standard_tolerance(metres(std::nan("")), 7), BadInput);
  EXPECT_THROW(standard_tolerance(metres(0.05), 12), BadInput);
  for (const ToleranceClass& c : {ToleranceClass{"a", 9},
                                  {"h", 4},
                                  {"k", 8},
                                  {"j", 7},
                                  {"H", 12},
                                  {"Z", 7},
                                  {"hh", 6},
                                  {"K", 9},
                                  {"", 7}})
    EXPECT_THROW(limit_deviations(metres(0.05), c), BadInput) << c.letters << c.grade;
  try {
    limit_deviations(metres(0.05), {"z", 6});
    FAIL();
  } catch (const BadInput& e) {
    EXPECT_NE(e.what_was_wrong().expected.find("k5-k7"), std::string::npos);
  }
}

}  // namespace
}  // namespace pumpwright
