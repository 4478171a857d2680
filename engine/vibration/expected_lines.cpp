#include "engine/vibration/expected_lines.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright::vibration {
namespace {

constexpr double speed_known_to = 0.005;
constexpr double bearing_known_to = 0.02;
constexpr int bearing_multiples = 3;

void add(std::vector<ExpectedLine>& out, LineOf of, int multiple, const std::string& bearing, Frequency base,
         double known_to) {
  const Frequency at = base * static_cast<double>(multiple);
  out.push_back({of, multiple, bearing, at, at * known_to});
}

void add_bearing(std::vector<ExpectedLine>& out, const NamedBearing& bearing, Speed speed) {
  const BearingFrequencies f = bearing_frequencies(bearing.geometry, speed);
  for (int m = 1; m <= bearing_multiples; ++m) {
    add(out, LineOf::cage, m, bearing.name, f.cage, bearing_known_to);
    add(out, LineOf::outer_race, m, bearing.name, f.outer_race, bearing_known_to);
    add(out, LineOf::inner_race, m, bearing.name, f.inner_race, bearing_known_to);
    add(out, LineOf::element, m, bearing.name, f.element * 2.0, bearing_known_to);
  }
}

double distance_hz(const Tone& tone, const ExpectedLine& line) {
  return std::fabs(tone.at.value() - line.at.value());
}

}  // namespace

std::vector<ExpectedLine> expected_lines(const PumpFacts& pump) {
  if (!(pump.speed.value() > 0))
    throw BadInput({"speed", "", fmt::format("{:g}", pump.speed.value()), "a speed over 0"});
  if (pump.vanes && (*pump.vanes < 1 || *pump.vanes > 20))
    throw BadInput({"vanes", "", fmt::format("{}", *pump.vanes), "1 to 20 vanes"});
  if (pump.line && !(pump.line->value() > 0))
    throw BadInput({"line_frequency", "", fmt::format("{:g}", pump.line->value()), "a frequency over 0"});
  const Frequency turning = Frequency::from_value(pump.speed.value() / (2 * std::numbers::pi));
  std::vector<ExpectedLine> out;
  add(out, LineOf::turning, 1, "", turning, speed_known_to);
  add(out, LineOf::twice_turning, 2, "", turning, speed_known_to);
  out.back().multiple = 1;
  if (pump.vanes)
    for (int m = 1; m <= 2; ++m)
      add(out, LineOf::vane_pass, m, "", turning * static_cast<double>(*pump.vanes), speed_known_to);
  if (pump.line) add(out, LineOf::twice_line, 1, "", *pump.line * 2.0, 0.001);
  for (const auto& bearing : pump.bearings)
    add_bearing(out, bearing, pump.speed);
  return out;
}

std::vector<ExpectedLine> matching(const Tone& tone, const std::vector<ExpectedLine>& lines,
                                   Frequency line_spacing) {
  std::vector<ExpectedLine> out;
  for (const auto& line : lines)
    if (distance_hz(tone, line) <= std::max(line.within.value(), line_spacing.value())) out.push_back(line);
  std::stable_sort(out.begin(), out.end(),
                   [&](const auto& a, const auto& b) { return distance_hz(tone, a) < distance_hz(tone, b); });
  return out;
}

std::string_view word_for(LineOf of) {
  switch (of) {
    case LineOf::turning:
      return "turning";
    case LineOf::twice_turning:
      return "twice-turning";
    case LineOf::vane_pass:
      return "vane-pass";
    case LineOf::twice_line:
      return "twice-line";
    case LineOf::cage:
      return "cage";
    case LineOf::outer_race:
      return "outer-race";
    case LineOf::inner_race:
      return "inner-race";
    case LineOf::element:
      return "element";
  }
  return {};
}

}  // namespace pumpwright::vibration
