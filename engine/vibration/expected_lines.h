// Where a pump's vibration is to be expected, and which of these a tone may be: turning frequency and its
// double, vanes passing the cutwater, twice the line frequency, damaged places of its bearings.
//
// What each points to is common practice of the trade, no source.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/vibration/bearing_frequencies.h"
#include "engine/vibration/tone.h"

namespace pumpwright::vibration {

enum class LineOf {
  turning,        // unbalance, a bent shaft, eccentricity
  twice_turning,  // misalignment, looseness
  vane_pass,      // vanes past the cutwater: clearance there, flow far from best efficiency
  twice_line,     // of the motor's field: air gap, winding, voltage unbalance
  cage,
  outer_race,
  inner_race,
  element,  // twice the element's own turning
};

struct NamedBearing {
  std::string name;
  BearingGeometry geometry;
};

struct PumpFacts {
  Speed speed;
  std::optional<int> vanes;  // of the impeller, 1 to 20
  std::optional<Frequency> line;
  std::vector<NamedBearing> bearings;
};

struct ExpectedLine {
  LineOf of;
  int multiple = 1;     // of vane pass and of a bearing's frequencies
  std::string bearing;  // of the latter
  Frequency at;
  Frequency within;  // a tone this near may be it
};

// Vane pass up to its double, bearings up to the third multiple. A line is taken to be known to 0.5 % (speed;
// own choice), a bearing's to 2 % (sliding; common practice). BadInput "vanes", "line_frequency", and as
// bearing_frequencies.
std::vector<ExpectedLine> expected_lines(const PumpFacts& pump);

// Those a tone may be, nearest first; a spectrum tells no two nearer than its spacing apart.
std::vector<ExpectedLine> matching(const Tone& tone, const std::vector<ExpectedLine>& lines,
                                   Frequency line_spacing);

// "turning", "twice-turning", "vane-pass", "twice-line", "cage", "outer-race", "inner-race", "element".
std::string_view word_for(LineOf of);

}  // namespace pumpwright::vibration
