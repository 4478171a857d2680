#include "store/search_expression.h"

namespace pumpwright::store {
namespace {

// Letters and digits; bytes above ASCII belong to letters as far as can be told without tables.
bool counts(char c) {
  return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
         static_cast<unsigned char>(c) >= 0x80;
}

// A quoted phrase that begins a run of words: the tokenizer cuts it as it cut the text searched.
std::string begins_with(std::string_view word) {
  std::string phrase = "\"";
  for (const char c : word) {
    if (c == '"') phrase += '"';
    phrase += c;
  }
  return phrase + "\"*";
}

}  // namespace

std::optional<std::string> search_expression(std::string_view text) {
  constexpr std::string_view blanks(" \t\r\n\0", 5);
  std::string expression;
  int words = 0;
  while (words < search_words_max) {
    const auto from = text.find_first_not_of(blanks);
    if (from == std::string_view::npos) break;
    const auto to = text.find_first_of(blanks, from);
    const std::string_view word = text.substr(from, to == std::string_view::npos ? to : to - from);
    text.remove_prefix(from + word.size());
    bool any = false;
    for (const char c : word)
      any = any || counts(c);
    if (!any) continue;
    if (!expression.empty()) expression += " AND ";
    expression += begins_with(word);
    ++words;
  }
  if (expression.empty()) return std::nullopt;
  return expression;
}

}  // namespace pumpwright::store
