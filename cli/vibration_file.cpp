#include "cli/vibration_file.h"

#include "job/json_quantity.h"

namespace pumpwright {
namespace {

using job::JsonReader;
using job::quantity_between;

// What one of the recording's own units is worth: "full_scale" of integer samples, 1 of a column in the unit.
void read_unit(const JsonReader& json, SignalRead& out) {
  const auto word = json.required("unit").word({"m/s2", "g", "mm/s", "in/s"});
  const auto unit = *job::signal_unit(word);
  out.asked.measures = unit.measures;
  out.si_per_unit = unit.si;
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
  out.asked.place = json.required("place").text(80);
  out.path = json.required("file").text(1000);
  out.wav = out.path.ends_with(".wav") || out.path.ends_with(".WAV");
  if (const auto channel = json.optional("channel")) out.channel = static_cast<int>(channel->integer(1, 64));
  if (!out.wav) read_csv_columns(json, out);
  read_unit(json, out);
  if (const auto segment = json.optional("segment"))
    out.asked.settings.segment = static_cast<std::size_t>(segment->integer(256, 1 << 22));
  out.asked.settings.overlap = out.asked.settings.segment / 2;
  if (const auto window = json.optional("window"))
    out.asked.settings.window =
        window->word({"hann", "flat-top"}) == "hann" ? vibration::Window::hann : vibration::Window::flat_top;
  return out;
}

}  // namespace

VibrationFile decode_vibration_file(std::string_view bytes) {
  const auto json = JsonReader::parse(bytes);
  VibrationFile file{job::decode_vibration(json), {}};
  if (const auto signal = json.optional("signal")) file.signal = read_signal(*signal);
  if (file.overall.empty() && !file.signal) json.refuse("overall, signal or both");
  return file;
}

}  // namespace pumpwright
