#include "server/spectrum_view.h"

#include <nlohmann/json.hpp>

#include "engine/quantity/bad_input.h"
#include "engine/quantity/parse.h"
#include "job/bench_sheet.h"
#include "job/sheets/vibration_units.h"
#include "job/sheets/vibration_wording.h"
#include "job/sheets/wav.h"
#include "server/sheet_view.h"

namespace pumpwright::server {
namespace {

[[noreturn]] void refuse(const std::string& field, const std::string& value, const std::string& expected) {
  throw BadInput({.field = field, .place = "", .value = value, .expected = expected});
}

job::VibrationSheet planned(const job::Snapshot& snapshot) {
  const auto at = snapshot.make_up.sheets.find(job::SheetOf::vibration);
  if (at == snapshot.make_up.sheets.end())
    refuse("recording", "a job without it", "a job whose make-up has the sheet vibration");
  return job::decode_vibration(job::whole_sheet(job::SheetOf::vibration, at->second, {}));
}

double number_asked(const std::string& text, const std::string& field, double least, double most) {
  const double number = parse_number(text, {.field = field});
  if (!(number >= least && number <= most))
    refuse(field, text, "a number over 0 that is not beyond all measure");
  return number;
}

// Lines half a hertz apart or finer, as far as the recording holds four stretches of that length or more.
vibration::SpectrumSettings settings_for(const job::RecordedSignal& recording, vibration::Window window) {
  constexpr double spacing_hz = 0.5;
  vibration::SpectrumSettings settings;
  settings.window = window;
  settings.segment = 256;
  while (static_cast<double>(settings.segment) * spacing_hz < recording.rate.value() &&
         8 * settings.segment <= recording.samples.size())
    settings.segment *= 2;
  settings.overlap = settings.segment / 2;
  return settings;
}

vibration::Window window_asked(const std::string& word) {
  if (!word.empty() && word != "hann" && word != "flat-top") refuse("window", word, "hann or flat-top");
  return word == "flat-top" ? vibration::Window::flat_top : vibration::Window::hann;
}

}  // namespace

nlohmann::json spectrum_view(const job::Snapshot& snapshot, const RecordingAsked& asked,
                             std::string_view wav) {
  const job::VibrationSheet sheet = planned(snapshot);
  const auto unit = job::signal_unit(asked.unit);
  if (!unit) refuse("unit", asked.unit, "m/s2, g, mm/s or in/s");
  const double full_scale = number_asked(asked.full_scale, "full_scale", 1e-12, 1e9);
  const double channel = asked.channel.empty() ? 1 : number_asked(asked.channel, "channel", 1, 64);
  job::RecordedSignal recording = job::read_wav(wav, static_cast<int>(channel));
  for (double& sample : recording.samples)
    sample *= unit->si * full_scale;
  const job::SignalAsked signal{asked.place, unit->measures,
                                settings_for(recording, window_asked(asked.window))};
  SerialExecutor executor;
  const auto finding = job::signal_finding(sheet, signal, recording, executor);
  return {{"velocity", job::velocity_text(sheet, finding.overall.rms)},
          {"lines", lines_json(job::signal_lines(sheet, finding))},
          {"picture", picture_json(job::spectrum_picture(sheet, finding))}};
}

}  // namespace pumpwright::server
