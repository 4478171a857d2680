#include "shop/shop_log.h"

#include <functional>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "engine/quantity/bad_input.h"
#include "job/instrument_json.h"
#include "job/json_reader.h"
#include "job/make_up.h"
#include "shop/old_table.h"

namespace pumpwright::shop {
namespace {

using job::JsonReader;
using job::Text;

std::string not_empty(const JsonReader& at, std::size_t bytes_max) {
  std::string text = at.text(bytes_max);
  if (text.empty()) at.refuse("a text that is not empty");
  return text;
}

std::string optional_text(const JsonReader& at, std::string_view key, std::size_t bytes_max) {
  const auto value = at.optional(key);
  return value ? value->text(bytes_max) : std::string();
}

Role decode_role(const JsonReader& at) {
  return *role_from(at.word({"technician", "lead-hand", "office", "read-only"}));
}

Text add_person(ShopState& state, const JsonReader& at) {
  at.allow_only({"id", "name", "role", "public_key", "certificate"});
  Person p;
  p.id = not_empty(at.required("id"), 16);
  p.name = not_empty(at.required("name"), 128);
  p.role = decode_role(at.required("role"));
  p.public_key = not_empty(at.required("public_key"), 64);
  p.certificate = not_empty(at.required("certificate"), 128);
  if (!state.people.emplace(p.id, p).second)
    at.required("id").refuse("initials that nobody has, or ever had, here");
  const Text role = title_of(p.role);
  return {p.id + " joined as " + role.en, p.id + " entró como " + role.es};
}

// A changed role needs a new certificate; the shop adds it before the event is stored.
Text change_person(ShopState& state, const JsonReader& at) {
  at.allow_only({"id", "role", "active", "certificate"});
  const auto known = state.people.find(at.required("id").text(16));
  if (known == state.people.end()) at.required("id").refuse("a person of this shop");
  Person p = known->second;
  if (const auto role = at.optional("role")) {
    p.role = decode_role(*role);
    p.certificate = not_empty(at.required("certificate"), 128);
  }
  if (const auto active = at.optional("active")) p.active = active->boolean();
  const auto answers = [](const Person& q) { return q.active && q.role == Role::lead_hand; };
  int others = 0;
  for (const auto& [id, q] : state.people)
    others += id != p.id && answers(q) ? 1 : 0;
  if (others == 0 && !answers(p)) at.refuse("a shop that keeps at least one lead hand");
  known->second = p;
  const Text role = title_of(p.role);
  if (!p.active) return {p.id + " left", p.id + " salió"};
  return {p.id + " is " + role.en, p.id + " es " + role.es};
}

Text set_instrument(ShopState& state, const JsonReader& at) {
  at.allow_only({"instrument"});
  const job::ShopInstrument i = job::decode_instrument(at.required("instrument"));
  state.instruments[i.id] = i;
  const std::string due = job::format_utc_day(i.due);
  return {i.id + ", calibrated until " + due, i.id + ", calibrado hasta " + due};
}

Text retire_instrument(ShopState& state, const JsonReader& at) {
  at.allow_only({"id"});
  const std::string id = at.required("id").text(64);
  if (state.instruments.erase(id) == 0) at.required("id").refuse("an instrument of this shop");
  return {id + " taken out of use", id + " retirado"};
}

Text adopt(ShopState& state, const JsonReader& at, const store::StoredEvent& event) {
  at.allow_only({"limit"});
  const std::string limit = not_empty(at.required("limit"), 256);
  const std::string second = event.accepted_at.substr(0, 19) + "Z";
  if (!state.adoptions.emplace(limit, job::Adoption{limit, event.actor, job::parse_utc_time(second, "time")})
           .second)
    at.required("limit").refuse("a limit that is not adopted yet");
  return {"the shop stands behind " + limit, "el taller respalda " + limit};
}

Text set_limit(ShopState& state, const JsonReader& at, const store::StoredEvent& event) {
  at.allow_only({"id", "check", "rank", "for", "lower", "upper", "source"});
  OwnLimit limit;
  limit.id = not_empty(at.required("id"), 128);
  limit.check = not_empty(at.required("check"), 128);
  limit.rank = at.required("rank").word({"family", "customer"});
  limit.applies_to = optional_text(at, "for", 256);
  limit.lower = optional_text(at, "lower", 64);
  limit.upper = optional_text(at, "upper", 64);
  limit.source = not_empty(at.required("source"), 512);
  if (limit.lower.empty() && limit.upper.empty()) at.refuse("a limit with \"lower\" or \"upper\"");
  limit.by = event.actor;
  limit.at = event.accepted_at;
  state.limits[limit.id] = limit;
  const std::string range =
      limit.lower + (limit.lower.empty() || limit.upper.empty() ? "" : " … ") + limit.upper;
  return {fmt::format("limit of {}: {}", limit.check, range),
          fmt::format("límite de {}: {}", limit.check, range)};
}

Text clear_limit(ShopState& state, const JsonReader& at) {
  at.allow_only({"id"});
  const std::string id = at.required("id").text(128);
  if (state.limits.erase(id) == 0) at.required("id").refuse("a limit of this shop");
  return {"limit " + id + " taken back", "límite " + id + " retirado"};
}

Text set_sheet(ShopState& state, const JsonReader& at, const store::StoredEvent& event) {
  at.allow_only({"pump", "make_up"});
  const std::string family = not_empty(at.required("pump"), 256);
  const JsonReader make_up = at.required("make_up");
  if (!make_up.is_object()) make_up.refuse("an object with fields of a make-up");
  state.sheets[family] = {family, make_up.raw().dump(), event.actor, event.accepted_at};
  return {"sheet of " + family, "hoja de " + family};
}

Text set_step_text(ShopState& state, const JsonReader& at, const store::StoredEvent& event) {
  at.allow_only({"step", "what_to_do"});
  const std::string step = not_empty(at.required("step"), 128);
  const JsonReader words = at.required("what_to_do");
  words.allow_only({"en", "es"});
  const Text text{not_empty(words.required("en"), 4096), not_empty(words.required("es"), 4096)};
  state.step_texts[step] = {step, text, event.actor, event.accepted_at};
  return {"own words for step " + step, "texto propio del paso " + step};
}

Text clear_step_text(ShopState& state, const JsonReader& at) {
  at.allow_only({"step"});
  const std::string step = at.required("step").text(128);
  if (state.step_texts.erase(step) == 0) at.required("step").refuse("a step with words of the shop's own");
  return {"step " + step + " has its usual words again", "el paso " + step + " vuelve a su texto"};
}

Text set_old_columns(ShopState& state, const JsonReader& at, const store::StoredEvent& event) {
  at.allow_only({"name", "columns"});
  const std::string name = not_empty(at.required("name"), 80);
  const OldColumns columns = decode_old_columns(at.required("columns"));
  state.old_columns[name] = {name, encode_old_columns(columns).dump(), event.actor, event.accepted_at};
  return {"columns of old records: " + name, "columnas de registros antiguos: " + name};
}

Text name_shop(ShopState& state, const JsonReader& at) {
  at.allow_only({"name", "invented"});
  state.name = not_empty(at.required("name"), 128);
  if (const auto invented = at.optional("invented")) state.invented = invented->boolean();
  return {"the shop is called " + state.name, "el taller se llama " + state.name};
}

Text enroll_device(ShopState& state, const JsonReader& at) {
  at.allow_only({"id", "name"});
  const Device device{not_empty(at.required("id"), 64), not_empty(at.required("name"), 64), true};
  state.devices[device.id] = device;
  return {"device " + device.name + " enrolled", "dispositivo " + device.name + " registrado"};
}

Text drop_device(ShopState& state, const JsonReader& at) {
  at.allow_only({"id"});
  const auto known = state.devices.find(at.required("id").text(64));
  if (known == state.devices.end()) at.required("id").refuse("a device of this shop");
  known->second.active = false;
  return {"device " + known->second.name + " dropped", "dispositivo " + known->second.name + " dado de baja"};
}

Text apply_payload(ShopState& state, const store::StoredEvent& event, const JsonReader& at) {
  const std::map<std::string, std::function<Text()>> by_type{
      {"shop-named", [&] { return name_shop(state, at); }},
      {"person-added", [&] { return add_person(state, at); }},
      {"person-changed", [&] { return change_person(state, at); }},
      {"instrument-set", [&] { return set_instrument(state, at); }},
      {"instrument-retired", [&] { return retire_instrument(state, at); }},
      {"limit-adopted", [&] { return adopt(state, at, event); }},
      {"limit-set", [&] { return set_limit(state, at, event); }},
      {"limit-cleared", [&] { return clear_limit(state, at); }},
      {"sheet-set", [&] { return set_sheet(state, at, event); }},
      {"step-text-set", [&] { return set_step_text(state, at, event); }},
      {"step-text-cleared", [&] { return clear_step_text(state, at); }},
      {"old-columns-set", [&] { return set_old_columns(state, at, event); }},
      {"device-enrolled", [&] { return enroll_device(state, at); }},
      {"device-dropped", [&] { return drop_device(state, at); }},
  };
  const auto known = by_type.find(event.type);
  if (known != by_type.end()) return known->second();
  std::string words;
  for (const auto& [type, act] : by_type)
    words += (words.empty() ? "one of " : ", ") + type;
  throw BadInput({.field = "type", .place = "", .value = event.type, .expected = words});
}

}  // namespace

void apply(ShopState& state, const store::StoredEvent& event) {
  const JsonReader at = JsonReader::parse(event.payload);
  const Text text = apply_payload(state, event, at);
  state.changes.push_back({event.seq, event.accepted_at, event.actor, event.type, text});
  state.seq = event.seq;
}

}  // namespace pumpwright::shop
