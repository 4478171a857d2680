// What `pumpwright returns` tells people: each answer in a plain sentence with its doubt, the figures after
// it.
#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "cli/display_text.h"
#include "cli/input_file.h"
#include "cli/returns_question.h"
#include "cli/verdict_word.h"
#include "engine/quantity/format.h"

namespace pumpwright {
namespace {

using namespace reliability;

constexpr std::size_t text_width = 100;
constexpr int time_digits = 3;
constexpr int horizons = 5;

std::string paragraph(const std::string& text) {
  return wrapped(text, text_width);
}

std::string percent(double part) {
  return fmt::format("{:.{}f} %", 100 * part, part > 0 && part < 0.01 ? 1 : 0);
}

// Times in the unit of the table, figures as certain as they are.
class Writer {
 public:
  explicit Writer(const ReturnsQuestion& q) : q_(q), unit_(*q.table.rows.front().time.unit) {}

  // Rounded, as computed figures deserve.
  std::string time(Time t) const {
    if (std::isinf(t.value())) return "no end";
    if (t.value() == 0) return "0 " + std::string(unit_.symbol);
    const double value = in_unit(t);
    const double last = std::pow(10.0, std::floor(std::log10(std::fabs(value))) - (time_digits - 1));
    return format_significant(from_unit(std::round(value / last) * last), unit_, time_digits);
  }
  // As it stood in the list.
  std::string seen(Time t) const { return format_significant(t, unit_, time_digits); }
  std::string sure() const { return fmt::format("{} sure", percent(q_.confidence)); }
  // "(95 % sure: 900 h to 2400 h)"
  std::string between(Time low, Time high) const {
    const std::string upper = std::isinf(high.value()) ? "no known end" : time(high);
    return fmt::format("({}: {} to {})", sure(), time(low), upper);
  }
  std::string between(double low, double high) const {
    const std::string upper = std::isinf(high) ? std::string("no known end") : fmt::format("{:.2f}", high);
    return fmt::format("({}: {:.2f} to {})", sure(), low, upper);
  }
  const char* clock() const { return q_.is_calendar ? "on the calendar" : "of running"; }
  double in_unit(Time t) const { return step_from_si(t.value(), unit_); }
  Time from_unit(double value) const { return seconds(value / step_from_si(1, unit_)); }

 private:
  const ReturnsQuestion& q_;
  const Unit& unit_;
};

// How often chance alone gives as much, in words of the bench.
std::string chance(double p) {
  if (p < 0.001) return "chance alone would do this less than once in 1000 such lists";
  if (p < 0.095)
    return fmt::format("chance alone would do this about {:.0f} times in 1000 such lists", 1000 * p);
  return fmt::format("chance alone would do this about {:.0f} times in 100 such lists", 100 * p);
}

bool is_proven(const ReturnsQuestion& q, double p) {
  return p < 1 - q.confidence;
}

std::string rate_text(const ReturnsFinding& f, const Writer& w) {
  if (!f.rate.mean)
    return paragraph(
        fmt::format("How often: none came back in {} {}. If they come at a steady rate, one return "
                    "takes at least {} on average ({}).",
                    w.time(f.rate.total), w.clock(), w.time(f.rate.low), w.sure()));
  return paragraph(
      fmt::format("How often: one return for every {} {}, all pumps together {}. That is an average; "
                  "whether returns come early or late is said below.",
                  w.time(*f.rate.mean), w.clock(), w.between(f.rate.low, *f.rate.high)));
}

// Round times that cut the span seen into five to ten.
std::vector<Time> round_times(Time last, const Writer& w) {
  const double raw = w.in_unit(last) / horizons;
  const double decade = std::pow(10.0, std::floor(std::log10(raw)));
  const double step = decade * (raw >= 5 * decade ? 5 : raw >= 2 * decade ? 2 : 1);
  std::vector<Time> list;
  for (int i = 1; w.from_unit(i * step) <= last; ++i)
    list.push_back(w.from_unit(i * step));
  return list;
}

std::size_t still_watched(const ReturnsQuestion& q, Time time) {
  return static_cast<std::size_t>(
      std::count_if(q.table.rows.begin(), q.table.rows.end(),
                    [&](const ReturnsRow& r) { return r.time.si >= time.value(); }));
}

std::string curve_text(const ReturnsQuestion& q, const ReturnsFinding& f, const Writer& w) {
  TextTable table({Align::right, Align::right, Align::left, Align::right});
  table.add({"after", "still out", w.sure(), "pumps that lasted so long"});
  for (const Time& time : round_times(f.curve.last, w)) {
    const CurveStep* step = step_at(f.curve, time);
    const std::string band =
        step == nullptr ? "none came back so far"
        : step->band    ? fmt::format("{} to {}", percent(step->band->low), percent(step->band->high))
                        : "-";
    table.add({w.time(time), percent(step == nullptr ? 1 : step->surviving), band,
               fmt::format("{}", still_watched(q, time))});
  }
  std::string text = "Still out, as if none were replaced for another reason:\n" + table.text(2);
  if (f.replaced > 0 && !f.incidence.empty()) {
    const auto& end = f.incidence.back();
    text += paragraph(fmt::format("Of all that went out, {} have come back and {} were replaced by {}.",
                                  percent(end.returned), percent(end.replaced), w.seen(end.time)));
  }
  return text;
}

std::string shape_text(const ReturnsQuestion& q, const WeibullSheet& sheet) {
  if (sheet.shape.high < 1)
    return "Returns come EARLY and get rarer with age. That points to the bench: how it was built, fitted or "
           "started, not to wear.";
  if (sheet.shape.low > 1)
    return "Returns come LATE and get more frequent with age. That points to wear: parts that reach their "
           "end "
           "in this service.";
  return fmt::format("Early, steady or late: CANNOT TELL. A steady rate, by chance, fits these {} rows too.",
                     q.table.rows.size());
}

std::string weibull_text(const ReturnsQuestion& q, const ReturnsFinding& f, const Writer& w) {
  if (!f.weibull) return "";
  const auto& sheet = *f.weibull;
  std::string text = paragraph(shape_text(q, sheet));
  TextTable table({Align::left, Align::left, Align::left});
  table.add({"one in ten back by (B10)", w.time(sheet.b10),
             w.between(sheet.b10_limits.low, sheet.b10_limits.high)});
  table.add({"63 % back by (Weibull scale)", w.time(sheet.fit.scale),
             w.between(sheet.scale.low, sheet.scale.high)});
  table.add({"early below 1, late above (Weibull shape)", fmt::format("{:.2f}", sheet.fit.shape),
             w.between(sheet.shape.low, sheet.shape.high)});
  if (f.threshold)
    table.add({"none back before (threshold)", w.time(f.threshold->threshold),
               f.threshold->is_proven ? w.between(f.threshold->low, f.threshold->high)
                                      : "cannot tell it from zero"});
  text += table.text(2);
  if (sheet.b10 > f.curve.last || sheet.fit.scale > f.curve.last)
    text += paragraph(fmt::format("Times beyond {} were not seen; there the curve is only drawn on.",
                                  w.seen(f.curve.last)));
  return text;
}

std::string groups_text(const ReturnsQuestion& q, const ReturnsFinding& f, const Writer& w) {
  if (!f.groups) return "";
  const auto& sheet = *f.groups;
  TextTable table({Align::left, Align::right, Align::right, Align::right, Align::left});
  table.add({"group", "pumps", "came back", "if all alike", "one return for every"});
  for (std::size_t g = 0; g < sheet.groups.size(); ++g) {
    const auto& rate = sheet.groups[g].rate;
    const auto& counts = sheet.log_rank.groups[g];
    const std::string every = rate.mean ? w.time(*rate.mean) + " " + w.between(rate.low, *rate.high)
                                        : fmt::format("at least {} ({})", w.time(rate.low), w.sure());
    table.add({one_line(sheet.groups[g].name), fmt::format("{}", counts.units),
               fmt::format("{}", counts.returned), fmt::format("{:.1f}", counts.expected), every});
  }
  const double p = sheet.log_rank.test.p;
  const std::string said =
      is_proven(q, p) ? "The groups come back DIFFERENTLY: " : "Whether the groups differ: CANNOT TELL; ";
  std::string text = "By " + one_line(q.columns.group.value_or("group")) + ":\n" + table.text(2) +
                     paragraph(said + chance(p) + " (log-rank test).");
  if (sheet.weibull)
    text += paragraph(fmt::format("A curve of its own for each group (Weibull, likelihood ratio): {}.",
                                  chance(sheet.weibull->p)));
  return text;
}

std::string change_sentence(const BeforeAfter& change) {
  switch (change.reason) {
    case ChangeReason::interval_below_one:
      return "the change goes with fewer returns";
    case ChangeReason::interval_above_one:
      return "the change goes with more returns";
    case ChangeReason::one_in_the_interval:
      return "cannot tell; these pumps could have done the same without the change";
    case ChangeReason::too_few_returns:
      break;
  }
  return fmt::format("cannot tell; fewer than {} returns in all", returns_to_compare);
}

std::string times_text(double ratio) {
  if (std::isinf(ratio)) return "no return before, so no figure";
  return fmt::format("{:.2f} times as often after as before", ratio);
}

std::string settle_text(const Settling& s) {
  std::string text = fmt::format("To prove a change to {:g} times as often, {:.0f} returns are needed in all",
                                 s.ratio, std::ceil(s.returns_needed));
  if (s.returns_more == 0) return text + "; there are enough.";
  text += fmt::format("; {} more", s.returns_more);
  if (s.pumps_more)
    text += fmt::format(", about {} more pumps if they come back as often and are watched as long",
                        *s.pumps_more);
  return text + fmt::format(". With those seen so far the chance to prove it was {}.", percent(s.power));
}

std::string change_text(const ReturnsFinding& f, const Writer& w, bool colour) {
  if (!f.change) return "";
  const auto& change = *f.change;
  std::string text = fmt::format("{}  {}\n", verdict_word(f.verdict, colour), change_sentence(change));
  text +=
      paragraph(fmt::format("Rate of return: {} {}; {} (log-rank test).", times_text(change.ratio),
                            w.between(change.ratio_low, change.ratio_high), chance(change.log_rank.test.p)));
  if (change.change == Change::cannot_tell) text += paragraph(settle_text(change.settling));
  text += paragraph(
      "Whatever else changed at the same time is in this figure too: season, customers, suppliers. Where it "
      "can be, build both ways side by side.");
  return text;
}

std::string ratio_word(const ReturnsQuestion& q, const CoxCoefficient& c) {
  if (!is_proven(q, c.p)) return "cannot tell";
  return c.ratio > 1 ? "more returns" : "fewer returns";
}

std::string readings_text(const ReturnsQuestion& q, const ReturnsFinding& f, const Writer& w) {
  if (!f.readings) return "";
  const auto& sheet = *f.readings;
  TextTable table({Align::left, Align::left, Align::right, Align::left, Align::left});
  table.add({"one unit more of", "goes with", "times as often", w.sure(), "same at all ages"});
  for (std::size_t j = 0; j < sheet.fit.coefficients.size(); ++j) {
    const auto& c = sheet.fit.coefficients[j];
    const std::string steady = !sheet.proportional                               ? "not tested"
                               : is_proven(q, sheet.proportional->readings[j].p) ? "NO: changes with age"
                                                                                 : "nothing against it";
    table.add({one_line(q.columns.covariates[j]), ratio_word(q, c), fmt::format("{:.3g}", c.ratio),
               fmt::format("{:.3g} to {:.3g}", c.ratio_low, c.ratio_high), steady});
  }
  std::string text = fmt::format("Readings at the build ({} pumps", sheet.pumps);
  if (sheet.left_out > 0) text += fmt::format("; {} left out, a reading is missing", sheet.left_out);
  text += "):\n" + table.text(2);
  text += paragraph(fmt::format("All readings together: {} (proportional hazards, likelihood ratio).",
                                chance(sheet.fit.ratio_test.p)));
  if (sheet.fit.returned < 10 * sheet.fit.coefficients.size())
    text += paragraph(fmt::format("Only {} returns for {} readings; below ten a reading such figures wander.",
                                  sheet.fit.returned, sheet.fit.coefficients.size()));
  return text + paragraph("A reading that goes with returns need not be their cause.");
}

std::string trend_text(const ReturnsQuestion& q, const ReturnsFinding& f, const Writer& w) {
  if (!f.trend) return "";
  const auto& t = *f.trend;
  const std::string said = !is_proven(q, t.p)
                               ? "Whether the same pump comes back more often as it ages: CANNOT TELL; "
                           : t.shape > 1 ? "The same pump comes back MORE AND MORE often as it ages: "
                                         : "The same pump comes back LESS AND LESS often as it ages: ";
  std::string text = paragraph(said + chance(t.p) + ".");
  TextTable table({Align::left, Align::left, Align::left});
  table.add({"less often below 1, more often above", fmt::format("{:.2f}", t.shape),
             w.between(t.shape_low, t.shape_high)});
  table.add({fmt::format("one return for every, at {} of age", w.seen(t.age)), w.time(t.mean_at_age),
             w.between(t.mean_at_age_low, t.mean_at_age_high)});
  return text + fmt::format("  {} pumps, {} returns\n", t.pumps, t.returned) + table.text(2);
}

std::string missing_text(const ReturnsQuestion& q, const ReturnsFinding& f) {
  std::string text;
  for (const auto& missing : f.not_computed)
    text += paragraph(fmt::format("Not worked out: {}, because {}.", missing.what, missing.why));
  if (!q.table.left_alone.empty())
    text += paragraph(fmt::format("Columns left alone: {}.",
                                  one_line(fmt::format("{}", fmt::join(q.table.left_alone, ", ")))));
  return text;
}

}  // namespace

std::string returns_text(const ReturnsQuestion& q, const ReturnsFinding& f, bool colour) {
  const Writer w(q);
  std::string text =
      fmt::format("{}: {} times a pump went out; {} came back, {} still running, {} replaced\n",
                  shown_name(q.file), q.table.rows.size(), f.returned, f.running, f.replaced);
  for (const auto& part :
       {change_text(f, w, colour), rate_text(f, w), curve_text(q, f, w), weibull_text(q, f, w),
        groups_text(q, f, w), readings_text(q, f, w), trend_text(q, f, w), missing_text(q, f)})
    if (!part.empty()) text += "\n" + part;
  return text;
}

}  // namespace pumpwright
