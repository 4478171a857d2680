// The words around a plan and a judgement on a terminal, in every language; what the checks say is data.
#pragma once

#include <string>

#include "job/judgement.h"
#include "job/plan.h"
#include "job/text.h"

namespace pumpwright {

enum class Word {
  at_least,
  at_most,
  caution,
  changed,
  decides,
  derived_from,
  does_not_decide,
  frozen_snapshot,
  guarded,
  hold_point,
  if_it_fails,
  instrument,
  judged_again,
  nothing_changed,
  nothing_frozen,
  not_in_plan,
  no_limit,
  open_points,
  plan_written,
  report_written,
  drawings_written,
  readings_written,
  settle,
  simple,
  source,
};

const std::string& say(Word word, job::Language language);

// "at most 2 thou", "1.7495 in … 1.7500 in", as written.
std::string limit_text(const job::Limit& limit, job::Language language);

// "guarded", "simple, 4 graduations".
std::string rule_text(const job::Limit& limit, job::Language language);

// Who set a limit and how it is known: "standard, remembered"; once where both words are the same.
std::string standing_text(const job::Limit& limit, job::Language language);

// The language of `--language`: "en" or "es".
job::Language language_of(const std::string& word);

}  // namespace pumpwright
