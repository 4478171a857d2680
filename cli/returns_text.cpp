// What `pumpwright returns` tells people: each answer in a plain sentence with its doubt, the figures after
// it.
#include <algorithm>
#include <optional>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "cli/display_text.h"
#include "cli/input_file.h"
#include "cli/returns_report.h"
#include "cli/verdict_word.h"
#include "job/returns_wording.h"

namespace pumpwright {
namespace {

using namespace reliability;
using job::percent_text;
using job::ReturnsFinding;
using job::ReturnsQuestion;
using job::ReturnsRow;
using job::ReturnsWording;
using job::Text;

constexpr std::size_t text_width = 100;

std::string paragraph(const Text& text) {
  return wrapped(text.en, text_width);
}

std::string paragraph(const std::optional<Text>& text) {
  return text ? paragraph(*text) : std::string();
}

std::size_t still_watched(const ReturnsQuestion& q, Time time) {
  return static_cast<std::size_t>(std::count_if(q.table.rows.begin(), q.table.rows.end(),
                                                [&](const ReturnsRow& r) { return r.time >= time; }));
}

std::string curve_text(const ReturnsQuestion& q, const ReturnsFinding& f, const ReturnsWording& w) {
  TextTable table({Align::right, Align::right, Align::left, Align::right});
  table.add({"after", "still out", w.sure().en, "pumps that lasted so long"});
  for (const Time& time : w.round_times()) {
    const CurveStep* step = step_at(f.curve, time);
    const std::string band =
        step == nullptr ? "none came back so far"
        : step->band ? fmt::format("{} to {}", percent_text(step->band->low), percent_text(step->band->high))
                     : "-";
    table.add({w.time(time).en, percent_text(step == nullptr ? 1 : step->surviving), band,
               fmt::format("{}", still_watched(q, time))});
  }
  std::string text = "Still out, as if none were replaced for another reason:\n" + table.text(2);
  return text + paragraph(w.shares());
}

std::string weibull_text(const ReturnsFinding& f, const ReturnsWording& w) {
  if (!f.weibull) return "";
  const auto& sheet = *f.weibull;
  std::string text = paragraph(w.shape());
  TextTable table({Align::left, Align::left, Align::left});
  table.add({"one in ten back by (B10)", w.time(sheet.b10).en,
             w.between(sheet.b10_limits.low, sheet.b10_limits.high).en});
  table.add({"63 % back by (Weibull scale)", w.time(sheet.fit.scale).en,
             w.between(sheet.scale.low, sheet.scale.high).en});
  table.add({"early below 1, late above (Weibull shape)", fmt::format("{:.2f}", sheet.fit.shape),
             w.between(sheet.shape.low, sheet.shape.high).en});
  if (f.threshold)
    table.add({"none back before (threshold)", w.time(f.threshold->threshold).en,
               f.threshold->is_proven ? w.between(f.threshold->low, f.threshold->high).en
                                      : "cannot tell it from zero"});
  text += table.text(2);
  return text + paragraph(w.drawn_on());
}

std::string groups_text(const ReturnsQuestion& q, const ReturnsFinding& f, const ReturnsWording& w) {
  if (!f.groups) return "";
  const auto& sheet = *f.groups;
  TextTable table({Align::left, Align::right, Align::right, Align::right, Align::left});
  table.add({"group", "pumps", "came back", "if all alike", "one return for every"});
  for (std::size_t g = 0; g < sheet.groups.size(); ++g) {
    const auto& rate = sheet.groups[g].rate;
    const auto& counts = sheet.log_rank.groups[g];
    table.add({one_line(sheet.groups[g].name), fmt::format("{}", counts.units),
               fmt::format("{}", counts.returned), fmt::format("{:.1f}", counts.expected), w.every(rate).en});
  }
  return "By " + one_line(q.columns.group.value_or("group")) + ":\n" + table.text(2) + paragraph(w.groups()) +
         paragraph(w.group_curves());
}

std::string change_text(const ReturnsFinding& f, const ReturnsWording& w, bool colour) {
  if (!f.change) return "";
  return fmt::format("{}  {}\n", verdict_word(f.verdict, colour), w.change()->en) +
         paragraph(w.change_ratio()) + paragraph(w.settling()) +
         paragraph(ReturnsWording::what_else_changed());
}

std::string readings_text(const ReturnsQuestion& q, const ReturnsFinding& f, const ReturnsWording& w) {
  if (!f.readings) return "";
  const auto& sheet = *f.readings;
  TextTable table({Align::left, Align::left, Align::right, Align::left, Align::left});
  table.add({"one unit more of", "goes with", "times as often", w.sure().en, "same at all ages"});
  for (std::size_t j = 0; j < sheet.fit.coefficients.size(); ++j) {
    const auto& c = sheet.fit.coefficients[j];
    table.add({one_line(q.columns.covariates[j]), w.reading_goes_with(c).en, fmt::format("{:.3g}", c.ratio),
               fmt::format("{:.3g} to {:.3g}", c.ratio_low, c.ratio_high), w.reading_at_all_ages(j).en});
  }
  std::string text = fmt::format("Readings at the build ({} pumps", sheet.pumps);
  if (sheet.left_out > 0) text += fmt::format("; {} left out, a reading is missing", sheet.left_out);
  text += "):\n" + table.text(2);
  return text + paragraph(w.readings()) + paragraph(w.few_returns()) +
         paragraph(ReturnsWording::not_a_cause());
}

std::string trend_text(const ReturnsFinding& f, const ReturnsWording& w) {
  if (!f.trend) return "";
  const auto& t = *f.trend;
  TextTable table({Align::left, Align::left, Align::left});
  table.add({"less often below 1, more often above", fmt::format("{:.2f}", t.shape),
             w.between(t.shape_low, t.shape_high).en});
  table.add({fmt::format("one return for every, at {} of age", w.seen(t.age)), w.time(t.mean_at_age).en,
             w.between(t.mean_at_age_low, t.mean_at_age_high).en});
  return paragraph(w.trend()) + fmt::format("  {} pumps, {} returns\n", t.pumps, t.returned) + table.text(2);
}

std::string missing_text(const ReturnsQuestion& q, const ReturnsFinding& f) {
  std::string text;
  for (const auto& missing : f.not_computed)
    text +=
        wrapped(fmt::format("Not worked out: {}, because {}.", missing.what.en, missing.why.en), text_width);
  if (!q.table.left_alone.empty())
    text += wrapped(fmt::format("Columns left alone: {}.",
                                one_line(fmt::format("{}", fmt::join(q.table.left_alone, ", ")))),
                    text_width);
  return text;
}

}  // namespace

std::string returns_text(const std::string& file, const ReturnsQuestion& q, const ReturnsFinding& f,
                         bool colour) {
  const ReturnsWording w(q, f);
  std::string text =
      fmt::format("{}: {} times a pump went out; {} came back, {} still running, {} replaced\n",
                  shown_name(file), q.table.rows.size(), f.returned, f.running, f.replaced);
  for (const auto& part :
       {change_text(f, w, colour), paragraph(w.rate()), curve_text(q, f, w), weibull_text(f, w),
        groups_text(q, f, w), readings_text(q, f, w), trend_text(f, w), missing_text(q, f)})
    if (!part.empty()) text += "\n" + part;
  return text;
}

}  // namespace pumpwright
