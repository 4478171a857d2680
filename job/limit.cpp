#include "job/limit.h"

#include <algorithm>
#include <array>
#include <utility>

namespace pumpwright::job {
namespace {

constexpr std::array<std::pair<Rank, std::string_view>, 5> rank_words{
    {{Rank::job, "job"},
     {Rank::customer, "customer"},
     {Rank::family, "family"},
     {Rank::standard, "standard"},
     {Rank::common_practice, "common-practice"}}};

}  // namespace

std::string_view word_of(Rank rank) {
  for (const auto& [value, word] : rank_words)
    if (value == rank) return word;
  return "";
}

std::optional<Rank> rank_from(std::string_view word) {
  for (const auto& [value, known] : rank_words)
    if (known == word) return value;
  return std::nullopt;
}

void order_by_precedence(std::vector<Limit>& limits) {
  std::stable_sort(limits.begin(), limits.end(),
                   [](const Limit& a, const Limit& b) { return a.rank < b.rank; });
}

}  // namespace pumpwright::job
