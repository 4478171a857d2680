#include "job/sheets/vibration_sheet.h"

#include "job/decode.h"
#include "job/json_quantity.h"

namespace pumpwright::job {
namespace {

constexpr std::int64_t version = 1;
constexpr double tiny = 1e-12;

vibration::NamedBearing read_bearing(const JsonReader& json, const std::vector<std::string>& names) {
  json.allow_only({"name", "elements", "element_diameter", "pitch_diameter", "contact"});
  vibration::NamedBearing out;
  out.name = new_name(json.required("name"), names);
  out.geometry.elements = static_cast<int>(json.required("elements").integer(3, 200));
  out.geometry.element_diameter =
      quantity_between<Length>(json.required("element_diameter"), tiny, 1, "a length over 0 up to 1 m");
  out.geometry.pitch_diameter =
      quantity_between<Length>(json.required("pitch_diameter"), tiny, 10, "a length over 0 up to 10 m");
  if (const auto contact = json.optional("contact"))
    out.geometry.contact = quantity_between<Angle>(*contact, 0, 1.4, "an angle from 0 to 80 degrees");
  if (out.geometry.pitch_diameter <= out.geometry.element_diameter)
    json.required("pitch_diameter").refuse("a diameter over the element's");
  return out;
}

void read_pump(const JsonReader& json, VibrationSheet& sheet) {
  sheet.speed = written_between(json.required("speed"), Kind::speed, 0.1, 1e4, "a speed from 1 to 95000 rpm");
  sheet.pump.speed = sheet.speed.quantity().as<Speed>();
  if (const auto vanes = json.optional("vanes")) sheet.pump.vanes = static_cast<int>(vanes->integer(1, 20));
  if (const auto line = json.optional("line_frequency"))
    sheet.pump.line = quantity_between<Frequency>(*line, 1, 1000, "a frequency from 1 to 1000 Hz");
  std::vector<std::string> names;
  if (const auto bearings = json.optional("bearings"))
    for (const auto& item : bearings->items(20)) {
      sheet.pump.bearings.push_back(read_bearing(item, names));
      names.push_back(sheet.pump.bearings.back().name);
    }
  if (const auto category = json.optional("category"))
    sheet.category =
        category->word({"I", "II"}) == "I" ? vibration::PumpCategory::one : vibration::PumpCategory::two;
  if (const auto power = json.optional("power"))
    sheet.power = written_between(*power, Kind::power, 1000.000001, 1e9, "a power over 1 kW");
  if (sheet.category.has_value() != sheet.power.has_value())
    json.refuse("category and power, or neither: the zones go by both");
}

void read_overall(const JsonReader& json, VibrationSheet& sheet) {
  std::vector<std::string> places;
  for (const auto& item : json.items(50)) {
    item.allow_only({"place", "velocity"});
    places.push_back(new_name(item.required("place"), places));
    sheet.overall.push_back({places.back(), written_between(item.required("velocity"), Kind::velocity, 0, 1,
                                                            "an r.m.s. velocity from 0 to 1 m/s")});
  }
}

}  // namespace

VibrationSheet decode_vibration(const JsonReader& json) {
  json.allow_only({"format", "version", "name", "note", "speed", "vanes", "line_frequency", "bearings",
                   "category", "power", "confirmed_by", "meter_error", "overall", "signal"});
  (void)json.required("format").word({"pumpwright-vibration"});
  (void)json.required("version").integer(version, version);
  if (const auto note = json.optional("note")) (void)note->text();
  VibrationSheet sheet;
  sheet.name = json.required("name").text(200);
  read_pump(json, sheet);
  if (const auto who = json.optional("confirmed_by")) {
    sheet.confirmed_by = who->text(200);
    if (sheet.confirmed_by.empty()) who->refuse("who compared the figures with the standard");
  }
  if (const auto error = json.optional("meter_error")) sheet.meter_error = decode_part(*error, 0, 0.5);
  if (const auto overall = json.optional("overall")) read_overall(*overall, sheet);
  return sheet;
}

}  // namespace pumpwright::job
