// Cutting an impeller down to meet a duty: how far, how safe, in which steps.
//
// A rule says by what factor R flow shrinks; head shrinks by R², power by R³ (efficiency unchanged):
//   affinity          R = D'/D. Read; the trade holds it good for US specific speeds under 2500 (read), and
//   the
//                     real head falls more or less than it says.
//   reduced_diameter  R = sqrt((D'² - D1²)/(D² - D1²)), D1 the mean diameter of the vanes' inlet edge: ISO
//   9906.
//                     Limits read: cut at most 5 %, type number at most 1.5, vane ends unchanged; efficiency
//                     unchanged for K <= 1.0 and cuts up to 3 %. The formula itself is remembered.
// No published correction for larger cuts could be read: none is applied. Instead a part of the change in
// head is taken as the rule's own standard uncertainty.
#pragma once

#include <optional>

#include "engine/hydraulics/performance_test.h"
#include "engine/hydraulics/specific_speed.h"

namespace pumpwright::hydraulics {

enum class CutRule { affinity, reduced_diameter };

struct Impeller {
  Length diameter;                       // as it was tested, 10 mm to 5 m
  std::optional<Length> inlet_diameter;  // D1, below the diameter
  std::optional<Length> least_diameter;  // of the family's sheet, below the diameter
};

struct CutSettings {
  CutRule rule = CutRule::affinity;
  double rule_doubt = 0.15;  // standard uncertainty of the change in head, as a part of it: 0 to 1 (our own)
  double undershoot = 0.05;  // chance of ending below the duty that a first cut may have: 0.001 to 0.4
  Length lathe{};            // standard uncertainty of a diameter as turned, >= 0
  Length least_step{};       // a second cut smaller than this is not worth the set-up, >= 0
};

// A duty at the rated speed.
struct Duty {
  VolumeFlow flow;
  Length head;
};

// R of a cut to `diameter`; BadInput "inlet_diameter" when the rule needs one, "diameter" outside
// inlet edge … tested diameter.
double flow_factor(CutRule rule, const Impeller& impeller, Length diameter);
// The inverse.
Length diameter_for(CutRule rule, const Impeller& impeller, double factor);

// Head of the cut impeller: R² H(Q/R).
double head_after(const FlowCurve& head, double flow_m3_s, double factor);
// R at which the cut impeller gives head `head_m` at `flow_m3_s`; nothing when no factor from 0.5 to 1.5 does
// within the tested flows. Over 1: more is needed than the impeller has. The same factor of the speed does it
// too.
std::optional<double> factor_to_meet(const FlowCurve& head, double flow_m3_s, double head_m);

struct Cut {
  Length diameter;
  double factor = 1;      // R
  Figure head_m;          // at the duty's flow afterwards
  double undershoot = 0;  // chance that it is below the duty's head
  std::optional<double> power_w,
      power_peak_w;  // of the shaft at the duty's flow, and the most over the curve
};

enum class RuleRange { inside, cut_too_deep, shape_outside, below_least_diameter };

struct TrimPlan {
  Figure head_now_m;  // at the duty's flow, uncut
  double undershoot_now = 0;
  SpecificSpeed shape;  // at the best efficiency point, or at the duty when power was not measured
  bool shape_at_best = false;
  std::optional<Cut> nominal;  // meets the duty by the rule: an even chance of undershooting
  std::optional<Cut>
      first;  // the deepest cut whose chance of undershooting is as stated; absent: none is safe
  RuleRange range = RuleRange::inside;        // of the nominal cut
  std::optional<Length> other_rule_diameter;  // what the other rule would say
  double deepest = 0;                         // cut the rule is good for, as a part of the diameter
};

// BadInput for what lies outside the ranges above and "flow" when the duty's flow (or the flow that the cut
// impeller's curve is read at) was not tested.
TrimPlan plan_trim(const PerformanceModel& model, const Duty& duty, const Impeller& impeller,
                   const CutSettings& settings);

// Head at the duty's flow after a cut, with its uncertainty: measurement, rule and lathe.
Figure head_after_cut(const PerformanceModel& model, const Duty& duty, const Impeller& impeller,
                      const CutSettings& settings, Length diameter);

// "affinity", "reduced-diameter"; "inside", "cut-too-deep", "shape-outside", "below-least-diameter".
const char* word_for(CutRule rule);
const char* word_for(RuleRange range);

}  // namespace pumpwright::hydraulics
