#include "cli/vibration_question.h"

#include <algorithm>
#include <cmath>

#include "cli/input_file.h"
#include "job/json_quantity.h"

namespace pumpwright {
namespace {

constexpr std::size_t most_tones = 12;
constexpr double lowest_tone_hz = 2;

void analyse(const VibrationQuestion& q, VibrationAnswer& f, Executor& executor) {
  const SignalRead& signal = *q.sheet.signal;
  job::placed("/signal", [&] {
    f.spectrum = vibration::welch(q.recording->samples, q.recording->rate, signal.settings, executor);
    const auto overall = vibration::overall_velocity(*f.spectrum, signal.measures, f.band);
    const Velocity of_chain = job::meter_u(overall.rms, q.sheet.meter_error);
    f.places.push_back(
        job::judged_place(signal.place, overall.rms,
                          Velocity::from_value(std::hypot(overall.u.value(), of_chain.value())), f.limits));
    const auto found =
        vibration::clear_tones(*f.spectrum, signal.settings.window, Frequency::from_value(lowest_tone_hz),
                               q.recording->rate / 2.0, 4 * most_tones);
    for (const auto& tone : found)
      f.tones.push_back({tone, vibration::velocity_of(tone.rms, signal.measures, tone.at),
                         vibration::matching(tone, f.expected, f.spectrum->line_spacing)});
    return 0;
  });
  std::stable_sort(f.tones.begin(), f.tones.end(),
                   [](const auto& a, const auto& b) { return a.rms > b.rms; });
  if (f.tones.size() > most_tones) f.tones.resize(most_tones);
}

void conclude(const VibrationFile& sheet, VibrationAnswer& f) {
  if (!f.limits) return;
  const auto any = [&](Outcome outcome) {
    return std::any_of(f.places.begin(), f.places.end(),
                       [&](const job::JudgedPlace& place) { return place.by_figures == outcome; });
  };
  f.verdict = any(Outcome::fail) ? "fail" : any(Outcome::unproven) ? "unproven" : "pass";
  f.reason = f.verdict == "fail"   ? "outside-guarded"
             : f.verdict == "pass" ? "inside-guarded"
                                   : "limit-in-uncertainty";
  if (!sheet.confirmed_by.empty()) return;
  f.verdict = "unproven";
  f.reason = "limit-unconfirmed";
}

}  // namespace

VibrationAnswer answer(const VibrationQuestion& q, Executor& executor) {
  return naming_file(q.file, [&] {
    const VibrationFile& sheet = q.sheet;
    VibrationAnswer f{job::vibration_finding(sheet), {}, {}, {}, {}, {}, {}};
    f.band = vibration::usual_band(sheet.pump.speed);
    f.expected = vibration::expected_lines(sheet.pump);
    if (sheet.signal) analyse(q, f, executor);
    conclude(sheet, f);
    return f;
  });
}

}  // namespace pumpwright
