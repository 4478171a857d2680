#include "cli/verdict_word.h"

#include <algorithm>

#include <fmt/format.h>

namespace pumpwright {
namespace {

// Bold; blue rather than green for a pass, so that it stays apart from the red of a fail for every eye.
std::string_view colour_of(std::string_view code) {
  if (code == "pass") return "1;34";
  if (code == "fail") return "1;31";
  if (code == "unproven") return "1;33";
  return "1";
}

char capital(char c) {
  return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
}

}  // namespace

std::string verdict_word(std::string_view code, bool colour) {
  std::string word(code);
  std::replace(word.begin(), word.end(), '-', ' ');
  return verdict_word(code, word, colour);
}

std::string verdict_word(std::string_view code, const std::string& word, bool colour) {
  std::string capitals = word;
  std::transform(capitals.begin(), capitals.end(), capitals.begin(), capital);
  return colour ? fmt::format("\x1b[{}m{}\x1b[0m", colour_of(code), capitals) : capitals;
}

}  // namespace pumpwright
