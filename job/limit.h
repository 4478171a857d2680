// Limits: what a check's value may be, who says so, and how a value close to it is judged.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "catalog/source.h"
#include "engine/quantity/parse.h"
#include "job/text.h"

namespace pumpwright::job {

// Who set the limit, strongest first: the order of precedence.
enum class Rank { job, customer, family, standard, common_practice };

std::string_view word_of(Rank rank);  // "job", "customer", "family", "standard", "common-practice"
std::optional<Rank> rank_from(std::string_view word);
Text title_of(Rank rank);
Text title_of(Obtained obtained);

// How a value near the limit is judged (engine/metrology/decision.h).
//   guarded: conformity must be proven against the measurement's uncertainty (ISO 14253-1).
//   simple:  the value decides as read, provided at least `ratio` graduations of the instrument fit into the
//   limit's
//            width (upper − lower, or the one bound's distance from zero).
enum class Rule { guarded, simple };

struct DecisionRule {
  Rule rule = Rule::guarded;
  double ratio = 4;  // used by `simple` only
};

struct Limit {
  std::string id;  // "seal-limits/impeller-sweep": what an adoption or a confirmation names
  Rank rank = Rank::standard;
  // Neither bound: `asks` says what is asked; that the two things go together when it is empty.
  std::optional<Written> lower;
  std::optional<Written> upper;
  DecisionRule decision;
  Source source;
  Text asks;
};

// What a limit without bounds asks, in words.
Text asked_by(const Limit& limit);

// Puts the limit that decides first: by rank; within a rank the order stays, so the one the data prefer comes
// first. The others are kept and shown.
void order_by_precedence(std::vector<Limit>& limits);

}  // namespace pumpwright::job
