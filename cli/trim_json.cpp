#include "cli/trim_json.h"

namespace pumpwright {
namespace {

OrderedJson cut_json(const std::optional<hydraulics::Cut>& cut) {
  if (!cut) return nullptr;
  OrderedJson json = {{"diameter_m", json_number(cut->diameter.value())},
                      {"factor", json_number(cut->factor)}};
  put_figure(json, "head", "_m", cut->head_m);
  json["undershoot"] = json_number(cut->undershoot);
  json["power_W"] = json_number(cut->power_w);
  json["power_peak_W"] = json_number(cut->power_peak_w);
  return json;
}

}  // namespace

OrderedJson shape_json(const hydraulics::SpecificSpeed& shape) {
  return {{"us_rpm_gpm_ft", json_number(shape.us)},
          {"metric_rpm_m3s_m", json_number(shape.metric)},
          {"type_number", json_number(shape.type)}};
}

OrderedJson trim_json(const hydraulics::TrimPlan& plan) {
  OrderedJson json;
  put_figure(json, "head_now", "_m", plan.head_now_m);
  json["undershoot_now"] = json_number(plan.undershoot_now);
  json["specific_speed"] = shape_json(plan.shape);
  json["specific_speed_at_best_point"] = plan.shape_at_best;
  json["nominal"] = cut_json(plan.nominal);
  json["first"] = cut_json(plan.first);
  json["rule_range"] = hydraulics::word_for(plan.range);
  json["rule_deepest_part"] = json_number(plan.deepest);
  json["other_rule_diameter_m"] = json_metres(plan.other_rule_diameter);
  return json;
}

}  // namespace pumpwright
