#include "engine/hydraulics/acceptance.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "engine/assembly/input_check.h"
#include "engine/hydraulics/curve_search.h"
#include "engine/metrology/quantiles.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::hydraulics {
namespace {

constexpr double two_sided_95 = 0.975;

void require_valid(const Guarantee& g, const PerformanceModel& model) {
  const FlowCurve& head = model.curves().head;
  require_that(g.flow.value() > 0 && head.reaches(g.flow.value()), g.flow.value(), "flow",
               fmt::format("a guaranteed flow within the tested ones, {:.4g} to {:.4g} m³/s",
                           head.lowest_m3_s(), head.highest_m3_s()));
  require_between(g.head.value(), 1e-3, 1e5, "head", "a guaranteed head over 0");
  if (g.shaft_power) require_between(g.shaft_power->value(), 1e-3, 1e9, "power", "a guaranteed power over 0");
  if (g.efficiency)
    require_between(*g.efficiency, 1e-3, 1, "efficiency", "a guaranteed efficiency over 0, at most 100 %");
  if ((g.shaft_power || g.efficiency) && !model.curves().power)
    throw BadInput({g.efficiency ? "efficiency" : "power", "", "a guarantee",
                    "points with shaft power, or no guarantee of power or efficiency"});
}

bool is_small(const Guarantee& g) {
  return g.shaft_power && g.shaft_power->value() >= 1000 && g.shaft_power->value() <= 10'000;
}

CriterionFinding finding_of(Criterion criterion, const Figure& margin, const GradeRule& rule) {
  CriterionFinding f;
  f.criterion = criterion;
  f.margin = margin;
  f.chance =
      margin.u > 0 ? student_cdf(margin.value / margin.u, margin.dof) : (margin.value >= 0 ? 1.0 : 0.0);
  if (rule.kind == GradeRule::Kind::standard) {
    f.outcome = margin.value >= 0 ? Outcome::pass : Outcome::fail;
    return f;
  }
  decision_si::Input in;
  in.lower = 0;
  in.value = margin.value;
  in.u = margin.u;
  in.dof = margin.dof;
  f.outcome = decision_si::decide(in, Guarded{rule.probability}).outcome;
  return f;
}

// Expanded (95 %) and relative.
double expanded(const Figure& f) {
  return student_quantile(two_sided_95, f.dof) * f.u / std::abs(f.value);
}

// The grade speaks of the measurement of a point: that of the one nearest to the guarantee.
std::vector<Figure> nearest_point(const PerformanceModel& model, double flow_m3_s) {
  const std::vector<double> as_read(model.sources().size());
  std::size_t nearest = 0;
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < model.results().size(); ++i) {
    const double off = std::abs(model.rated_point(i, as_read).flow_m3_s - flow_m3_s);
    if (off < least) {
      least = off;
      nearest = i;
    }
  }
  return model.point_figures(nearest);
}

// What the grade permits of the quantities that are guaranteed.
bool too_coarse(const std::vector<Figure>& point, const GradeFinding& g, const PerformanceModel& model) {
  const auto permitted = permitted_uncertainty(g.grade, model.test().rig.motor_efficiency.has_value());
  const auto judged = [&](Criterion criterion) {
    return std::any_of(g.criteria.begin(), g.criteria.end(),
                       [&](const CriterionFinding& c) { return c.criterion == criterion; });
  };
  return expanded(point[0]) > permitted.head ||
         (judged(Criterion::power) && expanded(point[2]) > permitted.power) ||
         (judged(Criterion::efficiency) && expanded(point[3]) > permitted.efficiency);
}

void put_verdict(GradeFinding& g, const GradeRule& rule, const PerformanceModel& model, double flow_m3_s,
                 bool line_missing) {
  g.by_figures = Outcome::pass;
  g.chance = 1;
  for (const auto& c : g.criteria) {
    g.chance -= 1 - c.chance;
    if (c.outcome == Outcome::fail) g.by_figures = Outcome::fail;
    if (c.outcome == Outcome::unproven && g.by_figures == Outcome::pass) g.by_figures = Outcome::unproven;
  }
  g.chance = std::max(0.0, g.chance);
  g.reason = g.by_figures == Outcome::pass   ? GradeReason::met
             : g.by_figures == Outcome::fail ? GradeReason::not_met
                                             : GradeReason::within_uncertainty;
  if (rule.kind == GradeRule::Kind::standard && too_coarse(nearest_point(model, flow_m3_s), g, model)) {
    g.by_figures = Outcome::unproven;
    g.reason = GradeReason::measured_too_coarse;
  }
  if (line_missing && g.by_figures != Outcome::fail) {
    g.by_figures = Outcome::unproven;
    g.reason = GradeReason::line_not_reached;
  }
  g.verdict = g.by_figures;
  if (!rule.confirmed && !rule.own) {
    g.verdict = Outcome::unproven;
    g.reason = GradeReason::limit_unconfirmed;
  }
}

}  // namespace

MarginSet::MarginSet(const PerformanceModel& model, const Guarantee& guarantee, const GradeRule& rule)
    : qg_(guarantee.flow.value()), hg_(guarantee.head.value()), guarantee_(guarantee) {
  require_valid(guarantee, model);
  const PumpCurves& curves = model.curves();
  line_flow_ = flow_on_line(curves.head, 0, hg_ / qg_);
  for (const Grade grade : all_grades) {
    if (grade == Grade::small && !is_small(guarantee)) continue;
    const std::size_t at = grades_.size();
    const Tolerance t = rule.own ? *rule.own : tolerance_of(grade, guarantee.shaft_power);
    grades_.push_back(grade);
    tolerances_.push_back(t);
    low_arm_.push_back(curves.head.reaches(qg_ * (1 + t.flow_low)));
    high_arm_.push_back(curves.head.reaches(qg_ * (1 + t.flow_high)));
    entries_.push_back({at, Criterion::not_too_low});
    entries_.push_back({at, Criterion::not_too_high});
    if (guarantee.shaft_power && line_flow_) entries_.push_back({at, Criterion::power});
    if (guarantee.efficiency && line_flow_) entries_.push_back({at, Criterion::efficiency});
    if (rule.own) break;
  }
}

void MarginSet::margins(const PumpCurves& curves, std::span<double> out) const {
  const double head_m = curves.head.at(qg_);
  const bool wants_line = line_flow_ && (guarantee_.shaft_power || guarantee_.efficiency);
  const double line = wants_line ? flow_on_line_near(curves.head, 0, hg_ / qg_, *line_flow_) : 0;
  for (std::size_t i = 0; i < entries_.size(); ++i) {
    const std::size_t g = entries_[i].grade;
    const Tolerance& t = tolerances_[g];
    switch (entries_[i].criterion) {
      case Criterion::not_too_low:
        out[i] = head_m - hg_ * (1 + t.head_low);
        if (low_arm_[g]) out[i] = std::max(out[i], curves.head.at(qg_ * (1 + t.flow_low)) - hg_);
        break;
      case Criterion::not_too_high:
        out[i] = hg_ * (1 + t.head_high) - head_m;
        if (high_arm_[g]) out[i] = std::max(out[i], hg_ - curves.head.at(qg_ * (1 + t.flow_high)));
        break;
      case Criterion::power:
        out[i] = guarantee_.shaft_power->value() * (1 + t.power_high) - curves.power->at(line);
        break;
      case Criterion::efficiency:
        out[i] = curves.efficiency_at(line) - *guarantee_.efficiency * (1 + t.efficiency_low);
        break;
    }
  }
}

AcceptanceFinding judge_acceptance(const PerformanceModel& model, const Guarantee& guarantee,
                                   const GradeRule& rule) {
  const MarginSet set(model, guarantee, rule);
  const double qg = guarantee.flow.value(), hg = guarantee.head.value();
  AcceptanceFinding a;
  a.head_at_flow = model.propagate(
      [&](const PumpCurves& c, std::span<double> out) { out[0] = c.head.at(qg); }, 1, &a.shares)[0];
  if (const auto at = flow_on_line(model.curves().head, hg, 0))
    a.flow_at_head = model.propagate(
        [&](const PumpCurves& c, std::span<double> out) { out[0] = flow_on_line_near(c.head, hg, 0, *at); },
        1)[0];
  if (const auto at = set.line_flow_m3_s()) {
    const std::size_t count = model.curves().power ? 3 : 1;
    const auto figures = model.propagate(
        [&](const PumpCurves& c, std::span<double> out) {
          out[0] = flow_on_line_near(c.head, 0, hg / qg, *at);
          if (!c.power) return;
          out[1] = c.efficiency_at(out[0]);
          out[2] = c.power->at(out[0]);
        },
        count);
    a.line_flow = figures[0];
    if (count == 3) {
      a.efficiency = figures[1];
      a.power = figures[2];
    }
  }
  const auto margins = model.propagate(
      [&](const PumpCurves& c, std::span<double> out) { set.margins(c, out); }, set.entries().size());
  for (std::size_t g = 0; g < set.grades().size(); ++g)
    a.grades.push_back({set.grades()[g], set.tolerances()[g], {}, {}, {}, {}, 0});
  for (std::size_t i = 0; i < margins.size(); ++i) {
    const auto& entry = set.entries()[i];
    a.grades[entry.grade].criteria.push_back(finding_of(entry.criterion, margins[i], rule));
  }
  const bool line_missing = !a.line_flow && (guarantee.shaft_power || guarantee.efficiency);
  for (auto& g : a.grades)
    put_verdict(g, rule, model, qg, line_missing);
  return a;
}

const char* word_for(Criterion criterion) {
  switch (criterion) {
    case Criterion::not_too_low:
      return "not-too-low";
    case Criterion::not_too_high:
      return "not-too-high";
    case Criterion::power:
      return "power";
    case Criterion::efficiency:
      return "efficiency";
  }
  return "";
}

const char* word_for(GradeReason reason) {
  switch (reason) {
    case GradeReason::met:
      return "met";
    case GradeReason::not_met:
      return "not-met";
    case GradeReason::within_uncertainty:
      return "within-uncertainty";
    case GradeReason::measured_too_coarse:
      return "measured-too-coarse";
    case GradeReason::line_not_reached:
      return "line-not-reached";
    case GradeReason::limit_unconfirmed:
      return "limit-unconfirmed";
  }
  return "";
}

}  // namespace pumpwright::hydraulics
