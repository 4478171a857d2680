// What `pumpwright balance --json` prints.
#include "cli/balance_question.h"
#include "cli/json_values.h"

namespace pumpwright {
namespace {

using job::BalanceFinding;
using job::BalanceSheet;
using job::JudgedUnbalance;
using job::PlaneCorrection;
using job::PlaneInFile;
using rotor::Unbalance;

OrderedJson json_unbalance(const std::optional<Unbalance>& u) {
  return u ? json_number(u->value()) : OrderedJson(nullptr);
}

OrderedJson vector_json(const rotor::UnbalanceVector& v) {
  return {{"unbalance_kg_m", json_number(v.amount.value())}, {"angle_deg", json_number(degrees_of(v.place))}};
}

OrderedJson loads_json(const std::vector<rotor::PlaceLoad>& loads) {
  auto list = OrderedJson::array();
  for (const auto& load : loads) {
    OrderedJson one = vector_json({load.amount, load.place});
    if (!load.weights.empty()) {
      one["weights_kg"] = OrderedJson::array();
      for (const Mass& m : load.weights)
        one["weights_kg"].push_back(m.value());
    }
    list.push_back(one);
  }
  return list;
}

OrderedJson holes_json(const std::vector<std::optional<rotor::Holes>>& all) {
  auto list = OrderedJson::array();
  for (const auto& holes : all) {
    if (!holes) {
      list.push_back(nullptr);
      continue;
    }
    list.push_back({{"count", holes->count},
                    {"to_tip_m", holes->each.to_tip.value()},
                    {"to_full_diameter_m", holes->each.to_full_diameter.value()},
                    {"taken_out_kg", holes->each.taken_out.value()}});
  }
  return list;
}

OrderedJson pads_json(const std::vector<rotor::GroundPad>& all) {
  auto list = OrderedJson::array();
  for (const auto& pad : all)
    list.push_back(
        {{"depth_m", pad.depth.value()}, {"taken_out_kg", pad.taken_out.value()}, {"reaches", pad.reaches}});
  return list;
}

OrderedJson correction_json(const PlaneInFile& plane, const PlaneCorrection& c) {
  OrderedJson json = {{"plane", plane.name}, {"add", vector_json(c.add)}};
  json["mass_kg"] = json_number(c.mass.value());
  json["parts"] = loads_json(c.parts);
  json["weights"] = nullptr;
  if (c.chosen)
    json["weights"] = {{"fit", loads_json(c.chosen->loads)}, {"left", vector_json(c.chosen->left)}};
  json["holes"] = holes_json(c.holes);
  json["pads"] = pads_json(c.pads);
  return json;
}

OrderedJson judged_json(const JudgedUnbalance& j) {
  const auto& v = j.verdict;
  return {{"where", j.where},
          {"unbalance_kg_m", v.amount.value()},
          {"angle_deg", degrees_of(j.place)},
          {"u_kg_m", json_unbalance(v.u)},
          {"limit_kg_m", v.limit.value()},
          {"guard_kg_m", json_unbalance(v.guard)},
          {"conformance_probability", json_number(v.conformance_probability)},
          {"verdict", code(v.outcome)},
          {"reason", v.reason}};
}

OrderedJson influence_json(const BalanceSheet& file, const BalanceFinding& f) {
  auto list = OrderedJson::array();
  for (std::size_t s = 0; s < f.influence.size(); ++s)
    for (std::size_t p = 0; p < file.planes.size(); ++p) {
      const auto alpha = f.influence[s].alpha[p];
      list.push_back({{"sensor", file.sensors[s].name},
                      {"plane", file.planes[p].name},
                      {"amplitude_per_kg_m", std::abs(alpha)},
                      {"angle_deg", degrees_of(rotor::unbalance_of(alpha, {}).place)}});
    }
  return list;
}

OrderedJson left_json(const BalanceSheet& file, const rotor::BalanceSolution& solution) {
  auto list = OrderedJson::array();
  for (std::size_t s = 0; s < file.sensors.size(); ++s) {
    const bool velocity = file.sensors[s].unit->kind == Kind::velocity;
    list.push_back({{"sensor", file.sensors[s].name},
                    {velocity ? "amplitude_m_s" : "amplitude_m", solution.left_over[s].amplitude}});
  }
  return list;
}

OrderedJson effects_json(const BalanceSheet& file, const BalanceFinding& f) {
  auto list = OrderedJson::array();
  for (const auto& effect : f.effects) {
    auto on = OrderedJson::array();
    for (std::size_t s = 0; s < effect.on_sensor.size(); ++s)
      on.push_back({{"sensor", file.sensors[s].name},
                    {"amplitude_change", json_number(effect.on_sensor[s].of_amplitude)},
                    {"phase_change_deg", degrees_of(effect.on_sensor[s].of_phase)}});
    list.push_back({{"run", effect.run}, {"enough", effect.enough}, {"on", on}});
  }
  return list;
}

OrderedJson trial_json(const BalanceSheet& file, const BalanceFinding& f) {
  auto list = OrderedJson::array();
  for (std::size_t p = 0; p < file.planes.size(); ++p)
    list.push_back({{"plane", file.planes[p].name},
                    {"mass_kg", f.trial[p].mass.value()},
                    {"force_N", f.trial[p].force.value()}});
  return list;
}

OrderedJson bearings_json(const BalanceFinding& f) {
  if (!f.at_bearings) return nullptr;
  return {{"a_kg_m", f.at_bearings->a.value()},
          {"b_kg_m", f.at_bearings->b.value()},
          {"mass", f.at_bearings->mass == rotor::MassStands::outboard ? "outboard" : "between"},
          {"bounded", f.at_bearings->bounded},
          {"how", word_for(f.at_bearings->how)}};
}

OrderedJson key_json(const BalanceFinding& f) {
  if (!f.key) return nullptr;
  return {{"unbalance_kg_m", f.key->amount.value()},
          {"towards_key", f.key->towards_key},
          {"neutral_length_m", json_metres(f.key->neutral_length)}};
}

}  // namespace

std::string balance_json(const BalanceQuestion& q, const BalanceFinding& f) {
  const BalanceSheet& file = q.balance;
  OrderedJson json = {{"file", q.file},
                      {"name", file.name},
                      {"grade_m_s", file.rotor.grade.value()},
                      {"grade_is_listed", f.grade_is_listed},
                      {"permissible_kg_m", f.permissible.value()},
                      {"eccentricity_m", f.eccentricity.value()},
                      {"at_bearings", bearings_json(f)},
                      {"trial", trial_json(file, f)},
                      {"effects", effects_json(file, f)},
                      {"influence", influence_json(file, f)},
                      {"condition", nullptr},
                      {"told_apart", nullptr},
                      {"left_over", OrderedJson::array()},
                      {"judged", OrderedJson::array()},
                      {"corrections", OrderedJson::array()},
                      {"key", key_json(f)}};
  if (f.solution) {
    json["condition"] = json_number(f.solution->condition);
    json["told_apart"] = f.solution->told_apart;
    json["left_over"] = left_json(file, *f.solution);
    for (const auto& j : f.judged)
      json["judged"].push_back(judged_json(j));
    for (std::size_t p = 0; p < file.planes.size(); ++p)
      json["corrections"].push_back(correction_json(file.planes[p], f.corrections[p]));
  }
  json["verdict"] = f.verdict.empty() ? OrderedJson(nullptr) : OrderedJson(f.verdict);
  json["reason"] = f.reason.empty() ? OrderedJson(nullptr) : OrderedJson(f.reason);
  return json_text(json);
}

}  // namespace pumpwright
