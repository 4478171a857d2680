#include "engine/hydraulics/trim.h"

#include <algorithm>
#include <cmath>

#include "engine/assembly/input_check.h"
#include "engine/hydraulics/curve_search.h"
#include "engine/metrology/quantiles.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::hydraulics {
namespace {

constexpr double deepest_affinity = 0.20;  // common practice: no sheet of ours covers more
constexpr double deepest_reduced = 0.05;
constexpr double type_number_max = 1.5;
constexpr double us_specific_speed_max = 2500;

void require_valid(const Impeller& i, const CutSettings& s, const Duty& duty) {
  require_between(i.diameter.value(), 0.01, 5, "diameter", "an impeller diameter from 10 mm to 5 m");
  if (i.inlet_diameter)
    require_between(i.inlet_diameter->value(), 1e-3, 0.98 * i.diameter.value(), "inlet_diameter",
                    "a mean diameter of the inlet edge below 98 % of the diameter");
  if (i.least_diameter)
    require_between(i.least_diameter->value(), 1e-3, i.diameter.value(), "least_diameter",
                    "a least diameter not above the diameter");
  require_between(s.rule_doubt, 0, 1, "rule_doubt", "a part of the change in head from 0 to 100 %");
  require_between(s.undershoot, 0.001, 0.4, "undershoot", "a chance from 0.1 % to 40 %");
  require_between(s.lathe.value(), 0, 0.01, "lathe", "an uncertainty from 0 to 10 mm");
  require_between(duty.flow.value(), 1e-9, 100, "flow", "a flow over 0");
  require_between(duty.head.value(), 1e-3, 1e5, "head", "a head over 0");
}

double inlet_m(CutRule rule, const Impeller& impeller) {
  if (rule == CutRule::affinity) return 0;
  if (!impeller.inlet_diameter)
    throw BadInput({"inlet_diameter", "", "nothing",
                    "the mean diameter of the vanes' inlet edge, which the rule reduced-diameter needs"});
  return impeller.inlet_diameter->value();
}

double undershoot_of(const Figure& head, double wanted_m) {
  if (!(head.u > 0)) return head.value >= wanted_m ? 0 : 1;
  return student_cdf((wanted_m - head.value) / head.u, head.dof);
}

Cut cut_to(const PerformanceModel& model, const Duty& duty, const Impeller& impeller, const CutSettings& s,
           Length diameter) {
  Cut cut;
  cut.diameter = diameter;
  cut.factor = flow_factor(s.rule, impeller, diameter);
  cut.head_m = head_after_cut(model, duty, impeller, s, diameter);
  cut.undershoot = undershoot_of(cut.head_m, duty.head.value());
  if (const auto& power = model.curves().power) {
    const double r3 = std::pow(cut.factor, 3);
    const double at = duty.flow.value() / cut.factor;
    if (power->reaches(at)) cut.power_w = r3 * power->at(at);
    double most = 0;
    for (int i = 0; i <= 100; ++i)
      most = std::max(
          most, power->at(power->lowest_m3_s() + i * (power->highest_m3_s() - power->lowest_m3_s()) / 100));
    cut.power_peak_w = r3 * most;
  }
  return cut;
}

RuleRange range_of(const TrimPlan& plan, const Impeller& impeller, CutRule rule, Length diameter) {
  if (impeller.least_diameter && diameter < *impeller.least_diameter) return RuleRange::below_least_diameter;
  if (1 - diameter / impeller.diameter > plan.deepest) return RuleRange::cut_too_deep;
  const bool shape_fits =
      rule == CutRule::affinity ? plan.shape.us <= us_specific_speed_max : plan.shape.type <= type_number_max;
  return shape_fits ? RuleRange::inside : RuleRange::shape_outside;
}

// The deepest diameter between the nominal cut and none whose chance of undershooting is no more than stated.
std::optional<Cut> first_cut(const PerformanceModel& model, const Duty& duty, const Impeller& impeller,
                             const CutSettings& s, const Cut& nominal) {
  const auto chance = [&](double d_m) {
    return undershoot_of(head_after_cut(model, duty, impeller, s, metres(d_m)), duty.head.value());
  };
  double deep = nominal.diameter.value(), shallow = impeller.diameter.value();
  if (chance(shallow) > s.undershoot) return std::nullopt;
  for (int i = 0; i < 40; ++i) {
    const double middle = (deep + shallow) / 2;
    (chance(middle) > s.undershoot ? deep : shallow) = middle;
  }
  return cut_to(model, duty, impeller, s, metres(shallow));
}

void put_shape(TrimPlan& plan, const PerformanceModel& model, const Duty& duty) {
  double q = duty.flow.value();
  double h = model.curves().head.at(q);
  if (model.curves().power) {
    const BestPoint best = best_efficiency_point(model.curves());
    plan.shape_at_best = !best.at_end;
    if (plan.shape_at_best) {
      q = best.flow_m3_s;
      h = best.head_m;
    }
  }
  plan.shape = specific_speed(model.test().rated_speed, cubic_metres_per_second(q), metres(h));
}

}  // namespace

double flow_factor(CutRule rule, const Impeller& impeller, Length diameter) {
  const double full = impeller.diameter.value(), inlet = inlet_m(rule, impeller);
  require_that(diameter.value() > inlet && diameter.value() <= full * (1 + 1e-12), diameter.value(),
               "diameter", "a diameter over the inlet edge and not above the one tested");
  return std::sqrt((diameter.value() * diameter.value() - inlet * inlet) / (full * full - inlet * inlet));
}

Length diameter_for(CutRule rule, const Impeller& impeller, double factor) {
  const double full = impeller.diameter.value(), inlet = inlet_m(rule, impeller);
  require_that(factor > 0, factor, "factor", "a factor over 0");
  return metres(std::sqrt(inlet * inlet + factor * factor * (full * full - inlet * inlet)));
}

double head_after(const FlowCurve& head, double flow_m3_s, double factor) {
  return factor * factor * head.at(flow_m3_s / factor);
}

std::optional<double> factor_to_meet(const FlowCurve& head, double flow, double head_m) {
  constexpr int steps = 400;
  const auto gap = [&](double r) { return head_after(head, flow, r) - head_m; };
  const auto tested = [&](double r) { return head.reaches(flow / r); };
  // From an uncut impeller outwards, both ways: the nearest factor is meant.
  for (int i = 0; i < steps; ++i)
    for (const double way : {-1.0, 1.0}) {
      double a = 1 + way * 0.5 * i / steps, b = 1 + way * 0.5 * (i + 1) / steps;
      if (!tested(a) || !tested(b) || (gap(a) < 0) == (gap(b) < 0)) continue;
      for (int k = 0; k < 80; ++k) {
        const double m = (a + b) / 2;
        ((gap(m) < 0) == (gap(a) < 0) ? a : b) = m;
      }
      return (a + b) / 2;
    }
  return std::nullopt;
}

Figure head_after_cut(const PerformanceModel& model, const Duty& duty, const Impeller& impeller,
                      const CutSettings& s, Length diameter) {
  const double flow = duty.flow.value();
  const double factor = flow_factor(s.rule, impeller, diameter);
  Figure head = model.propagate(
      [&](const PumpCurves& c, std::span<double> out) { out[0] = head_after(c.head, flow, factor); }, 1)[0];
  const double change = model.curves().head.at(flow) - head.value;
  double turned = 0;
  if (s.lathe.value() > 0) {
    const double smaller = flow_factor(s.rule, impeller, diameter - s.lathe);
    turned = head.value - head_after(model.curves().head, flow, smaller);
  }
  const double measured_u = head.u;
  head.u = std::sqrt(head.u * head.u + std::pow(s.rule_doubt * change, 2) + turned * turned);
  if (measured_u > 0) head.dof *= std::pow(head.u / measured_u, 4);
  return head;
}

TrimPlan plan_trim(const PerformanceModel& model, const Duty& duty, const Impeller& impeller,
                   const CutSettings& s) {
  require_valid(impeller, s, duty);
  const FlowCurve& head = model.curves().head;
  require_that(head.reaches(duty.flow.value()), duty.flow.value(), "flow",
               "a duty's flow within the tested ones");
  TrimPlan plan;
  put_shape(plan, model, duty);
  plan.deepest = s.rule == CutRule::affinity ? deepest_affinity : deepest_reduced;
  plan.head_now_m = head_after_cut(model, duty, impeller, s, impeller.diameter);
  plan.undershoot_now = undershoot_of(plan.head_now_m, duty.head.value());
  const auto factor = factor_to_meet(head, duty.flow.value(), duty.head.value());
  if (!factor || *factor >= 1) return plan;
  const Length diameter = diameter_for(s.rule, impeller, *factor);
  plan.nominal = cut_to(model, duty, impeller, s, diameter);
  plan.range = range_of(plan, impeller, s.rule, diameter);
  plan.first = first_cut(model, duty, impeller, s, *plan.nominal);
  if (s.rule == CutRule::reduced_diameter)
    plan.other_rule_diameter = diameter_for(CutRule::affinity, impeller, *factor);
  else if (impeller.inlet_diameter)
    plan.other_rule_diameter = diameter_for(CutRule::reduced_diameter, impeller, *factor);
  return plan;
}

const char* word_for(CutRule rule) {
  return rule == CutRule::affinity ? "affinity" : "reduced-diameter";
}

const char* word_for(RuleRange range) {
  switch (range) {
    case RuleRange::inside:
      return "inside";
    case RuleRange::cut_too_deep:
      return "cut-too-deep";
    case RuleRange::shape_outside:
      return "shape-outside";
    case RuleRange::below_least_diameter:
      return "below-least-diameter";
  }
  return "";
}

}  // namespace pumpwright::hydraulics
