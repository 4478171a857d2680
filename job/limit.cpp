#include "job/limit.h"

#include <algorithm>
#include <array>

namespace pumpwright::job {
namespace {

struct RankWords {
  Rank rank;
  std::string_view word;
  const char* en;
  const char* es;
};

constexpr std::array<RankWords, 5> ranks{
    {{Rank::job, "job", "this job", "este trabajo"},
     {Rank::customer, "customer", "customer", "cliente"},
     {Rank::family, "family", "pump family", "familia de bombas"},
     {Rank::standard, "standard", "standard", "norma"},
     {Rank::common_practice, "common-practice", "common practice", "práctica común"}}};

}  // namespace

std::string_view word_of(Rank rank) {
  return ranks[static_cast<std::size_t>(rank)].word;
}

std::optional<Rank> rank_from(std::string_view word) {
  for (const auto& r : ranks)
    if (r.word == word) return r.rank;
  return std::nullopt;
}

Text title_of(Rank rank) {
  const RankWords& words = ranks[static_cast<std::size_t>(rank)];
  return {words.en, words.es};
}

Text title_of(Obtained obtained) {
  switch (obtained) {
    case Obtained::read:
      return {"read", "leído"};
    case Obtained::remembered:
      return {"remembered", "de memoria"};
    case Obtained::shop_rule:
      return {"shop rule", "regla del taller"};
    case Obtained::common_practice:
      break;
  }
  return {"common practice, no source", "práctica común, sin fuente"};
}

Text asked_by(const Limit& limit) {
  return limit.asks.empty() ? Text{"to go together", "ir bien juntos"} : limit.asks;
}

void order_by_precedence(std::vector<Limit>& limits) {
  std::stable_sort(limits.begin(), limits.end(),
                   [](const Limit& a, const Limit& b) { return a.rank < b.rank; });
}

}  // namespace pumpwright::job
