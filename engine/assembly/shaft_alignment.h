// Where one shaft lies against another, from two indicators swept round a turn: two rims, or a rim and a
// face.
//
// Directions. x runs along the shafts from the fixed machine (usually the pump) to the one that is moved,
// from any origin. Places round the shafts are clock positions as angles: top 0, rising clockwise as seen
// from the side the caller states; "right" is right as seen from there. The moved shaft's axis is the
// straight line
//     up(x) = up + (x - x_c)·up_slope,   right(x) = right + (x - x_c)·right_slope
// against the fixed shaft's axis; x_c is the coupling's middle.
//
// What the indicators show, plunger pushed in being plus, both shafts turned together:
//     rim, base on the fixed shaft:    + up(x) cos θ + right(x) sin θ
//     rim, base on the moved shaft:    - up(x) cos θ - right(x) sin θ
//     face towards the base, at radius r:  r (up_slope cos θ + right_slope sin θ), whichever shaft carries
//     the base; the far side of a flange the opposite
// (a shaft that rises as it goes away shows its face closer at the top). So a rim zeroed at the top reads
// twice the offset at the bottom, with a minus where the base is on the fixed shaft.
//
// All readings of a turn go into a harmonic fit (engine/metrology/sweep.h); a sagging bracket is taken out
// there. The misalignment and its covariance follow linearly from the two fits. Distances are taken as exact:
// 1 % of a distance is 1 % of a slope.
//
// The readings of a true turn fit a single wave. How far they do not is the trade's rule top + bottom = left
// + right, for any places: twice the peak to valley of what the first harmonic leaves, which for four places
// is |top + bottom - left - right| exactly. The habit allows 0.001 in (read in solved examples, scribd.com
// 415473843).
#pragma once

#include <array>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "engine/metrology/decision.h"
#include "engine/metrology/sweep.h"

namespace pumpwright::alignment {

enum class DialOn { rim, face };
enum class BaseOn { fixed_shaft, moved_shaft };

// One indicator's turn.
struct Dial {
  DialOn on = DialOn::rim;
  BaseOn base = BaseOn::fixed_shaft;
  Length at{};            // x of the plane the plunger runs in
  Length radius{};        // face: at which the plunger runs, > 0
  bool far_side = false;  // face: the plunger touches the side that looks away from its base
  PlungerIn plunger_in = PlungerIn::plus;
  std::vector<SweepReading> readings{};  // angle: the clock position under the plunger; at least 4 places
  std::optional<BarSag> sag{};           // rims: what the bracket alone reads
};

inline constexpr Length sweep_tolerance = metres(25.4e-6);  // 0.001 in
inline constexpr std::size_t fewest_places = 4;

struct DialResult {
  SweepResult sweep;
  Length disagreement;  // see above
  bool valid = true;    // disagreement and closure within the tolerance
};

// Throws BadInput "dials/readings" for fewer than 4 places, "dials/radius", "dials/sag" (of a face), and as
// evaluate_sweep.
DialResult evaluate_dial(const Dial& dial, const Instrument* instrument, Length tolerance = sweep_tolerance);

// The moved shaft against the fixed one.
struct ShaftLine {
  double up_m = 0, right_m = 0;          // at the coupling's middle
  double up_slope = 0, right_slope = 0;  // [m/m]
  // Of (up, right, up_slope, right_slope), row by row [m², m, 1]; absent when an indicator's doubt is not
  // known.
  std::optional<std::array<double, 16>> covariance{};
  double dof = std::numeric_limits<double>::infinity();

  // The same line about another point, and its values there.
  Length up_at(Length from_coupling) const;
  Length right_at(Length from_coupling) const;
  // Standard uncertainties of the two.
  std::optional<Length> up_u_at(Length from_coupling) const;
  std::optional<Length> right_u_at(Length from_coupling) const;

  Length offset() const;     // sqrt(up² + right²) at the coupling
  Angle angularity() const;  // [rad] of the two axes
  std::optional<Length> offset_u() const;
  std::optional<Angle> angularity_u() const;
};

// Two dials: rims in two planes, or a rim and a face. Throws BadInput "dials" for two faces, or rims in one
// plane.
ShaftLine shaft_line(const std::array<Dial, 2>& dials, const std::array<DialResult, 2>& results,
                     Length coupling);

struct AlignmentTolerance {
  Length offset;     // > 0
  Angle angularity;  // [rad] > 0
};

struct AlignmentVerdict {
  Outcome outcome = Outcome::unproven;
  std::string reason;  // a code of decision.h, or "uncertainty-not-known"
  double value = 0;    // [m] or [rad]
  double limit = 0;
  std::optional<double> u, guard, conformance_probability;
};

// One-sided, guarded (decision.h). BadInput "tolerance/..." unless over 0.
AlignmentVerdict judge_offset(const ShaftLine& line, const AlignmentTolerance& tolerance,
                              double probability = 0.95);
AlignmentVerdict judge_angularity(const ShaftLine& line, const AlignmentTolerance& tolerance,
                                  double probability = 0.95);

}  // namespace pumpwright::alignment
