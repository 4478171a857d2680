#include "cli/display_text.h"

#include <gtest/gtest.h>

#include "cli/verdict_word.h"

namespace pumpwright {
namespace {

TEST(DisplayText, CountsCharactersNotBytes) {
  EXPECT_EQ(display_width("12.5 µm ± 3°"), 12U);
  EXPECT_EQ(display_width("e\xCC\x81"), 1U) << "a combining accent takes no column";
}

TEST(DisplayText, CountsNoColumnsForColour) {
  EXPECT_EQ(display_width(verdict_word("pass", true)), 4U);
  EXPECT_NE(verdict_word("pass", true), "PASS");
}

TEST(DisplayText, WritesVerdictsAsWordsInCapitals) {
  EXPECT_EQ(verdict_word("pass", false), "PASS");
  EXPECT_EQ(verdict_word("not-taken", false), "NOT TAKEN");
  EXPECT_EQ(verdict_word("fail", "no pasa", false), "NO PASA");
}

TEST(DisplayText, FindsTheFirstByteThatIsNoUtf8) {
  EXPECT_EQ(first_invalid_utf8("180 µm"), std::string_view::npos);
  EXPECT_EQ(first_invalid_utf8("180 \xB5m"), 4U);
  EXPECT_EQ(first_invalid_utf8("\xC0\x80"), 0U) << "overlong";
  EXPECT_EQ(first_invalid_utf8("ab\xED\xA0\x80"), 2U) << "surrogate";
  EXPECT_EQ(first_invalid_utf8("\xF4\x90\x80\x80"), 0U) << "past U+10FFFF";
  EXPECT_EQ(first_invalid_utf8("a\xE2\x82"), 1U) << "cut off";
}

TEST(DisplayText, MakesOneSafeLineOfAnything) {
  EXPECT_EQ(one_line("a\nb\tc\x1b[31m"), "a b c [31m");
  EXPECT_EQ(one_line("\xB5m"), "\\xB5m");
  EXPECT_EQ(one_line("µµµµ", 4), "µµ…");
}

TEST(DisplayText, WrapsAtSpacesAndKeepsLongWordsWhole) {
  EXPECT_EQ(wrapped("one two three", 9, 2), "  one two\n  three\n");
  EXPECT_EQ(wrapped("unbreakable", 4), "unbreakable\n");
  EXPECT_EQ(wrapped("", 10), "");
}

TEST(DisplayText, AlignsColumnsAndLeavesNoSpacesAtTheEnd) {
  TextTable table({Align::left, Align::right, Align::left});
  table.add({"µm", "1.5", ""});
  table.add({"thou", "12", "x"});
  EXPECT_EQ(table.text(1), " µm    1.5\n thou   12  x\n");
}

TEST(DisplayText, LeavesOutAColumnNobodyFilled) {
  TextTable table({Align::left, Align::left, Align::left});
  table.add({"a", "", "b"});
  EXPECT_EQ(table.text(), "a  b\n");
}

}  // namespace
}  // namespace pumpwright
