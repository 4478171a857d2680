#include "cli/vibration_file.h"

#include "job/decode.h"
#include "job/json_quantity.h"

namespace pumpwright {
namespace {

using job::JsonReader;
using job::quantity_between;

constexpr std::int64_t version = 1;
constexpr double tiny = 1e-12;

vibration::NamedBearing read_bearing(const JsonReader& json, const std::vector<std::string>& names) {
  json.allow_only({"name", "elements", "element_diameter", "pitch_diameter", "contact"});
  vibration::NamedBearing out;
  out.name = job::new_name(json.required("name"), names);
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

void read_pump(const JsonReader& json, VibrationFile& file) {
  file.speed =
      job::written_between(json.required("speed"), Kind::speed, 0.1, 1e4, "a speed from 1 to 95000 rpm");
  file.pump.speed = file.speed.quantity().as<Speed>();
  if (const auto vanes = json.optional("vanes")) file.pump.vanes = static_cast<int>(vanes->integer(1, 20));
  if (const auto line = json.optional("line_frequency"))
    file.pump.line = quantity_between<Frequency>(*line, 1, 1000, "a frequency from 1 to 1000 Hz");
  std::vector<std::string> names;
  if (const auto bearings = json.optional("bearings"))
    for (const auto& item : bearings->items(20)) {
      file.pump.bearings.push_back(read_bearing(item, names));
      names.push_back(file.pump.bearings.back().name);
    }
  if (const auto category = json.optional("category"))
    file.category =
        category->word({"I", "II"}) == "I" ? vibration::PumpCategory::one : vibration::PumpCategory::two;
  if (const auto power = json.optional("power"))
    file.power = job::written_between(*power, Kind::power, 1000.000001, 1e9, "a power over 1 kW");
  if (file.category.has_value() != file.power.has_value())
    json.refuse("category and power, or neither: the zones go by both");
}

void read_overall(const JsonReader& json, VibrationFile& file) {
  std::vector<std::string> places;
  for (const auto& item : json.items(50)) {
    item.allow_only({"place", "velocity"});
    places.push_back(job::new_name(item.required("place"), places));
    file.overall.push_back({places.back(), job::written_between(item.required("velocity"), Kind::velocity, 0,
                                                                1, "an r.m.s. velocity from 0 to 1 m/s")});
  }
}

struct SignalUnit {
  std::string_view word;
  vibration::Measures measures;
  double si;
};
constexpr SignalUnit signal_units[] = {{"m/s2", vibration::Measures::acceleration, 1},
                                       {"g", vibration::Measures::acceleration, 9.80665},
                                       {"mm/s", vibration::Measures::velocity, 1e-3},
                                       {"in/s", vibration::Measures::velocity, 0.0254}};

// What one of the recording's own units is worth: "full_scale" of integer samples, 1 of a column in the unit.
void read_unit(const JsonReader& json, SignalRead& out) {
  const auto word = json.required("unit").word({"m/s2", "g", "mm/s", "in/s"});
  for (const auto& unit : signal_units)
    if (unit.word == word) {
      out.measures = unit.measures;
      out.si_per_unit = unit.si;
    }
  const auto scale = json.optional("full_scale");
  if (out.wav && !scale) (void)json.required("full_scale");
  if (!scale) return;
  const double number = scale->number();
  if (!(number > 0 && number < 1e9)) scale->refuse("a number over 0: what 1 in the recording stands for");
  out.si_per_unit *= number;
}

void read_csv_columns(const JsonReader& json, SignalRead& out) {
  out.columns.samples = json.required("column").text(200);
  const auto rate = json.optional("rate");
  const auto time = json.optional("time");
  if (rate.has_value() == time.has_value()) json.refuse("rate, or the column time, of a CSV file");
  if (time) out.columns.time = time->text(200);
  if (rate) out.columns.rate = quantity_between<Frequency>(*rate, 1, 1e7, "a frequency from 1 Hz to 10 MHz");
}

SignalRead read_signal(const JsonReader& json) {
  json.allow_only(
      {"place", "file", "channel", "column", "rate", "time", "unit", "full_scale", "segment", "window"});
  SignalRead out;
  out.place = json.required("place").text(80);
  out.path = json.required("file").text(1000);
  out.wav = out.path.ends_with(".wav") || out.path.ends_with(".WAV");
  if (const auto channel = json.optional("channel")) out.channel = static_cast<int>(channel->integer(1, 64));
  if (!out.wav) read_csv_columns(json, out);
  read_unit(json, out);
  if (const auto segment = json.optional("segment"))
    out.settings.segment = static_cast<std::size_t>(segment->integer(256, 1 << 22));
  out.settings.overlap = out.settings.segment / 2;
  if (const auto window = json.optional("window"))
    out.settings.window =
        window->word({"hann", "flat-top"}) == "hann" ? vibration::Window::hann : vibration::Window::flat_top;
  return out;
}

}  // namespace

VibrationFile decode_vibration_file(std::string_view bytes) {
  const auto json = JsonReader::parse(bytes);
  json.allow_only({"format", "version", "name", "note", "speed", "vanes", "line_frequency", "bearings",
                   "category", "power", "confirmed_by", "meter_error", "overall", "signal"});
  (void)json.required("format").word({"pumpwright-vibration"});
  (void)json.required("version").integer(version, version);
  if (const auto note = json.optional("note")) (void)note->text();
  VibrationFile file;
  file.name = json.required("name").text(200);
  read_pump(json, file);
  if (const auto who = json.optional("confirmed_by")) {
    file.confirmed_by = who->text(200);
    if (file.confirmed_by.empty()) who->refuse("who compared the figures with the standard");
  }
  if (const auto error = json.optional("meter_error")) file.meter_error = job::decode_part(*error, 0, 0.5);
  if (const auto overall = json.optional("overall")) read_overall(*overall, file);
  if (const auto signal = json.optional("signal")) file.signal = read_signal(*signal);
  if (file.overall.empty() && !file.signal) json.refuse("overall, signal or both");
  return file;
}

}  // namespace pumpwright
