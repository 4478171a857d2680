#include "job/snapshot_json.h"

#include <nlohmann/json.hpp>

#include "job/instrument_json.h"
#include "job/plan_json.h"

namespace pumpwright::job {
namespace {

using nlohmann::json;

template <class T>
json optional_written(const std::optional<T>& w) {
  return w ? encode_written(*w) : json(nullptr);
}

std::optional<Written> decode_optional(const JsonReader& at) {
  if (at.raw().is_null()) return std::nullopt;
  return decode_frozen(at);
}

json optional_length(const std::optional<Length>& l) {
  return l ? json(l->value()) : json(nullptr);
}

std::optional<Length> decode_length(const JsonReader& at) {
  if (at.raw().is_null()) return std::nullopt;
  return metres(at.number());
}

json encode_dimension(const Dimension& d) {
  return {{"text", d.text},
          {"nominal_m", d.nominal.value()},
          {"lower_m", optional_length(d.lower)},
          {"upper_m", optional_length(d.upper)},
          {"source", d.source ? encode_source(*d.source) : json(nullptr)}};
}

Dimension decode_dimension(const JsonReader& at) {
  at.allow_only({"text", "nominal_m", "lower_m", "upper_m", "source"});
  Dimension d{at.required("text").text(256),
              metres(at.required("nominal_m").number()),
              decode_length(at.required("lower_m")),
              decode_length(at.required("upper_m")),
              {}};
  const JsonReader source = at.required("source");
  if (!source.raw().is_null()) d.source = decode_source(source);
  return d;
}

json encode_make_up(const MakeUp& m) {
  json dimensions = json::object();
  for (const auto& [name, d] : m.dimensions)
    dimensions[name] = encode_dimension(d);
  json out{
      {"driver",
       {{"standard", m.driver.standard},
        {"frame", m.driver.frame},
        {"flange", m.driver.flange},
        {"shaft_up", m.driver.shaft_up}}},
      {"sleeve", m.sleeve},
      {"seal", {{"kind", m.seal.kind}, {"elastomer", m.seal.elastomer}, {"lubricant", m.seal.lubricant}}},
      {"keyways", m.keyways},
      {"service",
       {{"fluid", m.service.fluid},
        {"temperature", optional_written(m.service.temperature)},
        {"suction_pressure", optional_written(m.service.suction_pressure)}}},
      {"speed", encode_written(m.speed)},
      {"dimensions", dimensions}};
  if (m.fastener)
    out["fastener"] = {{"thread", m.fastener->thread},
                       {"grade", m.fastener->grade},
                       {"condition", m.fastener->condition},
                       {"torque_lower", optional_written(m.fastener->torque_lower)},
                       {"torque_upper", optional_written(m.fastener->torque_upper)}};
  return out;
}

MakeUp decode_frozen_make_up(const JsonReader& at) {
  at.allow_only({"driver", "sleeve", "seal", "keyways", "service", "speed", "dimensions", "fastener"});
  MakeUp m;
  const JsonReader driver = at.required("driver");
  m.driver = {driver.required("standard").word({"nema", "iec"}), driver.required("frame").text(64),
              driver.required("flange").text(64), driver.required("shaft_up").boolean()};
  m.sleeve = at.required("sleeve").boolean();
  const JsonReader seal = at.required("seal");
  m.seal = {seal.required("kind").text(64), seal.required("elastomer").text(64),
            seal.required("lubricant").text(64)};
  m.keyways = static_cast<int>(at.required("keyways").integer(1, 4));
  const JsonReader service = at.required("service");
  m.service = {service.required("fluid").text(64), decode_optional(service.required("temperature")),
               decode_optional(service.required("suction_pressure"))};
  m.speed = decode_frozen(at.required("speed"));
  const JsonReader dimensions = at.required("dimensions");
  for (const auto& name : dimensions.keys())
    m.dimensions.emplace(name, decode_dimension(dimensions.required(name)));
  if (const auto f = at.optional("fastener"))
    m.fastener = Fastener{f->required("thread").text(64), f->required("grade").text(64),
                          f->required("condition").text(64), decode_optional(f->required("torque_lower")),
                          decode_optional(f->required("torque_upper"))};
  return m;
}

json encode_fastener(const FastenerFigures& f) {
  return {{"form", f.thread.form == ThreadForm::unified ? "unified" : "iso-metric"},
          {"diameter_m", f.thread.diameter.value()},
          {"pitch_m", f.thread.pitch.value()},
          {"proof_stress_Pa", f.proof_stress.value()},
          {"k_low", f.nut_factor.lowest},
          {"k_high", f.nut_factor.highest},
          {"proof_source", encode_source(f.proof_source)},
          {"k_source", encode_source(f.nut_factor_source)}};
}

FastenerFigures decode_fastener(const JsonReader& at) {
  at.allow_only(
      {"form", "diameter_m", "pitch_m", "proof_stress_Pa", "k_low", "k_high", "proof_source", "k_source"});
  const bool unified = at.required("form").word({"unified", "iso-metric"}) == "unified";
  return {{unified ? ThreadForm::unified : ThreadForm::iso_metric, metres(at.required("diameter_m").number()),
           metres(at.required("pitch_m").number())},
          pascals(at.required("proof_stress_Pa").number()),
          {at.required("k_low").number(), at.required("k_high").number()},
          decode_source(at.required("proof_source")),
          decode_source(at.required("k_source"))};
}

}  // namespace

json encode_snapshot(const Snapshot& s) {
  json instruments = json::array();
  for (const auto& [id, instrument] : s.instruments)
    instruments.push_back(encode_instrument(instrument));
  json adoptions = json::array();
  for (const auto& [id, a] : s.adoptions)
    adoptions.push_back(encode_adoption(a));
  json expansions = json::object();
  for (const auto& [name, alpha] : s.expansions)
    expansions[name] = alpha.value();
  json out{{"catalog", s.catalog_digest},          {"program", s.program},       {"seed", s.seed},
           {"make_up", encode_make_up(s.make_up)}, {"instruments", instruments}, {"adoptions", adoptions},
           {"expansions_per_K", expansions},       {"plan", encode_plan(s.plan)}};
  if (s.fastener) out["fastener"] = encode_fastener(*s.fastener);
  return out;
}

Snapshot decode_snapshot(const JsonReader& at) {
  at.allow_only({"catalog", "program", "seed", "make_up", "instruments", "adoptions", "expansions_per_K",
                 "plan", "fastener"});
  Snapshot s;
  s.catalog_digest = at.required("catalog").text(128);
  s.program = at.required("program").text(256);
  s.seed = static_cast<std::uint64_t>(at.required("seed").integer(0, INT64_MAX));
  s.make_up = decode_frozen_make_up(at.required("make_up"));
  s.instruments = decode_instruments(at.required("instruments"));
  s.adoptions = decode_adoptions(at.required("adoptions"));
  const JsonReader expansions = at.required("expansions_per_K");
  for (const auto& name : expansions.keys())
    s.expansions.emplace(name, per_kelvin(expansions.required(name).number()));
  s.plan = decode_plan(at.required("plan"));
  if (const auto fastener = at.optional("fastener")) s.fastener = decode_fastener(*fastener);
  return s;
}

}  // namespace pumpwright::job
