// The setting of what can really be moved that brings the worst check nearest to its mark, for each amount of
// work: the sleeve at any angle where it is not keyed, the impeller only by its keyways, the bracket by
// tapping it within its clearance, by shims under it, and by its bolt holes.
//
// The worst check is the largest TIR over its limit. Over the sleeve's angle φ each squared ratio is A + B
// cos(φ - φ₀), so the least of the largest lies where one of them is least or where two are equal: all such
// angles are tried, which makes the answer exact. Over a bracket's shift the answer is to move towards the
// centre as far as there is room. Keyways, bolt holes and shims are counted through.
//
// Own mechanics; checked against brute force (tests/property/engine/assembly).
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "engine/assembly/true_prediction.h"

namespace pumpwright::true_running {

struct RotatingMoves {
  bool sleeve_turns = false;  // it is not keyed or pinned to the shaft
  int impeller_keyways = 1;   // evenly spaced, 1 to 12; one gives no choice
};

struct RotatingSetting {
  std::optional<int> impeller_keyway{};  // drawn, cleaned, fitted again this many keyways on (0: as it was)
  std::optional<Angle> sleeve_turned{};  // drawn too, cleaned, fitted again turned by this, in rising places
};

struct StandingMoves {
  Length room = metres(0);  // how far the loosened bracket can go from where it sits, any way; 0: not at all
  int bolt_holes = 1;       // evenly spaced places it can be bolted on, 1 to 24
  Length bolt_circle = metres(0);  // [m] diameter; needed for shims
  Angle first_bolt = radians(0);   // clock position of one bolt
  std::vector<Length> shims;       // thicknesses at hand [m], each > 0; at most 20
};

struct Shim {
  Length thickness;
  ClockPosition bolt;  // put under the bracket there; it tilts about the bolt circle's other side
};

struct StandingSetting {
  Offset<Standing> shift{};  // tapped over by this
  std::optional<Shim> shim{};
  std::optional<int> holes{};  // taken off, faces cleaned, bolted on again this many holes on (0: as it was)
};

template <class Chain>
struct SettingOf;
template <>
struct SettingOf<Rotating> {
  using type = RotatingSetting;
};
template <>
struct SettingOf<Standing> {
  using type = StandingSetting;
};

template <class Chain>
struct Remedy {
  int work = 0;  // 0: nothing is touched. Rotating: 1 impeller off, 2 sleeve too. Standing: 1 tap, 2 shim, 3
                 // bracket off
  typename SettingOf<Chain>::type setting{};
  std::vector<Predicted<Chain>> predicted{};  // in the order of the stations
  double worst = 0;                           // largest TIR over its limit
};

// One remedy for each amount of work that can change something, the best setting for it, least work first
// (work 0 always stands first). Throws BadInput for counts and lengths out of range.
std::vector<Remedy<Rotating>> remedies(std::span<const Station<Rotating>> stations,
                                       const RotatingGeometry& geometry, const ErrorBelief& errors,
                                       const RotatingMoves& moves);
std::vector<Remedy<Standing>> remedies(std::span<const Station<Standing>> stations,
                                       const StandingGeometry& geometry, const ErrorBelief& errors,
                                       const StandingMoves& moves);

// The readings foretold for one setting.
std::vector<Predicted<Rotating>> predict_with(std::span<const Station<Rotating>> stations,
                                              const RotatingGeometry& geometry, const ErrorBelief& errors,
                                              const RotatingMoves& moves, const RotatingSetting& setting);
std::vector<Predicted<Standing>> predict_with(std::span<const Station<Standing>> stations,
                                              const StandingGeometry& geometry, const ErrorBelief& errors,
                                              const StandingMoves& moves, const StandingSetting& setting);

// Index of the one to do: the least work that brings every check to its limit; when none does, the one whose
// worst check is best.
template <class Chain>
std::size_t recommended(std::span<const Remedy<Chain>> list);

}  // namespace pumpwright::true_running
