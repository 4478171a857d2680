// What `pumpwright performance --json` prints.
#include "cli/json_values.h"
#include "cli/performance_question.h"
#include "cli/trim_json.h"

namespace pumpwright {
namespace {

using hydraulics::Figure;
using job::PerformanceFinding;
using Sampled = std::optional<hydraulics::SampledAcceptance>;

OrderedJson point_json(const hydraulics::PointResult& r, const std::vector<Figure>& figures) {
  OrderedJson json = {{"flow_m3_s", json_number(r.flow.value())}};
  put_figure(json, "head", "_m", figures[0]);
  put_figure(json, "hydraulic_power", "_W", figures[1]);
  if (figures.size() == 4) {
    put_figure(json, "shaft_power", "_W", figures[2]);
    put_figure(json, "efficiency", "", figures[3]);
  }
  json["input_power_W"] = r.input ? json_number(r.input->value()) : OrderedJson(nullptr);
  json["wire_to_water"] = json_number(r.overall);
  json["npsh_available_m"] = json_number(r.suction_head.value());
  json["density_kg_m3"] = json_number(r.density.value());
  return json;
}

OrderedJson points_json(const PerformanceFinding& f) {
  auto list = OrderedJson::array();
  for (std::size_t i = 0; i < f.points.size(); ++i)
    list.push_back(point_json(f.model.results()[i], f.points[i]));
  return list;
}

OrderedJson best_json(const PerformanceFinding& f) {
  if (!f.best) return nullptr;
  OrderedJson json;
  put_figure(json, "flow", "_m3_s", f.best_figures[0]);
  put_figure(json, "head", "_m", f.best_figures[1]);
  put_figure(json, "efficiency", "", f.best_figures[2]);
  json["at_end_of_tests"] = f.best->at_end;
  json["specific_speed"] = f.shape ? shape_json(*f.shape) : OrderedJson(nullptr);
  return json;
}

OrderedJson tolerance_json(const hydraulics::Tolerance& t) {
  return {{"flow_low", t.flow_low},    {"flow_high", t.flow_high},   {"head_low", t.head_low},
          {"head_high", t.head_high},  {"power_high", t.power_high}, {"efficiency_low", t.efficiency_low},
          {"known", word_for(t.known)}};
}

OrderedJson grades_json(const PerformanceFinding& f, const Sampled& sampled, bool own) {
  auto list = OrderedJson::array();
  for (std::size_t i = 0; i < f.acceptance->grades.size(); ++i) {
    const auto& g = f.acceptance->grades[i];
    auto criteria = OrderedJson::array();
    for (const auto& c : g.criteria)
      criteria.push_back({{"criterion", hydraulics::word_for(c.criterion)},
                          {"margin", json_number(c.margin.value)},
                          {"margin_u", json_number(c.margin.u)},
                          {"outcome", code(c.outcome)},
                          {"chance", json_number(c.chance)}});
    OrderedJson one = {{"grade", own ? "own" : std::string(hydraulics::word_for(g.grade))},
                       {"verdict", code(g.verdict)},
                       {"reason", hydraulics::word_for(g.reason)},
                       {"by_figures", code(g.by_figures)},
                       {"chance", json_number(g.chance)},
                       {"chance_sampled", nullptr},
                       {"chance_sampled_standard_error", nullptr},
                       {"tolerance", tolerance_json(g.tolerance)},
                       {"criteria", criteria}};
    if (sampled) {
      one["chance_sampled"] = json_number(sampled->grades[i].chance.value);
      one["chance_sampled_standard_error"] = json_number(sampled->grades[i].chance.standard_error);
    }
    list.push_back(one);
  }
  return list;
}

OrderedJson acceptance_json(const PerformanceQuestion& q, const PerformanceAnswer& answer) {
  const auto& [f, sampled] = answer;
  if (!f.acceptance) return nullptr;
  const auto& a = *f.acceptance;
  OrderedJson json;
  put_figure(json, "head_at_flow", "_m", a.head_at_flow);
  if (a.flow_at_head) put_figure(json, "flow_at_head", "_m3_s", *a.flow_at_head);
  if (a.line_flow) put_figure(json, "line_flow", "_m3_s", *a.line_flow);
  if (a.efficiency) put_figure(json, "efficiency", "", *a.efficiency);
  if (a.power) put_figure(json, "power", "_W", *a.power);
  auto shares = OrderedJson::array();
  for (const auto& s : a.shares)
    shares.push_back({{"source", s.group}, {"fraction", json_number(s.fraction)}});
  json["head_variance_shares"] = shares;
  json["grades"] = grades_json(f, sampled, q.sheet.guarantee->rule.own.has_value());
  json["samples"] = sampled ? OrderedJson(sampled->samples) : OrderedJson(nullptr);
  json["seed"] = sampled ? OrderedJson(sampled->seed) : OrderedJson(nullptr);
  return json;
}

OrderedJson remedy_json(const PerformanceFinding& f) {
  if (!f.remedy) return nullptr;
  const auto& r = *f.remedy;
  const double rated = f.model.test().rated_speed.value();
  return {{"speed_rad_s", json_number(rated * r.factor)},
          {"speed_safe_rad_s", json_number(rated * r.safe_factor)},
          {"diameter_needed_m", json_metres(r.diameter_needed)},
          {"trim", r.trim ? trim_json(*r.trim) : OrderedJson(nullptr)}};
}

OrderedJson driver_json(const PerformanceFinding& f) {
  if (!f.driver) return nullptr;
  const auto& d = *f.driver;
  OrderedJson json;
  put_figure(json, "load", "", d.share);
  json["flow_m3_s"] = json_number(d.flow_m3_s);
  json["voltage_unbalance"] = json_number(d.uneven);
  json["derating"] = json_number(d.derating);
  return json;
}

OrderedJson npsh_json(const PerformanceFinding& f) {
  if (!f.npsh3 && !f.npsh_available) return nullptr;
  OrderedJson json;
  if (f.npsh3) {
    put_figure(json, "npsh3", "_m", f.npsh3->npsh_m);
    json["head_undisturbed_m"] = json_number(f.npsh3->head_full_m);
  }
  if (f.suction_shape) json["suction_specific_speed"] = shape_json(*f.suction_shape);
  json["npsh_available_m"] = json_metres(f.npsh_available);
  if (f.npsh3 && f.npsh_available) {
    json["margin_m"] = json_number(f.npsh_available->value() - f.npsh3->npsh_m.value);
    json["ratio"] = json_number(f.npsh_available->value() / f.npsh3->npsh_m.value);
  }
  return json;
}

}  // namespace

std::string performance_json(const PerformanceQuestion& q, const PerformanceAnswer& answer) {
  const PerformanceFinding& f = answer.finding;
  const auto* agreed = agreed_grade(q.sheet, f);
  auto cautions = OrderedJson::array();
  for (const auto& caution : f.cautions)
    cautions.push_back(caution.en);
  OrderedJson json = {
      {"file", q.file},
      {"name", q.sheet.name},
      {"liquid", q.sheet.test.liquid},
      {"rated_speed_rad_s", json_number(f.model.test().rated_speed.value())},
      {"verdict", agreed != nullptr ? OrderedJson(code(agreed->verdict)) : OrderedJson(nullptr)},
      {"reason",
       agreed != nullptr ? OrderedJson(hydraulics::word_for(agreed->reason)) : OrderedJson(nullptr)},
      {"points", points_json(f)},
      {"head_scatter_m", json_number(f.model.head_scatter_m())},
      {"best_point", best_json(f)},
      {"acceptance", acceptance_json(q, answer)},
      {"remedy", remedy_json(f)},
      {"driver", driver_json(f)},
      {"suction", npsh_json(f)},
      {"cautions", cautions}};
  return json_text(json);
}

}  // namespace pumpwright
