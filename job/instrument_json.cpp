#include "job/instrument_json.h"

#include <nlohmann/json.hpp>

#include "job/decode.h"

namespace pumpwright::job {
namespace {

using nlohmann::json;

// Runs a parser that throws BadInput without a place, and puts the place in front.
template <class F>
auto at_place(const JsonReader& at, F parse) {
  try {
    return parse(at.text(64), at.field());
  } catch (const BadInput& e) {
    throw e.at(at.pointer());
  }
}

Written not_negative(const JsonReader& at, Kind kind, const Unit& unit) {
  Written w = decode_written(at, kind, &unit);
  if (w.si < 0) at.refuse("not below zero");
  return w;
}

CalibrationSpan decode_calibration(const JsonReader& at) {
  const CalibrationSpan span{at_place(at.required("calibrated"), parse_start_of_day),
                             at_place(at.required("due"), parse_end_of_day)};
  if (span.to < span.from) at.required("due").refuse("a day not before the calibration day");
  return span;
}

}  // namespace

ShopInstrument decode_instrument(const JsonReader& at) {
  at.allow_only({"id", "kind", "measures", "unit", "graduation", "mpe", "repeatability", "calibrated", "due",
                 "calibrated_again"});
  ShopInstrument i;
  i.id = at.required("id").text(64);
  if (i.id.empty()) at.required("id").refuse("an id");
  i.kind = at.required("kind").text(64);
  if (const auto measures = at.optional("measures")) {
    const auto kind = kind_named(measures->text(64));
    if (!kind) measures->refuse("a kind of quantity such as length or torque");
    i.quantity = *kind;
  }
  const JsonReader unit_at = at.required("unit");
  i.unit = unit_at.text(32);
  const Unit* unit = find_unit(i.unit, i.quantity);
  if (unit == nullptr) unit_at.refuse("one of " + symbols_of(i.quantity));
  i.graduation = decode_positive(at.required("graduation"), i.quantity, unit);
  if (const auto mpe = at.optional("mpe")) i.mpe = not_negative(*mpe, i.quantity, *unit);
  if (const auto r = at.optional("repeatability")) i.repeatability = not_negative(*r, i.quantity, *unit);
  const CalibrationSpan first = decode_calibration(at);
  i.calibrated = first.from;
  i.due = first.to;
  if (const auto again = at.optional("calibrated_again"))
    for (const auto& item : again->items(100)) {
      item.allow_only({"calibrated", "due"});
      i.calibrated_again.push_back(decode_calibration(item));
    }
  return i;
}

std::map<std::string, ShopInstrument> decode_instruments(const JsonReader& json) {
  std::map<std::string, ShopInstrument> out;
  for (const auto& at : json.items(10000)) {
    const ShopInstrument i = decode_instrument(at);
    if (!out.emplace(i.id, i).second) at.required("id").refuse("an id that no other instrument has");
  }
  return out;
}

json encode_instrument(const ShopInstrument& i) {
  json out{{"id", i.id},
           {"kind", i.kind},
           {"measures", info(i.quantity).name},
           {"unit", i.unit},
           {"graduation", i.graduation.text},
           {"calibrated", format_utc_day(i.calibrated)},
           {"due", format_utc_day(i.due)}};
  if (i.mpe) out["mpe"] = i.mpe->text;
  if (i.repeatability) out["repeatability"] = i.repeatability->text;
  for (const auto& span : i.calibrated_again)
    out["calibrated_again"].push_back(
        {{"calibrated", format_utc_day(span.from)}, {"due", format_utc_day(span.to)}});
  return out;
}

Adoption decode_adoption(const JsonReader& at) {
  at.allow_only({"limit", "by", "time"});
  return {at.required("limit").text(256), at.required("by").text(64),
          at_place(at.required("time"), parse_utc_time)};
}

std::map<std::string, Adoption> decode_adoptions(const JsonReader& json) {
  std::map<std::string, Adoption> out;
  for (const auto& at : json.items(10000)) {
    const Adoption a = decode_adoption(at);
    out.emplace(a.limit, a);
  }
  return out;
}

json encode_adoption(const Adoption& a) {
  return {{"limit", a.limit}, {"by", a.by}, {"time", format_utc_time(a.time)}};
}

}  // namespace pumpwright::job
