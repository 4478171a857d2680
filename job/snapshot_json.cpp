#include "job/snapshot_json.h"

#include <algorithm>

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

std::string_view word_of(Hand hand) {
  return hand == Hand::left ? "left" : "right";
}

Hand decode_hand(const JsonReader& at) {
  return at.word({"right", "left"}) == "left" ? Hand::left : Hand::right;
}

std::string_view word_of(seal::ImpellerBack back) {
  const auto words = impeller_back_words();
  return std::find_if(words.begin(), words.end(), [&](const BackWord& w) { return w.second == back; })->first;
}

// Of a field that a snapshot of an earlier version does not have.
std::optional<Written> decode_later(const JsonReader& at, std::string_view key) {
  const auto inner = at.optional(key);
  return inner ? decode_optional(*inner) : std::nullopt;
}

std::string text_later(const JsonReader& at, std::string_view key) {
  const auto inner = at.optional(key);
  return inner ? inner->text(64) : std::string();
}

json encode_seal(const Seal& s) {
  json out{{"kind", s.kind},
           {"elastomer", s.elastomer},
           {"lubricant", s.lubricant},
           {"ring", s.ring},
           {"seat", s.seat}};
  if (s.coil) out["coil"] = word_of(*s.coil);
  if (s.sheet) out["sheet"] = encode_seal_sheet(*s.sheet);
  return out;
}

Seal decode_frozen_seal(const JsonReader& at) {
  Seal s;
  s.kind = at.required("kind").text(64);
  s.elastomer = at.required("elastomer").text(64);
  s.lubricant = at.required("lubricant").text(64);
  s.ring = text_later(at, "ring");
  s.seat = text_later(at, "seat");
  if (const auto coil = at.optional("coil")) s.coil = decode_hand(*coil);
  if (const auto sheet = at.optional("sheet")) s.sheet = decode_frozen_seal_sheet(*sheet);
  return s;
}

json encode_driver(const Driver& d) {
  json out{{"standard", d.standard}, {"frame", d.frame}, {"flange", d.flange}, {"shaft_up", d.shaft_up}};
  if (d.rotation) out["rotation"] = *d.rotation == Rotation::clockwise ? "clockwise" : "counter-clockwise";
  return out;
}

Driver decode_frozen_driver(const JsonReader& at) {
  Driver d;
  d.standard = at.required("standard").word({"nema", "iec"});
  d.frame = at.required("frame").text(64);
  d.flange = at.required("flange").text(64);
  d.shaft_up = at.required("shaft_up").boolean();
  if (const auto rotation = at.optional("rotation"))
    d.rotation = rotation->word({"clockwise", "counter-clockwise"}) == "clockwise"
                     ? Rotation::clockwise
                     : Rotation::counter_clockwise;
  return d;
}

json encode_service(const Service& s) {
  json out{{"fluid", s.fluid},
           {"temperature", optional_written(s.temperature)},
           {"suction_pressure", optional_written(s.suction_pressure)},
           {"head_pressure", optional_written(s.head_pressure)},
           {"altitude", optional_written(s.altitude)},
           {"glycol", s.glycol},
           {"concentration", optional_written(s.concentration)}};
  if (s.liquid) out["liquid"] = encode_liquid_sheet(*s.liquid);
  return out;
}

Service decode_frozen_service(const JsonReader& at) {
  Service s;
  s.fluid = at.required("fluid").text(64);
  s.temperature = decode_optional(at.required("temperature"));
  s.suction_pressure = decode_optional(at.required("suction_pressure"));
  s.head_pressure = decode_later(at, "head_pressure");
  s.altitude = decode_later(at, "altitude");
  s.glycol = text_later(at, "glycol");
  s.concentration = decode_later(at, "concentration");
  if (const auto liquid = at.optional("liquid")) s.liquid = decode_frozen_liquid_sheet(*liquid);
  return s;
}

json encode_make_up(const MakeUp& m) {
  json dimensions = json::object();
  for (const auto& [name, d] : m.dimensions)
    dimensions[name] = encode_dimension(d);
  json out{{"driver", encode_driver(m.driver)},
           {"sleeve", m.sleeve},
           {"seal", encode_seal(m.seal)},
           {"keyways", m.keyways},
           {"service", encode_service(m.service)},
           {"speed", encode_written(m.speed)},
           {"dimensions", dimensions}};
  if (m.fastener)
    out["fastener"] = {{"thread", m.fastener->thread},
                       {"grade", m.fastener->grade},
                       {"condition", m.fastener->condition},
                       {"torque_lower", optional_written(m.fastener->torque_lower)},
                       {"torque_upper", optional_written(m.fastener->torque_upper)},
                       {"hand", word_of(m.fastener->hand)}};
  if (m.impeller_back) out["impeller_back"] = word_of(*m.impeller_back);
  if (!m.sheets.empty()) out["sheets"] = encode_sheets(m.sheets);
  return out;
}

MakeUp decode_frozen_make_up(const JsonReader& at) {
  at.allow_only({"driver", "sleeve", "seal", "keyways", "service", "speed", "dimensions", "fastener",
                 "impeller_back", "sheets"});
  MakeUp m;
  m.driver = decode_frozen_driver(at.required("driver"));
  m.sleeve = at.required("sleeve").boolean();
  m.seal = decode_frozen_seal(at.required("seal"));
  m.keyways = static_cast<int>(at.required("keyways").integer(1, 4));
  m.service = decode_frozen_service(at.required("service"));
  m.speed = decode_frozen(at.required("speed"));
  const JsonReader dimensions = at.required("dimensions");
  for (const auto& name : dimensions.keys())
    m.dimensions.emplace(name, decode_dimension(dimensions.required(name)));
  if (const auto f = at.optional("fastener")) {
    m.fastener = Fastener{f->required("thread").text(64), f->required("grade").text(64),
                          f->required("condition").text(64), decode_optional(f->required("torque_lower")),
                          decode_optional(f->required("torque_upper"))};
    if (const auto hand = f->optional("hand")) m.fastener->hand = decode_hand(*hand);
  }
  if (const auto sheets = at.optional("sheets")) m.sheets = decode_frozen_sheets(*sheets);
  if (const auto back = at.optional("impeller_back")) m.impeller_back = decode_impeller_back(*back);
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

json encode_material(const FaceMaterial& m) {
  return {{"letter", m.letter},
          {"modulus_Pa", m.modulus.value()},
          {"poisson", m.poisson},
          {"expansion_per_K", m.expansion.value()},
          {"conductivity_W_mK", m.conductivity.value()},
          {"density_kg_m3", m.density.value()},
          {"heat_capacity_J_kgK", m.heat_capacity.value()},
          {"source", encode_source(m.source)}};
}

FaceMaterial decode_material(const JsonReader& at) {
  at.allow_only({"letter", "modulus_Pa", "poisson", "expansion_per_K", "conductivity_W_mK", "density_kg_m3",
                 "heat_capacity_J_kgK", "source"});
  return {at.required("letter").text(16),
          pascals(at.required("modulus_Pa").number()),
          at.required("poisson").number(),
          per_kelvin(at.required("expansion_per_K").number()),
          watts_per_metre_kelvin(at.required("conductivity_W_mK").number()),
          kilograms_per_cubic_metre(at.required("density_kg_m3").number()),
          joules_per_kilogram_kelvin(at.required("heat_capacity_J_kgK").number()),
          decode_source(at.required("source"))};
}

json encode_seal_figures(const SealFigures& f) {
  json out{{"ring", encode_material(f.ring)}, {"seat", encode_material(f.seat)}};
  if (f.friction) out["friction"] = *f.friction;
  if (f.friction_source) out["friction_source"] = encode_source(*f.friction_source);
  if (f.elastomer_limit) out["elastomer_limit_K"] = kelvin_of(*f.elastomer_limit);
  return out;
}

SealFigures decode_seal_figures(const JsonReader& at) {
  at.allow_only({"ring", "seat", "friction", "friction_source", "elastomer_limit_K"});
  SealFigures f{decode_material(at.required("ring")), decode_material(at.required("seat")), {}, {}, {}};
  if (const auto friction = at.optional("friction")) f.friction = friction->number();
  if (const auto source = at.optional("friction_source")) f.friction_source = decode_source(*source);
  if (const auto limit = at.optional("elastomer_limit_K")) f.elastomer_limit = kelvin(limit->number());
  return f;
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
  if (s.seal) out["seal"] = encode_seal_figures(*s.seal);
  return out;
}

Snapshot decode_snapshot(const JsonReader& at) {
  at.allow_only({"catalog", "program", "seed", "make_up", "instruments", "adoptions", "expansions_per_K",
                 "plan", "fastener", "seal"});
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
  if (const auto seal = at.optional("seal")) s.seal = decode_seal_figures(*seal);
  return s;
}

}  // namespace pumpwright::job
