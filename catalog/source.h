// Where a number came from. Every limit, size and coefficient the program shows carries one of these, so that
// the lead hand can see whether a verdict rests on a standard somebody read, on memory, or on a habit of the
// trade.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace pumpwright {

// How the value was obtained, from the strongest to the weakest standing. What each may decide:
//   read             decides a verdict.
//   shop_rule        decides a verdict; the shop answers for it.
//   common_practice  decides once the shop has adopted it (one recorded act); until then it only advises.
//   remembered       never decides a verdict by itself; the verdict is "unproven: limit unconfirmed" until
//   the shop
//                    confirms the value against the document.
enum class Obtained {
  read,             // read in the document named, or in a public restatement of it
  remembered,       // from memory, not compared with the document
  common_practice,  // a habit of the trade with no published source
  shop_rule,        // the shop's own rule
};

struct Source {
  std::string document;  // title of the document, or what it is ("a motor maker's chart restating NEMA MG 1")
  std::string edition;   // year, edition or revision; empty when the document has none
  std::string clause;    // clause, table or page; empty when the document has none
  Obtained obtained = Obtained::remembered;
  std::string note;  // what a reader must know besides, e.g. where sources disagree; may be empty

  bool operator==(const Source&) const = default;
};

// The word used in data files and job files: "read", "remembered", "common-practice", "shop-rule".
std::string_view word_of(Obtained obtained);

// The inverse of word_of; nothing for any other text.
std::optional<Obtained> obtained_from(std::string_view word);

// True when a value so obtained may decide a verdict by itself. `adopted_by_shop` says whether the shop has
// recorded that it adopts (common practice) or has confirmed (remembered) this value.
bool may_decide(Obtained obtained, bool adopted_by_shop);

// One line for a screen or a report: "MG 1, 2011, clause 8.4 (read)".
std::string citation(const Source& source);

}  // namespace pumpwright
