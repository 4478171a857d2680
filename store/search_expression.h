// What a person types, as an expression the full-text search understands. Internal to this folder.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace pumpwright::store {

// Words counted in a search; later ones are not looked at.
inline constexpr int search_words_max = 16;

// Every word as the beginning of a word, all of them wanted; nothing in the text has a meaning of its own.
// Nothing when there is no letter or digit in it.
std::optional<std::string> search_expression(std::string_view text);

}  // namespace pumpwright::store
