#include "job/bench_sheet.h"

#include <algorithm>
#include <array>
#include <utility>

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <nlohmann/json.hpp>

#include "engine/quantity/bad_input.h"
#include "job/check_words.h"
#include "job/sheets/alignment_check.h"
#include "job/sheets/balance_check.h"
#include "job/sheets/performance_check.h"
#include "job/sheets/pressure_hold_check.h"
#include "job/sheets/rotor_check.h"
#include "job/sheets/strip_down_check.h"
#include "job/sheets/system_check.h"
#include "job/sheets/vibration_check.h"

namespace pumpwright::job {
namespace {

using nlohmann::json;

// What a kind of sheet must be able to do before anything was read.
struct SheetKind {
  SheetParts parts;
  void (*try_planned)(const JsonReader& whole);  // throws BadInput
  std::vector<std::string> (*tags)(const JsonReader& whole);
  std::vector<Limit> (*limits)(Judged judged, const JsonReader& whole);
};

constexpr std::array<std::string_view, 7> hold_planned{"rule",  "parts",    "seal",      "medium",
                                                       "gauge", "altitude", "leak_limit"};
constexpr std::array<std::string_view, 3> hold_read{"vented", "isolated", "readings"};

constexpr std::array<std::string_view, 4> balance_planned{"angles", "rotor", "planes", "key"};
constexpr std::array<std::string_view, 2> balance_read{"sensors", "runs"};

constexpr std::array<std::string_view, 7> alignment_planned{
    "seen_from", "tolerance", "coupling", "sweep_tolerance", "moved", "fixed", "shims"};
constexpr std::array<std::string_view, 3> alignment_read{"indicator", "dials", "soft_foot"};

constexpr std::array<std::string_view, 11> rotor_planned{
    "speed",     "material",        "shaft",     "bearings",   "impeller", "others",
    "seal_face", "operating_point", "unbalance", "axial_load", "limits"};

constexpr std::array<std::string_view, 6> performance_planned{"stages", "test",     "guarantee",
                                                              "npsh",   "impeller", "driver"};
constexpr std::array<std::string_view, 3> performance_read{"test/points", "npsh/suppression", "driver/lines"};

constexpr std::array<std::string_view, 8> vibration_planned{
    "speed", "vanes", "line_frequency", "bearings", "category", "power", "confirmed_by", "meter_error"};
constexpr std::array<std::string_view, 1> vibration_read{"overall"};

constexpr std::array<std::string_view, 9> system_planned{"liquid",      "temperature", "viscosity",
                                                         "pump",        "plant",       "arrangement",
                                                         "wanted_flow", "motor",       "viscous_duty"};
constexpr std::array<std::string_view, 1> system_read{"motor/measured"};

constexpr std::array<std::string_view, 2> strip_down_planned{"complaint", "hours_run"};
constexpr std::array<std::string_view, 3> strip_down_read{"found", "not_found", "measured"};

std::vector<std::string> no_tags(const JsonReader&) {
  return {};
}

const std::array<SheetKind, sheet_words.size()>& kinds() {
  static const std::array<SheetKind, sheet_words.size()> all{
      {{{SheetOf::pressure_hold, "pumpwright-pressure-hold", hold_planned, hold_read, {}},
        pressure_hold::try_planned,
        pressure_hold::tags,
        pressure_hold::limits},
       {{SheetOf::balance, "pumpwright-balance", balance_planned, balance_read, {}},
        balance::try_planned,
        no_tags,
        [](Judged, const JsonReader& whole) { return balance::limits(whole); }},
       {{SheetOf::alignment, "pumpwright-align", alignment_planned, alignment_read, "indicator"},
        aligning::try_planned,
        no_tags,
        [](Judged, const JsonReader& whole) { return aligning::limits(whole); }},
       {{SheetOf::rotor, "pumpwright-rotor", rotor_planned, {}, {}},
        shaft::try_planned,
        shaft::tags,
        shaft::limits},
       {{SheetOf::performance, "pumpwright-performance", performance_planned, performance_read, {}},
        performance::try_planned,
        performance::tags,
        performance::limits},
       {{SheetOf::vibration, "pumpwright-vibration", vibration_planned, vibration_read, {}},
        vibrating::try_planned,
        no_tags,
        [](Judged, const JsonReader& whole) { return vibrating::limits(whole); }},
       {{SheetOf::system, "pumpwright-system", system_planned, system_read, {}, true},
        running::try_planned,
        no_tags,
        [](Judged, const JsonReader& whole) { return running::limits(whole); }},
       {{SheetOf::strip_down, "pumpwright-strip-down", strip_down_planned, strip_down_read, {}},
        stripping::try_planned,
        no_tags,
        [](Judged, const JsonReader&) { return stripping::limits(); }}}};
  return all;
}

const SheetKind& kind_of(SheetOf sheet) {
  return *std::find_if(kinds().begin(), kinds().end(),
                       [sheet](const SheetKind& k) { return k.parts.of == sheet; });
}

std::string word_of(SheetOf sheet) {
  return std::string(word_in(sheet_words, sheet));
}

[[noreturn]] void refuse_key(const std::string& key, std::span<const std::string_view> keys) {
  throw BadInput({.field = key,
                  .place = "/" + key,
                  .value = key,
                  .expected = fmt::format("one of {} here", fmt::join(keys, ", "))});
}

json::json_pointer pointer_to(std::string_view key) {
  return json::json_pointer("/" + std::string(key));
}

bool is_within(std::string_view key) {
  return key.find('/') != std::string_view::npos;
}

// What the make-up says, into the file; nothing of it that is read at the bench.
void put_planned(const std::string& part, const SheetParts& parts, json& whole) {
  if (part.empty()) return;
  const json object = json::parse(part);
  for (const auto& [key, value] : object.items()) {
    if (std::find(parts.planned.begin(), parts.planned.end(), key) == parts.planned.end())
      refuse_key(key, parts.planned);
    whole[key] = value;
  }
  for (const auto key : parts.read)
    if (is_within(key) && object.contains(pointer_to(key)))
      throw BadInput({.field = std::string(key.substr(key.rfind('/') + 1)),
                      .place = "/" + std::string(key),
                      .value = std::string(key),
                      .expected = "this in the reading"});
}

// What was read, into the file. `left`: what of it has found its place is taken out.
void put_read(const std::string& part, const SheetParts& parts, json& whole) {
  if (part.empty()) return;
  json left = json::parse(part);
  for (const auto key : parts.read) {
    const auto at = pointer_to(key);
    if (!left.contains(at)) continue;
    whole[at] = left[at];
    json& holder = left[at.parent_pointer()];
    holder.erase(at.back());
    if (is_within(key) && holder.empty()) left.erase(at.parent_pointer().back());
  }
  if (!left.empty()) refuse_key(left.begin().key(), parts.read);
}

std::string object_text(const JsonReader& at) {
  if (!at.is_object()) at.refuse("an object");
  return at.raw().dump();
}

}  // namespace

const SheetParts& parts_of(SheetOf sheet) {
  return kind_of(sheet).parts;
}

JsonReader whole_sheet(SheetOf sheet, const std::string& planned, const std::string& read) {
  const SheetParts& parts = parts_of(sheet);
  json whole{{"format", parts.format}, {"version", 1}, {"name", word_of(sheet)}};
  put_planned(planned, parts, whole);
  put_read(read, parts, whole);
  return JsonReader::parse(whole.dump());
}

BenchSheets decode_sheets(const JsonReader& sheets) {
  BenchSheets out;
  for (const auto& name : sheets.keys()) {
    const JsonReader at = sheets.required(name);
    const auto known = std::find_if(sheet_words.begin(), sheet_words.end(),
                                    [&](const auto& entry) { return entry.first == name; });
    if (known == sheet_words.end()) at.refuse("the sheet of a bench test, such as pressure-hold");
    const std::string planned = object_text(at);
    try {
      kind_of(known->second).try_planned(whole_sheet(known->second, planned, {}));
    } catch (const BadInput& e) {
      throw e.at(at.pointer());
    }
    out.emplace(known->second, planned);
  }
  return out;
}

std::string decode_sheet_reading(const JsonReader& at) {
  return object_text(at);
}

json encode_sheets(const BenchSheets& sheets) {
  json out = json::object();
  for (const auto& [sheet, planned] : sheets)
    out[word_of(sheet)] = json::parse(planned);
  return out;
}

BenchSheets decode_frozen_sheets(const JsonReader& at) {
  return decode_sheets(at);
}

std::set<std::string> sheet_tags(const BenchSheets& sheets) {
  std::set<std::string> out;
  for (const auto& [sheet, planned] : sheets) {
    out.insert(word_of(sheet));
    for (auto& tag : kind_of(sheet).tags(whole_sheet(sheet, planned, {})))
      out.insert(std::move(tag));
  }
  return out;
}

std::vector<Limit> sheet_limits(const Check& check, const BenchSheets& sheets) {
  const auto at = sheets.find(*check.sheet);
  if (at == sheets.end()) return {};
  return kind_of(*check.sheet).limits(check.judged, whole_sheet(*check.sheet, at->second, {}));
}

}  // namespace pumpwright::job
