// Verdicts as the first thing the eye meets: a word in capitals, in bold and colour where the terminal has
// it. The word alone carries the meaning; colour only helps.
#pragma once

#include <string>
#include <string_view>

namespace pumpwright {

// `code` is "pass", "fail", "unproven" or "not-taken": gives "PASS", "FAIL", "UNPROVEN", "NOT TAKEN".
std::string verdict_word(std::string_view code, bool colour);

// The same with a word of another language.
std::string verdict_word(std::string_view code, const std::string& word, bool colour);

}  // namespace pumpwright
