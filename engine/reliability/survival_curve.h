// How many pumps are still out after a time, without supposing any shape: the curve of Kaplan and Meier with
// its band, and how the rest is shared between "came back" and "replaced".
//
// Surviving part: S(t) = Π (1 - d/n) over the times up to t (Kaplan and Meier, J. Am. Stat. Assoc. 53 (1958)
// 457-481). Its standard error: S·sqrt(Σ d/(n(n-d))) (Greenwood 1926). Band at confidence c, z the normal
// quantile at (1+c)/2:
//   log       S·exp(±z·σ), σ = sqrt(Σ d/(n(n-d))), not above 1
//   log-log   S^exp(±z·σ/ln S), stays between 0 and 1 and is the better one with few pumps (Kalbfleisch and
//             Prentice, The Statistical Analysis of Failure Time Data, ch. 1; both remembered, both compared
//             with R's survfit).
// A pump replaced for another reason counts here as if it had merely left, so S answers "if none were
// replaced". What is really seen to come back is the incidence (Aalen and Johansen, Scand. J. Stat. 5 (1978)
// 141-150).
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "engine/reliability/life.h"

namespace pumpwright::reliability {

enum class BandTransform { log, log_log };

struct Band {
  double low = 0;
  double high = 1;
};

// The curve from this time up to the next step.
struct CurveStep {
  Time time;                // at which pumps came back
  std::size_t at_risk = 0;  // pumps that lasted at least to here
  std::size_t returned = 0;
  double surviving = 1;        // part still out, 0 to 1
  double standard_error = 0;   // of it, Greenwood
  std::optional<Band> band{};  // none where nothing survives
};

struct SurvivalCurve {
  std::vector<CurveStep> steps;  // ascending; empty when nothing came back
  Time last;                     // the longest time seen; the curve says nothing beyond
};

// 0 < confidence < 1. Throws BadInput for lives that are not valid.
SurvivalCurve survival_curve(std::span<const Life> lives, BandTransform transform = BandTransform::log_log,
                             double confidence = 0.95);

// The step that holds at `time`; nothing before the first step (all survive).
const CurveStep* step_at(const SurvivalCurve& curve, Time time);

// The first time at which at most `part` survive, 0 < part < 1: the median for 0.5. Nothing when the curve
// does not come down so far. Its ends are those of the band there (Brookmeyer and Crowley, Biometrics 38
// (1982) 29-41).
struct SurvivalTime {
  std::optional<Time> value{}, low{}, high{};
};
SurvivalTime time_until(const SurvivalCurve& curve, double part);

// Parts of all pumps that have come back, or were replaced, by `time`. With what is still out they add to
// one.
struct Incidence {
  Time time;
  double returned = 0;
  double replaced = 0;
};
// One entry for each time at which a pump came back or was replaced, ascending.
std::vector<Incidence> incidence(std::span<const Life> lives);

}  // namespace pumpwright::reliability
