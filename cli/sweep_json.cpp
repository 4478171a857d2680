// What `pumpwright sweep --json` prints. Lengths in metres, angles in degrees as written.
#include "cli/json_values.h"
#include "cli/sweep_question.h"

namespace pumpwright {
namespace {

const char* word_for_mount(Mount mount) {
  return mount == Mount::shaft ? "shaft" : mount == Mount::housing ? "housing" : nullptr;
}

OrderedJson mount_json(Mount mount) {
  const char* word = word_for_mount(mount);
  return word == nullptr ? OrderedJson(nullptr) : OrderedJson(word);
}

const char* word_for_scatter(ScatterFrom from) {
  switch (from) {
    case ScatterFrom::residuals:
      return "residuals";
    case ScatterFrom::instrument:
      return "instrument";
    case ScatterFrom::second_turn:
      return "second-turn";
    case ScatterFrom::none:
      break;
  }
  return "none";
}

OrderedJson reading_json(const SweepQuestion& q, std::size_t index) {
  const auto& row = q.rows[index];
  return {{"line", row.line},
          {"angle_deg", degrees_of(radians(row.angle.si))},
          {"reading", row.reading.text},
          {"reading_m", row.reading.si}};
}

OrderedJson harmonics_json(const SweepResult& s) {
  auto list = OrderedJson::array();
  for (const auto& h : s.harmonics)
    list.push_back({{"order", h.order},
                    {"amplitude_m", json_number(h.amplitude.value())},
                    {"phase_deg", json_number(degrees_of(h.phase))}});
  return list;
}

OrderedJson suspects_json(const SweepQuestion& q, const SweepResult& s) {
  auto list = OrderedJson::array();
  for (const auto& suspect : s.suspects) {
    auto one = reading_json(q, suspect.index);
    one["residual_m"] = json_number(suspect.residual.value());
    one["studentized"] = json_number(suspect.studentized);
    list.push_back(one);
  }
  return list;
}

OrderedJson uncertainty_json(const SweepResult& s) {
  return {{"from", word_for_scatter(s.scatter_from)},  {"reading_u_m", json_metres(s.reading_u)},
          {"reading_dof", json_number(s.reading_dof)}, {"tir_u_m", json_metres(s.tir_u)},
          {"tir_dof", json_number(s.tir_dof)},         {"residuals_unexplained", s.residuals_unexplained}};
}

OrderedJson face_json(const SweepQuestion& q, const SweepFinding& f) {
  OrderedJson face = {{"radius_m", json_metres(q.radius)},
                      {"over_m", json_metres(q.over.value_or(2.0 * q.radius.value()))}};
  face["tilt_deg"] = f.tilt ? json_degrees(f.tilt->tilt) : OrderedJson(nullptr);
  face["tilt_u_deg"] = f.tilt ? json_degrees(f.tilt->tilt_u) : OrderedJson(nullptr);
  face["squareness_m"] = f.tilt ? json_metres(f.tilt->squareness) : OrderedJson(nullptr);
  face["squareness_u_m"] = f.tilt ? json_metres(f.tilt->squareness_u) : OrderedJson(nullptr);
  return face;
}

OrderedJson limit_json(const SweepQuestion& q) {
  OrderedJson limit = {
      {"on", q.on_eccentricity ? "eccentricity" : "tir"}, {"text", q.limit.text}, {"upper_m", q.limit.si}};
  if (const auto* guarded = std::get_if<Guarded>(&q.rule)) {
    limit["rule"] = "guarded";
    limit["probability"] = guarded->probability;
  } else {
    limit["rule"] = "simple";
    limit["ratio"] = std::get<SimpleAcceptance>(q.rule).ratio;
  }
  return limit;
}

void add_verdict(OrderedJson& json, const SweepVerdict& v) {
  json["verdict"] = code(v.outcome);
  json["reason"] = v.reason;
  json["margin_m"] = json_number(v.margin.value());
  json["guard_band_m"] = json_number(v.guard.value());
  json["conformance_probability"] = json_number(v.conformance_probability);
  json["settling"] = {
      {"graduation_m", json_metres(v.settling.graduation)},
      {"standard_uncertainty_m", json_metres(v.settling.u)},
      {"repeats", v.settling.repeats ? OrderedJson(*v.settling.repeats) : OrderedJson(nullptr)}};
}

}  // namespace

std::string sweep_json(const SweepQuestion& q, const SweepFinding& f) {
  const auto& s = f.sweep;
  OrderedJson json = {{"file", q.file},
                      {"count", s.count},
                      {"left_out", s.left_out},
                      {"places", s.places},
                      {"axis", s.axis == Axis::face ? "face" : "radial"},
                      {"mount", mount_json(s.mount)}};
  json["tir_m"] = json_number(s.tir.value.value());
  json["tir_fitted_m"] = json_number(s.tir_fitted.value.value());
  json["highest"] = reading_json(q, s.highest);
  json["lowest"] = reading_json(q, s.lowest);
  json["missed_tir_m"] = json_number(s.missed_tir.bound().value());
  json["eccentricity_m"] = json_number(s.eccentricity.value.value());
  json["eccentricity_u_m"] =
      s.vector_uncertainty ? json_number(s.vector_uncertainty->u.value()) : OrderedJson(nullptr);
  json["high_spot_deg"] = json_degrees(s.high_spot);
  json["high_spot_u_deg"] = json_degrees(s.high_spot_u);
  json["high_spot_is_on"] = claimed_high_spot(s) ? mount_json(s.mount) : OrderedJson(nullptr);
  json["mean_m"] = json_number(s.mean.value());
  json["carried_order"] = s.carried_order;
  json["harmonics"] = harmonics_json(s);
  json["ront_m"] = json_number(s.ront.value());
  json["ronq_m"] = json_number(s.ronq.value());
  json["closure_m"] = json_metres(s.closure);
  json["drift_per_turn_m"] = json_metres(s.drift_per_turn);
  json["repeatability_m"] = json_metres(s.repeatability);
  json["uncertainty"] = uncertainty_json(s);
  json["suspects"] = suspects_json(q, s);
  if (s.axis == Axis::face) json["face"] = face_json(q, f);
  json["limit"] = limit_json(q);
  add_verdict(json, f.verdict);
  return json_text(json);
}

}  // namespace pumpwright
