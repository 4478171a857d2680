#include "cli/vibration_question.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "cli/input_file.h"
#include "job/json_quantity.h"

namespace pumpwright {
namespace {

constexpr std::size_t most_tones = 12;
constexpr double lowest_tone_hz = 2;

Outcome judged_against(Velocity rms, Velocity u, Velocity limit) {
  decision_si::Input in;
  in.upper = limit.value();
  in.value = rms.value();
  in.u = u.value();
  in.dof = std::numeric_limits<double>::infinity();
  in.never_negative = true;
  return decision_si::decide(in, Guarded{}).outcome;
}

void add_place(VibrationFinding& f, const std::string& place, Velocity rms, Velocity u) {
  JudgedPlace judged{place, rms, u, {}, Outcome::unproven};
  if (f.limits) {
    judged.zone = vibration::zone_of(rms, *f.limits);
    judged.by_figures = judged_against(rms, u, f.limits->b_to_c);
  }
  f.places.push_back(std::move(judged));
}

// A calibrated chain, read in the meter's own band, is off by so much of what it reads.
Velocity meter_u(Velocity rms, double error) {
  return rms * (error / std::sqrt(3.0));
}

void analyse(const VibrationQuestion& q, VibrationFinding& f, Executor& executor) {
  const SignalRead& signal = *q.sheet.signal;
  job::placed("/signal", [&] {
    f.spectrum = vibration::welch(q.recording->samples, q.recording->rate, signal.settings, executor);
    const auto overall = vibration::overall_velocity(*f.spectrum, signal.measures, f.band);
    const Velocity of_chain = meter_u(overall.rms, q.sheet.meter_error);
    add_place(f, signal.place, overall.rms,
              Velocity::from_value(std::hypot(overall.u.value(), of_chain.value())));
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

void conclude(const VibrationFile& sheet, VibrationFinding& f) {
  if (!f.limits) return;
  const auto any = [&](Outcome outcome) {
    return std::any_of(f.places.begin(), f.places.end(),
                       [&](const JudgedPlace& place) { return place.by_figures == outcome; });
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

VibrationFinding answer(const VibrationQuestion& q, Executor& executor) {
  return naming_file(q.file, [&] {
    VibrationFinding f;
    const VibrationFile& sheet = q.sheet;
    f.band = vibration::usual_band(sheet.pump.speed);
    f.expected = vibration::expected_lines(sheet.pump);
    if (sheet.category)
      f.limits = vibration::zone_limits(*sheet.category, sheet.power->quantity().as<Power>());
    for (const auto& read : sheet.overall) {
      const auto rms = read.velocity.quantity().as<Velocity>();
      add_place(f, read.place, rms, meter_u(rms, sheet.meter_error));
    }
    if (sheet.signal) analyse(q, f, executor);
    conclude(sheet, f);
    return f;
  });
}

}  // namespace pumpwright
