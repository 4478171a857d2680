// What `pumpwright stack` prints, for people and as JSON.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/display_text.h"
#include "cli/input_file.h"
#include "cli/json_values.h"
#include "cli/stack_question.h"
#include "cli/verdict_word.h"
#include "engine/quantity/format.h"

namespace pumpwright {
namespace {

// The unit most links are written in, with one more decimal than the finest of them.
struct Shown {
  const Unit* unit = nullptr;
  int decimals = 0;

  std::string length(Length l, Sign sign = Sign::when_negative) const {
    return format_decimals(l, *unit, decimals, sign);
  }
};

Shown shown_of(const ChainFile& file) {
  Shown shown{.unit = file.nominals.front().unit};
  double finest = file.nominals.front().last_place_si;
  for (const auto& link : file.chain.links)
    for (const double tolerance_m : {std::abs(link.lower_deviation.value()), link.upper_deviation.value()})
      if (tolerance_m > 0) finest = std::min(finest, tolerance_m);
  const double in_unit = step_from_si(finest, *shown.unit);
  shown.decimals = std::clamp(static_cast<int>(std::ceil(-std::log10(in_unit))) + 1, 0, 10);
  return shown;
}

std::string percent(double fraction, int decimals) {
  return fmt::format("{:.{}f} %", 100 * fraction, decimals);
}

std::string share_of(const StackFinding& f, std::size_t link) {
  return f.closed_form.share.empty() ? "-" : percent(f.closed_form.share[link].fraction, 1);
}

std::string links_text(const StackQuestion& q, const StackFinding& f, const Shown& shown) {
  TextTable table(
      {Align::left, Align::right, Align::right, Align::right, Align::right, Align::left, Align::right});
  table.add({"link", "times", "nominal", "lower", "upper", "spread", "share"});
  for (std::size_t i = 0; i < q.chain.chain.links.size(); ++i) {
    const auto& link = q.chain.chain.links[i];
    table.add({one_line(link.name), fmt::format("{:+g}", link.coefficient), shown.length(link.nominal),
               shown.length(link.lower_deviation, Sign::always),
               shown.length(link.upper_deviation, Sign::always), word_for(link.spread), share_of(f, i)});
  }
  return table.text();
}

std::string limits_text(const ChainFile& file) {
  if (!file.lower_limit) return fmt::format("at most {}", file.upper_limit->text);
  if (!file.upper_limit) return fmt::format("at least {}", file.lower_limit->text);
  return fmt::format("{} to {}", file.lower_limit->text, file.upper_limit->text);
}

std::string reason_text(const StackVerdict& v) {
  if (v.reason == "worst-case-inside") return "even the worst case keeps to the limits";
  if (v.reason == "enough-inside") return "enough builds keep to the limits";
  if (v.reason == "too-few-inside") return "too few builds keep to the limits";
  return "the sample is too small to tell; more --samples would settle it";
}

std::string verdict_text(const StackQuestion& q, const StackFinding& f, bool colour) {
  const auto& v = f.verdict;
  if (v.word.empty()) return "No limits in the file: nothing is judged.\n";
  TextTable table({Align::left, Align::left});
  table.add({verdict_word(v.word, colour), reason_text(v)});
  table.add({"limits", limits_text(q.chain)});
  std::string inside = percent(v.inside, 4);
  inside += v.standard_error > 0 ? fmt::format(" (sampled, standard error {})", percent(v.standard_error, 4))
                                 : std::string(" (exact)");
  table.add({"inside", inside + fmt::format(", wanted {:g} %", 100 * q.chain.wanted_inside)});
  return table.text();
}

std::string figures_text(const StackFinding& f, const Shown& shown) {
  const auto& a = f.closed_form;
  const auto& s = f.simulation;
  const auto range = [&](Length from, Length to) {
    return fmt::format("{} to {}", shown.length(from), shown.length(to));
  };
  TextTable table({Align::left, Align::left});
  table.add({"nominal", shown.length(a.nominal)});
  table.add({"worst case", range(a.worst_min, a.worst_max)});
  table.add({"root sum of squares", range(a.mean - a.rss_half_width, a.mean + a.rss_half_width)});
  table.add({"99.73 % of samples", range(s.q00135, s.q99865)});
  table.add({"95 % of samples", range(s.q025, s.q975)});
  table.add({"mean", shown.length(s.mean)});
  table.add({"standard deviation", shown.length(s.sd)});
  return table.text();
}

OrderedJson share_json(const ChainAnalysis& a) {
  auto list = OrderedJson::array();
  for (const auto& share : a.share)
    list.push_back({{"name", share.name}, {"fraction", json_number(share.fraction)}});
  return list;
}

OrderedJson limits_json(const ChainFile& file) {
  if (!file.lower_limit && !file.upper_limit) return nullptr;
  return {{"lower_m", json_metres(file.chain.lower_limit)},
          {"upper_m", json_metres(file.chain.upper_limit)},
          {"inside", file.wanted_inside}};
}

OrderedJson word_or_null(const std::string& word) {
  return word.empty() ? OrderedJson(nullptr) : OrderedJson(word);
}

}  // namespace

std::string stack_text(const StackQuestion& q, const StackFinding& f, bool colour) {
  const Shown shown = shown_of(q.chain);
  return fmt::format("{}: {}, {} links, {} samples, seed {}\n\n{}\n{}\n{}", shown_name(q.file),
                     one_line(q.chain.name), q.chain.chain.links.size(), f.simulation.samples,
                     f.simulation.seed, verdict_text(q, f, colour), figures_text(f, shown),
                     links_text(q, f, shown));
}

std::string stack_json(const StackQuestion& q, const StackFinding& f) {
  const auto& a = f.closed_form;
  const auto& s = f.simulation;
  OrderedJson json = {{"file", q.file},
                      {"name", q.chain.name},
                      {"samples", s.samples},
                      {"seed", s.seed},
                      {"nominal_m", json_metres(a.nominal)},
                      {"worst_min_m", json_metres(a.worst_min)},
                      {"worst_max_m", json_metres(a.worst_max)},
                      {"rss_m", json_metres(a.rss_half_width)},
                      {"mean_m", json_metres(s.mean)},
                      {"sd_m", json_metres(s.sd)},
                      {"exact_mean_m", json_metres(a.mean)},
                      {"exact_sd_m", json_metres(a.sd)},
                      {"minimum_m", json_metres(s.minimum)},
                      {"q00135_m", json_metres(s.q00135)},
                      {"q025_m", json_metres(s.q025)},
                      {"median_m", json_metres(s.median)},
                      {"q975_m", json_metres(s.q975)},
                      {"q99865_m", json_metres(s.q99865)},
                      {"maximum_m", json_metres(s.maximum)},
                      {"share", share_json(a)},
                      {"limits", limits_json(q.chain)}};
  const auto& p = s.probability_inside;
  json["probability_inside"] = p ? json_number(p->value) : OrderedJson(nullptr);
  json["probability_inside_standard_error"] = p ? json_number(p->standard_error) : OrderedJson(nullptr);
  json["exact_probability_inside"] = json_number(a.exact_probability_inside);
  json["verdict"] = word_or_null(f.verdict.word);
  json["reason"] = word_or_null(f.verdict.reason);
  return json_text(json);
}

}  // namespace pumpwright
