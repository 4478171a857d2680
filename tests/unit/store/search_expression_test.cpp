#include "store/search_expression.h"

#include <gtest/gtest.h>

namespace pumpwright::store {
namespace {

TEST(SearchExpression, QuotesEveryWordAsABeginning) {
  EXPECT_EQ(search_expression("J-104 wash"), "\"J-104\"* AND \"wash\"*");
  EXPECT_EQ(search_expression("\tpeñón\n"), "\"peñón\"*");
}

TEST(SearchExpression, DoublesQuotesSoThatTheyStayInside) {
  EXPECT_EQ(search_expression("a\" OR b"), "\"a\"\"\"* AND \"OR\"* AND \"b\"*");
}

TEST(SearchExpression, IsNothingWithoutALetterOrDigit) {
  EXPECT_FALSE(search_expression("").has_value());
  EXPECT_FALSE(search_expression(" - \" * ").has_value());
  EXPECT_EQ(search_expression("- 7"), "\"7\"*");
}

TEST(SearchExpression, LooksAtABoundedNumberOfWords) {
  std::string many;
  for (int i = 0; i < 100; ++i)
    many += "x ";
  std::size_t quotes = 0;
  const std::string expression = search_expression(many).value_or("");
  for (const char c : expression)
    quotes += c == '"' ? 1U : 0U;
  EXPECT_EQ(quotes, 2U * search_words_max);
}

TEST(SearchExpression, EndsWordsAtAZeroByte) {
  EXPECT_EQ(search_expression(std::string_view("a\0b", 3)), "\"a\"* AND \"b\"*");
}

}  // namespace
}  // namespace pumpwright::store
