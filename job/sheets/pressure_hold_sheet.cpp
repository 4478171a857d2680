#include "job/sheets/pressure_hold_sheet.h"

#include <cmath>

#include <fmt/format.h>

#include "engine/seal/atmosphere.h"
#include "job/json_quantity.h"
#include "job/sheets/pump_test_sheet.h"

namespace pumpwright::job {
namespace {

using hydraulics::HoldRule;

constexpr std::int64_t version = 1;
const double root3 = std::sqrt(3.0);

GaugePressure gauge(const JsonReader& json, PressureHoldSheet& sheet) {
  const Written written = decode_positive(json, Kind::pressure_gauge);
  if (sheet.pressure_unit == nullptr) sheet.pressure_unit = written.unit;
  return {pascals(written.si)};
}

HoldRule rule_of(const std::string& word) {
  for (const HoldRule rule : {HoldRule::rated_and_shutoff, HoldRule::mawp_150, HoldRule::mawp_110_thermoset})
    if (word == hydraulics::word_for(rule)) return rule;
  return HoldRule::own;
}

void read_rule(const JsonReader& json, PressureHoldSheet& sheet) {
  json.allow_only({"name", "rated", "shutoff", "mawp", "own", "power", "hold"});
  sheet.rule =
      rule_of(json.required("name").word({"rated-and-shutoff", "mawp-1.5", "mawp-1.1-thermoset", "own"}));
  if (const auto p = json.optional("rated")) sheet.basis.rated = gauge(*p, sheet);
  if (const auto p = json.optional("shutoff")) sheet.basis.shutoff = gauge(*p, sheet);
  if (const auto p = json.optional("mawp")) sheet.basis.mawp = gauge(*p, sheet);
  if (const auto p = json.optional("own")) sheet.basis.own = gauge(*p, sheet);
  if (const auto p = json.optional("power")) sheet.power = watts(decode_positive(*p, Kind::power).si);
  if (const auto t = json.optional("hold")) sheet.hold = seconds(decode_positive(*t, Kind::time).si);
}

// The seal's static rating is asked for by name, so that nobody forgets it.
void read_parts(const JsonReader& json, PressureHoldSheet& sheet) {
  for (const auto& part : json.required("parts").items(50)) {
    part.allow_only({"name", "rating"});
    sheet.parts.push_back({part.required("name").text(80), gauge(part.required("rating"), sheet)});
  }
  const auto seal = json.required("seal");
  seal.allow_only({"fitted", "static_rating"});
  const auto rating = seal.optional("static_rating");
  if (seal.required("fitted").boolean())
    sheet.parts.push_back({seal_part_name, gauge(seal.required("static_rating"), sheet)});
  else if (rating)
    rating->refuse("no rating of a seal that is not fitted");
}

void read_medium(const JsonReader& json, PressureHoldSheet& sheet) {
  json.allow_only({"kind", "liquid", "volume", "vessel_expansion", "vessel_give", "trapped_air",
                   "trapped_air_error", "bulk_modulus", "bulk_modulus_error", "expansion_error"});
  const bool gas = json.required("kind").word({"liquid", "gas"}) == "gas";
  sheet.medium = gas ? HoldMedium::gas : HoldMedium::liquid;
  sheet.volume = cubic_metres(decode_positive(json.required("volume"), Kind::volume).si);
  for (const char* key : {"liquid", "vessel_expansion", "vessel_give", "trapped_air", "trapped_air_error",
                          "bulk_modulus", "bulk_modulus_error", "expansion_error"})
    if (const auto only = json.optional(key); only && gas) only->refuse("this key with the kind liquid only");
  if (gas) return;
  sheet.liquid = decode_liquid(json.required("liquid"));
  auto& m = sheet.stiffness;
  if (const auto x = json.optional("vessel_expansion"))
    m.vessel_expansion_per_k = 3 * decode_positive(*x, Kind::expansion).si;
  if (const auto x = json.optional("vessel_give")) {
    x->allow_only({"volume", "per"});
    m.vessel_give_m3_pa = decode_positive(x->required("volume"), Kind::volume).si /
                          decode_positive(x->required("per"), Kind::pressure_difference).si;
  }
  if (const auto x = json.optional("trapped_air"))
    m.trapped_air = cubic_metres(decode_written(*x, Kind::volume).si);
  if (const auto x = json.optional("trapped_air_error"))
    m.trapped_air_u = cubic_metres(decode_written(*x, Kind::volume).si / root3);
  if (const auto x = json.optional("bulk_modulus"))
    m.bulk_modulus = pascals(decode_positive(*x, Kind::pressure_difference).si);
  if (const auto x = json.optional("bulk_modulus_error")) m.bulk_modulus_u = decode_part(*x, 0, 1) / root3;
  if (const auto x = json.optional("expansion_error")) m.expansion_u = decode_part(*x, 0, 1) / root3;
}

hydraulics::HoldReading read_reading(const JsonReader& json, PressureHoldSheet& sheet) {
  json.allow_only({"pressure", "temperature"});
  const auto temperature = decode_written(json.required("temperature"), Kind::temperature);
  return {gauge(json.required("pressure"), sheet), temperature.quantity().as<Temperature>()};
}

void read_gauge(const JsonReader& json, PressureHoldSheet& sheet, hydraulics::HoldTest& test) {
  json.allow_only({"range", "error_of_range", "reads_to"});
  sheet.gauge_range = gauge(json.required("range"), sheet);
  const double of_range = decode_part(json.required("error_of_range"), 0, 0.2);
  const double reads_to = decode_written(json.required("reads_to"), Kind::pressure_difference).si;
  if (reads_to < 0) json.required("reads_to").refuse("a step not below 0");
  test.pressure_u = pascals(reads_to / root3);
  test.pressure_scale_u = of_range / root3;
}

void read_readings(const JsonReader& json, PressureHoldSheet& sheet, hydraulics::HoldTest& test) {
  json.allow_only({"start", "end", "held", "temperature_error", "volume_error", "leak_seen"});
  test.start = read_reading(json.required("start"), sheet);
  test.end = read_reading(json.required("end"), sheet);
  test.held = seconds(decode_positive(json.required("held"), Kind::time).si);
  test.temperature_u = kelvin_step(
      decode_written(json.required("temperature_error"), Kind::temperature_difference).si / root3);
  test.volume_u = decode_part(json.required("volume_error"), 0, 1) / root3;
  sheet.leak_seen = json.required("leak_seen").boolean();
  for (const char* key : {"start", "end"}) {
    const auto reading = json.required(key).required("pressure");
    const auto p = decode_written(reading, Kind::pressure_gauge).si;
    if (p > sheet.gauge_range.value.value()) reading.refuse("a reading within the gauge's range");
  }
  sheet.test = test;
}

// Modulus and expansion come from the liquid; a sheet's own modulus wins.
void put_elasticity(const JsonReader& json, PressureHoldSheet& sheet) {
  if (sheet.medium == HoldMedium::gas) return;
  const Temperature t = sheet.test ? sheet.test->start.temperature : kelvin(293.15);
  const AbsolutePressure p{(sheet.test ? sheet.test->start.pressure.value : pascals(5e5)) +
                           sheet.atmosphere.value};
  const auto found = placed("/medium/liquid", [&] { return hydraulics::elasticity_of(*sheet.liquid, t, p); });
  sheet.stiffness.expansion_per_k = found.expansion_per_k;
  if (sheet.stiffness.bulk_modulus.value() > 0) return;
  if (!found.bulk_modulus)
    throw BadInput(
        {.field = "bulk_modulus",
         .place = json.required("medium").pointer(),
         .value = "nothing",
         .expected = "the liquid's bulk modulus, such as 2.2 GPa: the program does not know this liquid's"});
  sheet.stiffness.bulk_modulus = *found.bulk_modulus;
}

}  // namespace

PressureHoldSheet decode_pressure_hold(const JsonReader& json) {
  json.allow_only({"format", "version", "name", "note", "rule", "parts", "seal", "medium", "gauge",
                   "altitude", "vented", "isolated", "readings", "leak_limit"});
  (void)json.required("format").word({"pumpwright-pressure-hold"});
  (void)json.required("version").integer(version, version);
  if (const auto note = json.optional("note")) (void)note->text();
  PressureHoldSheet sheet;
  sheet.name = json.required("name").text(200);
  read_rule(json.required("rule"), sheet);
  read_parts(json, sheet);
  read_medium(json.required("medium"), sheet);
  const auto altitude = json.optional("altitude");
  sheet.atmosphere = seal::standard_atmosphere(altitude ? decode_length(*altitude, -500, 9000) : metres(0));
  hydraulics::HoldTest test;
  test.volume = sheet.volume;
  test.atmosphere = sheet.atmosphere;
  read_gauge(json.required("gauge"), sheet, test);
  const auto readings = json.optional("readings");
  if (readings || json.optional("vented")) sheet.vented = json.required("vented").boolean();
  if (readings || json.optional("isolated")) sheet.isolated = json.required("isolated").boolean();
  if (readings) read_readings(*readings, sheet, test);
  if (const auto limit = json.optional("leak_limit"))
    sheet.leak_limit = cubic_metres_per_second(decode_positive(*limit, Kind::volume_flow).si);
  put_elasticity(json, sheet);
  return sheet;
}

}  // namespace pumpwright::job
