#include "server/returns_view.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "engine/quantity/bad_input.h"
#include "job/returns_wording.h"
#include "server/amount_json.h"

namespace pumpwright::server {
namespace {

using nlohmann::json;
using namespace reliability;
using job::ReturnsFinding;
using job::ReturnsQuestion;
using job::ReturnsWording;

constexpr double seconds_per_day = 86400;
constexpr std::size_t curves_max = 6;
constexpr std::size_t points_max = 240;  // of a curve: more than a tablet shows

// A reading "one unit more" of which is one thou, said for a hundredth of a millimetre.
constexpr double thou_per_hundredth_mm = 0.01 / 0.0254;

double days(Time time) {
  return time.value() / seconds_per_day;
}

json or_null(const std::optional<job::Text>& text) {
  return text ? text_json(*text) : json(nullptr);
}

// Enough of the steps to draw the curve to the width of a screen; the last of each stretch, so that no point
// lies beside the curve.
json points_of(const SurvivalCurve& curve) {
  json points = json::array();
  const double stretch = days(curve.last) / static_cast<double>(points_max);
  for (std::size_t i = 0; i < curve.steps.size(); ++i) {
    const CurveStep& step = curve.steps[i];
    const bool last_of_stretch =
        i + 1 == curve.steps.size() ||
        std::floor(days(step.time) / stretch) != std::floor(days(curve.steps[i + 1].time) / stretch);
    if (!last_of_stretch) continue;
    points.push_back({days(step.time), step.surviving, step.band ? json(step.band->low) : json(nullptr),
                      step.band ? json(step.band->high) : json(nullptr)});
  }
  return points;
}

json curve_json(const std::string& name, const SurvivalCurve& curve) {
  return {{"name", name}, {"points", points_of(curve)}, {"last_days", days(curve.last)}};
}

// One for all, or one for each of the largest groups.
json curves_of(const ReturnsQuestion& q, const ReturnsFinding& f) {
  if (!f.groups) return json::array({curve_json("", f.curve)});
  std::vector<std::pair<std::size_t, std::string>> groups;
  for (std::size_t g = 0; g < f.groups->groups.size(); ++g)
    groups.emplace_back(f.groups->log_rank.groups[g].units, f.groups->groups[g].name);
  std::sort(groups.rbegin(), groups.rend());
  groups.resize(std::min(groups.size(), curves_max));
  json out = json::array();
  for (const auto& [units, name] : groups) {
    Lives lives;
    for (const auto& row : q.table.rows)
      if (row.group == name) lives.push_back({row.time, row.ending});
    out.push_back(curve_json(name, survival_curve(lives, q.band, q.confidence)));
  }
  return out;
}

json still_out(const ReturnsQuestion& q, const ReturnsFinding& f, const ReturnsWording& w) {
  std::vector<double> times;
  times.reserve(q.table.rows.size());
  for (const auto& row : q.table.rows)
    times.push_back(row.time.value());
  std::sort(times.begin(), times.end());
  json rows = json::array();
  for (const Time& time : w.round_times()) {
    const CurveStep* step = step_at(f.curve, time);
    const auto shorter = std::lower_bound(times.begin(), times.end(), time.value()) - times.begin();
    rows.push_back(
        {{"after", text_json(w.time(time))},
         {"part", job::percent_text(step == nullptr ? 1 : step->surviving)},
         {"low", step != nullptr && step->band ? json(job::percent_text(step->band->low)) : json(nullptr)},
         {"high", step != nullptr && step->band ? json(job::percent_text(step->band->high)) : json(nullptr)},
         {"lasted", static_cast<std::int64_t>(times.size()) - shorter}});
  }
  return rows;
}

json figure(const job::Text& title, const job::Text& value, const job::Text& range) {
  return {{"title", text_json(title)}, {"value", text_json(value)}, {"range", text_json(range)}};
}

job::Text number_text(double value) {
  const std::string text = fmt::format("{:.2f}", value);
  return {text, text};
}

json shape_figures(const ReturnsFinding& f, const ReturnsWording& w) {
  json out = json::array();
  if (!f.weibull) return out;
  const auto& sheet = *f.weibull;
  out.push_back(figure({"one in ten back by (B10)", "una de cada diez de vuelta a los (B10)"},
                       w.time(sheet.b10), w.between(sheet.b10_limits.low, sheet.b10_limits.high)));
  out.push_back(figure({"63 % back by (Weibull scale)", "63 % de vuelta a los (escala de Weibull)"},
                       w.time(sheet.fit.scale), w.between(sheet.scale.low, sheet.scale.high)));
  out.push_back(figure({"early below 1, late above (Weibull shape)",
                        "pronto por debajo de 1, tarde por encima (forma de Weibull)"},
                       number_text(sheet.fit.shape), w.between(sheet.shape.low, sheet.shape.high)));
  return out;
}

json groups_json(const ReturnsFinding& f, const ReturnsWording& w) {
  if (!f.groups) return nullptr;
  json list = json::array();
  for (std::size_t g = 0; g < f.groups->groups.size(); ++g) {
    const auto& counts = f.groups->log_rank.groups[g];
    list.push_back({{"name", f.groups->groups[g].name},
                    {"builds", counts.units},
                    {"returned", counts.returned},
                    {"expected", fmt::format("{:.1f}", counts.expected)},
                    {"every", text_json(w.every(f.groups->groups[g].rate))}});
  }
  std::stable_sort(list.begin(), list.end(),
                   [](const json& a, const json& b) { return a.at("builds") > b.at("builds"); });
  return {{"list", std::move(list)}, {"differ", or_null(w.groups())}, {"curves", or_null(w.group_curves())}};
}

json change_json(const ReturnsFinding& f, const ReturnsWording& w) {
  if (!f.change) return nullptr;
  return {{"verdict", f.verdict},
          {"said", or_null(w.change())},
          {"ratio", or_null(w.change_ratio())},
          {"settling", or_null(w.settling())},
          {"besides", text_json(ReturnsWording::what_else_changed())}};
}

// For the step a bench thinks in, in either system.
json times_as_often(const CoxCoefficient& c, double units) {
  const auto power = [&](double ratio) { return std::pow(ratio, units); };
  return fmt::format("{:.3g} ({:.3g} … {:.3g})", power(c.ratio), power(c.ratio_low), power(c.ratio_high));
}

json readings_json(const ReturnsQuestion& q, const ReturnsFinding& f, const ReturnsWording& w) {
  if (!f.readings) return nullptr;
  json list = json::array();
  for (std::size_t j = 0; j < f.readings->fit.coefficients.size(); ++j) {
    const auto& c = f.readings->fit.coefficients[j];
    list.push_back(
        {{"check", q.columns.covariates[j]},
         {"goes_with", text_json(w.reading_goes_with(c))},
         {"proven", w.is_proven(c.p)},
         {"times", {{"inch", times_as_often(c, 1)}, {"metric", times_as_often(c, thou_per_hundredth_mm)}}},
         {"at_all_ages", text_json(w.reading_at_all_ages(j))}});
  }
  return {{"builds", f.readings->pumps},     {"left_out", f.readings->left_out},
          {"list", std::move(list)},         {"together", or_null(w.readings())},
          {"few", or_null(w.few_returns())}, {"not_a_cause", text_json(ReturnsWording::not_a_cause())}};
}

json not_computed_json(const ReturnsFinding& f) {
  json list = json::array();
  for (const auto& missing : f.not_computed)
    list.push_back({{"what", text_json(missing.what)}, {"why", text_json(missing.why)}});
  return list;
}

// As the steps call them.
json readings_choices() {
  const std::array<job::Text, shop::checks_of_lives.size()> titles{
      {{"Impeller sweep", "Barrido del impulsor"},
       {"Sleeve runout", "Alabeo del manguito"},
       {"Shaft runout", "Alabeo del eje"},
       {"Register runout", "Alabeo del encaje"},
       {"Mounting face runout", "Alabeo de la cara de montaje"},
       {"Squareness of the seat", "Escuadra del asiento"},
       {"End float", "Juego axial"}}};
  json list = json::array();
  for (std::size_t i = 0; i < titles.size(); ++i)
    list.push_back({{"check", shop::checks_of_lives[i]}, {"title", text_json(titles[i])}});
  return list;
}

json choices_json(const std::vector<shop::BuildLife>& lives) {
  const auto of = [&](shop::BuildTrait trait) {
    json list = json::array();
    for (const auto& one : shop::traits_of(lives, trait))
      list.push_back({{"value", one.value}, {"builds", one.builds}});
    return list;
  };
  return {{"pump", of(shop::BuildTrait::pump)},
          {"customer", of(shop::BuildTrait::customer)},
          {"seal", of(shop::BuildTrait::seal)},
          {"reading", readings_choices()}};
}

// Readings that do not vary among these builds leave the rest of the page as it is.
ReturnsFinding answer_of(ReturnsQuestion& question) {
  try {
    return job::answer(question);
  } catch (const BadInput&) {
    if (question.columns.covariates.empty()) throw;
  }
  question.columns.covariates.clear();
  ReturnsFinding finding = job::answer(question);
  finding.not_computed.push_back({{"readings and return", "lecturas y devolución"},
                                  {"a reading is the same in all these builds, or follows from the others",
                                   "una lectura es igual en todos estos armados, o se sigue de las otras"}});
  return finding;
}

}  // namespace

json returns_view(const std::vector<shop::BuildLife>& lives, const shop::ReturnsAsked& asked) {
  json view{{"builds", 0}, {"choices", choices_json(lives)}};
  auto question = shop::returns_question(lives, asked);
  if (!question) return view;
  ReturnsFinding f = answer_of(*question);
  if (asked.changed_at_s && !question->before_after)
    f.not_computed.push_back({{"whether the change helped", "si el cambio ayudó"},
                              {"all these builds went out on one side of that day",
                               "todos estos armados salieron a un mismo lado de ese día"}});
  const ReturnsWording w(*question, f);
  view["builds"] = question->table.rows.size();
  view["returned"] = f.returned;
  view["running"] = f.running;
  view["replaced"] = f.replaced;
  view["reason_not_said"] = shop::reasons_not_said(lives, asked);
  view["sure"] = text_json(w.sure());
  view["rate"] = text_json(w.rate());
  view["shares"] = or_null(w.shares());
  view["curves"] = curves_of(*question, f);
  view["still_out"] = still_out(*question, f, w);
  view["shape"] = or_null(w.shape());
  view["shape_figures"] = shape_figures(f, w);
  view["drawn_on"] = or_null(w.drawn_on());
  view["groups"] = groups_json(f, w);
  view["change"] = change_json(f, w);
  view["readings"] = readings_json(*question, f, w);
  view["trend"] = or_null(w.trend());
  view["not_computed"] = not_computed_json(f);
  return view;
}

}  // namespace pumpwright::server
