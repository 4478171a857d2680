#include "cli/plan_report.h"

#include <fmt/format.h>

#include "cli/display_text.h"
#include "cli/input_file.h"
#include "cli/job_wording.h"
#include "cli/json_values.h"
#include "job/plan_json.h"

namespace pumpwright {
namespace {

using job::Language;

constexpr std::size_t text_width = 100;

bool decides(const job::Limit& limit, const job::Snapshot& snapshot) {
  return may_decide(limit.source.obtained, snapshot.adoptions.count(limit.id) != 0);
}

// "decides", "standard (does not decide)": what part the limit at `index` plays.
std::string part_of(const job::Check& check, std::size_t index, const job::Snapshot& snapshot,
                    Language language) {
  if (index > 0) return "";
  return say(decides(check.limits[index], snapshot) ? Word::decides : Word::does_not_decide, language);
}

std::string limits_text(const job::Check& check, const job::Snapshot& snapshot, Language language) {
  TextTable table({Align::left, Align::left, Align::left, Align::left, Align::left});
  for (std::size_t i = 0; i < check.limits.size(); ++i) {
    const auto& limit = check.limits[i];
    table.add({limit_text(limit, language), rule_text(limit, language), standing_text(limit, language),
               part_of(check, i, snapshot, language), citation(limit.source)});
  }
  return table.text(8);
}

std::string check_text(const job::Check& check, const job::Snapshot& snapshot, Language language) {
  std::string text = fmt::format("    [ ] {}: {}", check.id, check.title.in(language));
  text += check.place.empty() ? "" : fmt::format(" ({})", check.place);
  if (!check.instrument.empty() && check.instrument != "none")
    text += fmt::format(", {} {}", say(Word::instrument, language), check.instrument);
  text += "\n" + limits_text(check, snapshot, language);
  if (!check.if_it_fails.empty())
    text += wrapped(say(Word::if_it_fails, language) + ": " + check.if_it_fails.in(language), text_width, 8);
  return text;
}

std::string step_text(const job::Step& step, const job::Snapshot& snapshot, Language language) {
  std::string text = fmt::format("  {}: {}\n", step.id, step.title.in(language));
  text += wrapped(step.what_to_do.in(language), text_width, 4);
  if (!step.caution.empty())
    text += wrapped("! " + say(Word::caution, language) + ": " + step.caution.in(language), text_width, 4);
  if (step.hold) text += "    " + say(Word::hold_point, language) + "\n";
  text += wrapped(say(Word::source, language) + ": " + citation(step.source), text_width, 4);
  for (const auto& check : step.checks)
    text += check_text(check, snapshot, language);
  return text + "\n";
}

}  // namespace

std::string plan_text(const JobSession& session, Language language) {
  const auto& header = session.file.header;
  std::string text = fmt::format("{}: {}, {}\n{} ({}, {})\n", one_line(header.number), one_line(header.pump),
                                 one_line(header.customer),
                                 say(session.frozen ? Word::frozen_snapshot : Word::derived_from, language),
                                 session.snapshot.catalog_digest.substr(0, 12), session.snapshot.program);
  std::optional<job::Stage> stage;
  for (const auto& step : session.snapshot.plan.steps) {
    if (stage != step.stage) text += "\n" + job::title_of(step.stage).in(language) + "\n\n";
    stage = step.stage;
    text += step_text(step, session.snapshot, language);
  }
  return text;
}

std::string plan_json(const JobSession& session) {
  OrderedJson json = {{"file", session.path},
                      {"job", session.file.header.number},
                      {"frozen", session.frozen},
                      {"catalog_digest", session.snapshot.catalog_digest},
                      {"program", session.snapshot.program}};
  json.update(OrderedJson(job::encode_plan(session.snapshot.plan)));
  return json_text(json);
}

}  // namespace pumpwright
