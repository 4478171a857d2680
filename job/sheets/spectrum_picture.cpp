// A recorded signal's spectrum: r.m.s. velocity of every line over frequency, its strongest tones numbered.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "job/sheet_chart.h"
#include "job/sheets/vibration_units.h"
#include "job/sheets/vibration_wording.h"

namespace pumpwright::job {
namespace {

constexpr double top = 34;
constexpr double height = 140;
constexpr std::size_t columns = 268;  // as many as the field is wide

double highest_hz(const VibrationSheet& sheet, const SignalFinding& finding) {
  double most = finding.band.most.value();
  for (const auto& line : vibration::expected_lines(sheet.pump))
    most = std::max(most, 1.1 * line.at.value());
  return std::min(most, finding.spectrum.frequency_hz(finding.spectrum.density.size() - 1));
}

// The r.m.s. velocity of one line; the first ones, near standstill, say nothing as a velocity.
double velocity_m_s(const SignalFinding& finding, std::size_t line) {
  const auto& s = finding.spectrum;
  const double rms = std::sqrt(s.density[line] * s.line_spacing.value() * s.noise_bandwidth);
  return vibration::velocity_of(rms, finding.measures, Frequency::from_value(s.frequency_hz(line))).value();
}

// The strongest line of every column, so that no tone is lost between two of them.
std::vector<double> strongest_by_column(const SignalFinding& finding, double most_hz) {
  std::vector<double> out(columns, 0);
  const auto& s = finding.spectrum;
  for (std::size_t line = 1; line < s.density.size(); ++line) {
    const double hz = s.frequency_hz(line);
    if (hz < finding.band.least.value() || hz > most_hz) continue;
    const auto column = std::min(columns - 1, static_cast<std::size_t>(hz / most_hz * columns));
    out[column] = std::max(out[column], velocity_m_s(finding, line));
  }
  return out;
}

}  // namespace

SheetPicture spectrum_picture(const VibrationSheet& sheet, const SignalFinding& finding) {
  const double most_hz = highest_hz(sheet, finding);
  const auto values = strongest_by_column(finding, most_hz);
  double most = *std::max_element(values.begin(), values.end());
  for (const auto& tone : finding.tones)
    most = std::max(most, tone.rms.value());
  const SheetChart chart(
      {0, most_hz, &unit_with_symbol("Hz", Kind::frequency), {"frequency", "frecuencia"}},
      {0, std::max(1.1 * most, 1e-9), &velocity_unit(sheet), {"velocity, r.m.s.", "velocidad eficaz"}}, top,
      height);
  SheetPicture out;
  chart.draw_axes(out, true);
  PictureStroke curve{Ink::found, {}, false};
  for (std::size_t i = 0; i < columns; ++i)
    curve.points.push_back(chart.at(most_hz * (static_cast<double>(i) + 0.5) / columns, values[i]));
  out.strokes.push_back(std::move(curve));
  for (std::size_t i = 0; i < std::min(numbered_tones, finding.tones.size()); ++i) {
    const FoundTone& tone = finding.tones[i];
    if (tone.tone.at.value() > most_hz) continue;
    const PicturePoint peak = chart.at(tone.tone.at.value(), tone.rms.value());
    out.circles.push_back({Ink::part, peak, 3});
    const std::string number = std::to_string(i + 1);
    out.words.push_back({{number, number}, {peak.x, peak.y - 7}, Anchor::middle, Ink::part});
  }
  out.height = chart.bottom() + SheetChart::room_below;
  out.title = {"Spectrum at " + finding.overall.place, "Espectro en " + finding.overall.place};
  out.note = {
      fmt::format("Lines {:.3g} Hz apart, {} stretches averaged (Welch). Numbers: the tones listed.",
                  finding.spectrum.line_spacing.value(), finding.spectrum.segments),
      fmt::format("Líneas cada {:.3g} Hz, {} tramos promediados (Welch). Números: los tonos de la lista.",
                  finding.spectrum.line_spacing.value(), finding.spectrum.segments)};
  return out;
}

}  // namespace pumpwright::job
