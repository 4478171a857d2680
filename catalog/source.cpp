#include "catalog/source.h"

#include <algorithm>
#include <array>
#include <utility>

namespace pumpwright {
namespace {

using Word = std::pair<Obtained, std::string_view>;
constexpr std::array<Word, 4> words{{{Obtained::read, "read"},
                                     {Obtained::remembered, "remembered"},
                                     {Obtained::common_practice, "common-practice"},
                                     {Obtained::shop_rule, "shop-rule"}}};

}  // namespace

std::string_view word_of(Obtained obtained) {
  const auto* found = std::ranges::find(words, obtained, &Word::first);
  return found == words.end() ? std::string_view() : found->second;
}

std::optional<Obtained> obtained_from(std::string_view word) {
  const auto* found = std::ranges::find(words, word, &Word::second);
  if (found == words.end()) return std::nullopt;
  return found->first;
}

bool may_decide(Obtained obtained, bool adopted_by_shop) {
  return obtained == Obtained::read || obtained == Obtained::shop_rule || adopted_by_shop;
}

std::string citation(const Source& source) {
  std::string line = source.document;
  if (!source.edition.empty()) line += ", " + source.edition;
  if (!source.clause.empty()) line += ", " + source.clause;
  line += " (";
  line += word_of(source.obtained);
  return line + ")";
}

}  // namespace pumpwright
