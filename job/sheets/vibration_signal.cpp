#include "job/sheets/vibration_signal.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "job/check_words.h"

namespace pumpwright::job {
namespace {

using vibration::Measures;

constexpr std::size_t most_tones = 12;
constexpr double lowest_tone_hz = 2;

constexpr Words<SignalUnit, 4> signal_units{{{"m/s2", {Measures::acceleration, 1}},
                                             {"g", {Measures::acceleration, 9.80665}},
                                             {"mm/s", {Measures::velocity, 1e-3}},
                                             {"in/s", {Measures::velocity, 0.0254}}}};

std::vector<FoundTone> tones_of(const SignalFinding& f, const SignalAsked& asked, Frequency rate,
                                const std::vector<vibration::ExpectedLine>& expected) {
  const auto found = vibration::clear_tones(
      f.spectrum, asked.settings.window, Frequency::from_value(lowest_tone_hz), rate / 2.0, 4 * most_tones);
  std::vector<FoundTone> out;
  out.reserve(found.size());
  for (const auto& tone : found)
    out.push_back({tone, vibration::velocity_of(tone.rms, asked.measures, tone.at),
                   vibration::velocity_of(tone.u, asked.measures, tone.at),
                   vibration::matching(tone, expected, f.spectrum.line_spacing)});
  std::stable_sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.rms > b.rms; });
  if (out.size() > most_tones) out.resize(most_tones);
  return out;
}

}  // namespace

std::optional<SignalUnit> signal_unit(std::string_view word) {
  for (const auto& [known, unit] : signal_units)
    if (known == word) return unit;
  return std::nullopt;
}

SignalFinding signal_finding(const VibrationSheet& sheet, const SignalAsked& asked,
                             const RecordedSignal& recording, Executor& executor) {
  SignalFinding f;
  f.measures = asked.measures;
  f.spectrum = vibration::welch(recording.samples, recording.rate, asked.settings, executor);
  f.band = vibration::usual_band(sheet.pump.speed);
  const auto overall = vibration::overall_velocity(f.spectrum, asked.measures, f.band);
  const Velocity of_chain = meter_u(overall.rms, sheet.meter_error);
  f.overall = judged_place(asked.place, overall.rms,
                           Velocity::from_value(std::hypot(overall.u.value(), of_chain.value())),
                           vibration_finding(sheet).limits);
  f.tones = tones_of(f, asked, recording.rate, vibration::expected_lines(sheet.pump));
  return f;
}

}  // namespace pumpwright::job
