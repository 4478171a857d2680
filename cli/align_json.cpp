// What `pumpwright align --json` prints.
#include "cli/align_question.h"
#include "cli/json_values.h"

namespace pumpwright {
namespace {

using job::AlignmentFinding;
using job::AlignmentSheet;
using job::FootPlan;
using job::SeenFrom;

OrderedJson line_json(const alignment::ShaftLine& line) {
  const auto u = [&](std::size_t i) {
    return line.covariance ? json_number(std::sqrt((*line.covariance)[i * 5])) : OrderedJson(nullptr);
  };
  return {
      {"up_m", line.up_m},
      {"right_m", line.right_m},
      {"up_slope_m_per_m", line.up_slope},
      {"right_slope_m_per_m", line.right_slope},
      {"u", {{"up_m", u(0)}, {"right_m", u(1)}, {"up_slope_m_per_m", u(2)}, {"right_slope_m_per_m", u(3)}}}};
}

OrderedJson judged_json(const alignment::AlignmentVerdict& v, const std::string& unit) {
  OrderedJson json;
  json["value" + unit] = json_number(v.value);
  json["u" + unit] = json_number(v.u);
  json["limit" + unit] = json_number(v.limit);
  json["guard" + unit] = json_number(v.guard);
  json["conformance_probability"] = json_number(v.conformance_probability);
  json["verdict"] = code(v.outcome);
  json["reason"] = v.reason;
  return json;
}

OrderedJson dial_json(const std::string& name, const alignment::DialResult& d) {
  return {{"name", name},
          {"up_m", json_number(d.sweep.vector[0].value())},
          {"right_m", json_number(d.sweep.vector[1].value())},
          {"reading_u_m", json_metres(d.sweep.reading_u)},
          {"disagreement_m", json_number(d.disagreement.value())},
          {"closure_m", json_metres(d.sweep.closure)},
          {"valid", d.valid}};
}

OrderedJson pack_json(const std::optional<alignment::ShimPack>& pack) {
  if (!pack) return nullptr;
  auto shims = OrderedJson::array();
  for (const Length& thickness : pack->shims)
    shims.push_back(thickness.value());
  return {{"shims_m", shims}, {"thickness_m", pack->thickness.value()}, {"left_m", pack->left.value()}};
}

OrderedJson foot_json(const FootPlan& plan) {
  return {{"raise_m", json_number(plan.wanted.raise.value())},
          {"raise_u_m", json_metres(plan.wanted.raise_u)},
          {"push_right_m", json_number(plan.wanted.push.value())},
          {"push_u_m", json_metres(plan.wanted.push_u)},
          {"base_bound", plan.possible.base_bound},
          {"bolt_bound", plan.possible.bolt_bound},
          {"possible_raise_m", json_number(plan.possible.move.raise.value())},
          {"possible_push_right_m", json_number(plan.possible.move.push.value())},
          {"pack", pack_json(plan.pack)},
          {"pack_replaces", plan.replaces},
          {"raised_m", json_number(plan.raised.value())}};
}

OrderedJson soft_foot_json(const AlignmentFinding& f) {
  if (!f.soft_foot) return nullptr;
  auto soft = OrderedJson::array();
  for (const auto foot : f.soft_foot->soft)
    soft.push_back(alignment::word_for(foot));
  return {{"soft", soft},
          {"rocks", f.soft_foot->rocks},
          {"shim_m", json_metres(f.soft_foot->shim)},
          {"pack", pack_json(f.soft_shim)}};
}

}  // namespace

std::string align_json(const AlignQuestion& q, const AlignmentFinding& f) {
  const AlignmentSheet& file = q.align;
  auto dials = OrderedJson::array();
  for (std::size_t d = 0; d < 2; ++d)
    dials.push_back(dial_json(file.dial_names[d], f.dials[d]));
  return json_text(
      {{"file", q.file},
       {"name", file.name},
       {"seen_from", file.seen_from == SeenFrom::fixed_machine ? "fixed machine" : "moved machine"},
       {"dials", dials},
       {"cold", line_json(f.cold)},
       {"warm", line_json(f.warm)},
       {"offset", judged_json(f.offset, "_m")},
       {"angularity", judged_json(f.angularity, "_rad")},
       {"soft_foot", soft_foot_json(f)},
       {"front", foot_json(f.front)},
       {"back", foot_json(f.back)},
       {"after",
        {{"offset_m", f.after.offset().value()},
         {"angularity_rad", f.after.angularity().value()},
         {"within", f.after_within}}},
       {"verdict", f.verdict},
       {"reason", f.reason}});
}

}  // namespace pumpwright
