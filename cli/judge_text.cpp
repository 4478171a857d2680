// What `pumpwright judge` tells people.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/display_text.h"
#include "cli/job_wording.h"
#include "cli/judge_report.h"
#include "cli/verdict_word.h"
#include "engine/quantity/format.h"

namespace pumpwright {
namespace {

using job::Language;

constexpr std::size_t text_width = 110;

// The digits of the instrument; of a computed value, those its uncertainty deserves.
int decimals_of(const job::JudgedReading& reading, const Unit& unit) {
  if (reading.instrument_graduation_si > 0)
    return decimals_for_graduation(reading.instrument_graduation_si, unit);
  return decimals_for_graduation(reading.standard_uncertainty.value_or(0), unit);
}

bool has_uncertainty(const job::JudgedReading& reading) {
  return reading.standard_uncertainty && *reading.standard_uncertainty > 0;
}

std::string value_text(const job::Check& check, const job::JudgedReading& reading) {
  if (!reading.value) return "";
  const Unit& unit = job::unit_to_show(check, reading);
  if (reading.instrument_graduation_si > 0 || has_uncertainty(reading))
    return format_decimals(*reading.value, unit, decimals_of(reading, unit));
  return format_significant(*reading.value, unit, 3);
}

// One digit more than the value, in the same unit.
std::string uncertainty_text(const job::Check& check, const job::JudgedReading& reading) {
  if (!reading.value || !has_uncertainty(reading)) return "";
  const Unit& unit = job::unit_to_show(check, reading);
  const double step = step_from_si(*reading.standard_uncertainty, unit);
  return fmt::format("u {:.{}f}", step, std::min(decimals_of(reading, unit) + 1, 12));
}

std::string verdict_cell(job::Verdict verdict, Language language, bool colour) {
  return verdict_word(job::word_of(verdict), job::title_of(verdict).in(language), colour);
}

std::string first_limit(const job::Check& check, Language language) {
  if (check.limits.empty())
    return check.kind == job::CheckKind::confirmation ? "" : say(Word::no_limit, language);
  return limit_text(check.limits.front(), language);
}

std::string first_standing(const job::Check& check, Language language) {
  return check.limits.empty() ? "" : standing_text(check.limits.front(), language);
}

// Why it is not a plain pass, where the limit stands, and what would settle it.
std::string notes_text(const job::Check& check, const job::JudgedReading& reading, Language language) {
  std::string notes;
  const auto add = [&notes](const std::string& text) { notes += wrapped(text, text_width, 10); };
  if (!reading.value && !reading.as_written.empty()) add(reading.as_written);
  if (reading.verdict != job::Verdict::pass) {
    add(job::title_of(reading.reason).in(language));
    if (!check.limits.empty())
      add(say(Word::source, language) + ": " + citation(check.limits.front().source));
  }
  if (reading.settle && !reading.settle->text.empty())
    add(say(Word::settle, language) + ": " + reading.settle->text.in(language));
  for (const auto& remark : reading.remarks)
    add(remark.in(language));
  if (reading.verdict == job::Verdict::fail) add(check.if_it_fails.in(language));
  return notes;
}

// Rows of the table and, for each, the lines that stand below it.
struct VerdictTable {
  TextTable table{{Align::left, Align::left, Align::right, Align::left, Align::left, Align::left}};
  std::vector<std::string> below;

  void add(std::vector<std::string> cells, std::string notes) {
    table.add(std::move(cells));
    below.push_back(std::move(notes));
  }
};

void add_check(VerdictTable& rows, const job::Check& check, const job::CheckFinding& finding,
               Language language, bool colour) {
  if (finding.readings.empty()) {
    rows.add({verdict_cell(finding.verdict, language, colour), check.title.in(language), "", "",
              first_limit(check, language), first_standing(check, language)},
             "");
    return;
  }
  for (const auto& reading : finding.readings)
    rows.add({verdict_cell(reading.verdict, language, colour), check.title.in(language),
              value_text(check, reading), uncertainty_text(check, reading), first_limit(check, language),
              first_standing(check, language)},
             notes_text(check, reading, language));
}

std::string verdicts_text(const JobSession& session, const job::Judgement& judgement, Language language,
                          bool colour) {
  VerdictTable rows;
  std::vector<std::pair<std::size_t, std::string>> headings;  // before row …
  std::optional<job::Stage> stage;
  for (const auto& step : session.snapshot.plan.steps)
    for (const auto& check : step.checks) {
      if (stage != step.stage)
        headings.emplace_back(rows.below.size(), job::title_of(step.stage).in(language));
      stage = step.stage;
      add_check(rows, check, *judgement.find(check.id), language, colour);
    }
  std::string text;
  const auto lines = rows.table.lines(2);
  auto heading = headings.begin();
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (heading != headings.end() && heading->first == i) text += "\n" + (heading++)->second + "\n";
    text += lines[i] + "\n" + rows.below[i];
  }
  return text;
}

std::string counts_text(const job::Judgement& j, Language language, bool colour) {
  using job::Verdict;
  std::vector<std::string> counts;
  for (const auto& [verdict, count] :
       {std::pair(Verdict::pass, j.passed), std::pair(Verdict::fail, j.failed),
        std::pair(Verdict::unproven, j.unproven), std::pair(Verdict::not_taken, j.not_taken)})
    counts.push_back(fmt::format("{} {}", verdict_cell(verdict, language, colour), count));
  return fmt::format("{}", fmt::join(counts, "   "));
}

std::string open_text(const job::Judgement& judgement, Language language) {
  if (judgement.open.empty()) return "";
  std::string text = "\n" + say(Word::open_points, language) + "\n";
  for (const auto& point : judgement.open)
    text += wrapped("- " + point.what.in(language), text_width, 2);
  return text;
}

std::string state_text(const std::optional<CheckState>& state, Language language, bool colour) {
  if (!state) return say(Word::not_in_plan, language);
  return fmt::format("{}, {}{}", verdict_cell(state->verdict, language, colour),
                     job::title_of(state->reason).in(language),
                     state->limit.empty() ? "" : " (" + state->limit + ")");
}

std::string again_text(const JudgedAgain& again, Language language, bool colour) {
  std::string text = fmt::format("\n{} ({}, {})\n", say(Word::judged_again, language),
                                 again.catalog_digest.substr(0, 12), again.program);
  if (!again.refused.empty()) return text + wrapped(again.refused, text_width, 2);
  if (again.changes.empty()) return text + say(Word::nothing_changed, language) + "\n";
  text += say(Word::changed, language) + "\n";
  for (const auto& change : again.changes)
    text += fmt::format("  {}\n      {}\n    → {}\n", change.check, state_text(change.was, language, colour),
                        state_text(change.now, language, colour));
  return text;
}

}  // namespace

std::string judge_text(const JobSession& session, const JobVerdict& verdict, Language language, bool colour) {
  const auto& header = session.file.header;
  std::string text = fmt::format("{}: {}, {}\n{} ({}, {})\n\n{}\n", one_line(header.number),
                                 one_line(header.pump), one_line(header.customer),
                                 say(session.frozen ? Word::frozen_snapshot : Word::nothing_frozen, language),
                                 session.snapshot.catalog_digest.substr(0, 12), session.snapshot.program,
                                 counts_text(verdict.judgement, language, colour));
  text += verdicts_text(session, verdict.judgement, language, colour);
  text += open_text(verdict.judgement, language);
  if (verdict.again) text += again_text(*verdict.again, language, colour);
  return text;
}

}  // namespace pumpwright
