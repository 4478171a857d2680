#include "cli/performance_question.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "cli/input_file.h"
#include "engine/metrology/quantiles.h"

namespace pumpwright {
namespace {

using hydraulics::Figure;
using hydraulics::PerformanceModel;
using hydraulics::PumpCurves;

constexpr double rated_undershoot = 0.05;

// Speed of the tests against the rated one (ISO 9906, remembered): 50 % to 120 %, for efficiency ±20 %.
void put_speed_cautions(PerformanceFinding& f) {
  double lowest = std::numeric_limits<double>::infinity(), highest = 0;
  for (const auto& p : f.model.test().points) {
    lowest = std::min(lowest, static_cast<double>(p.speed / f.model.test().rated_speed));
    highest = std::max(highest, static_cast<double>(p.speed / f.model.test().rated_speed));
  }
  if (lowest < 0.5 || highest > 1.2)
    f.cautions.emplace_back(
        "tested outside 50 % to 120 % of the rated speed: the affinity laws are not trusted that far (ISO "
        "9906, "
        "remembered)");
  else if (lowest < 0.8)
    f.cautions.emplace_back(
        "tested below 80 % of the rated speed: efficiency and NPSH should not be carried over (ISO 9906, "
        "remembered)");
}

void put_curve_cautions(PerformanceFinding& f) {
  const auto& head = f.model.curves().head;
  const double low = head.lowest_m3_s(), high = head.highest_m3_s();
  double highest_m = head.at(low);
  for (int i = 0; i <= 100; ++i)
    highest_m = std::max(highest_m, head.at(low + (high - low) * i / 100));
  if (highest_m - head.at(low) > 2 * f.points.front()[0].u + 1e-4 * highest_m)
    f.cautions.emplace_back(
        "the head curve rises with flow in places: look for a misread point, or for a pump whose curve "
        "droops "
        "toward shut-off");
  if (f.best && f.best->at_end)
    f.cautions.emplace_back(
        "the best efficiency lies at the end of the tested flows: the true best point was not tested");
}

void put_best(PerformanceFinding& f, int stages) {
  if (!f.model.curves().power) return;
  f.best = hydraulics::best_efficiency_point(f.model.curves());
  f.best_figures = f.model.propagate(
      [](const PumpCurves& c, std::span<double> out) {
        const auto best = hydraulics::best_efficiency_point(c);
        out[0] = best.flow_m3_s;
        out[1] = best.head_m;
        out[2] = best.efficiency;
      },
      3);
  if (f.best->flow_m3_s > 0 && f.best->head_m > 0)
    f.shape =
        hydraulics::specific_speed(f.model.test().rated_speed, cubic_metres_per_second(f.best->flow_m3_s),
                                   metres(f.best->head_m), stages);
}

// The speed whose chance of undershooting is as stated, found by the law of propagation at every try.
double safe_speed_factor(const PerformanceModel& model, const hydraulics::Guarantee& g, double nominal) {
  const double flow = g.flow.value(), wanted = g.head.value();
  const auto chance = [&](double k) {
    const Figure head = model.propagate(
        [&](const PumpCurves& c, std::span<double> out) { out[0] = hydraulics::head_after(c.head, flow, k); },
        1)[0];
    return head.u > 0 ? student_cdf((wanted - head.value) / head.u, head.dof)
                      : (head.value < wanted ? 1.0 : 0.0);
  };
  double low = nominal, high = nominal * 1.2;
  for (int i = 0; i < 40; ++i) {
    const double middle = (low + high) / 2;
    (chance(middle) > rated_undershoot ? low : high) = middle;
  }
  return high;
}

std::optional<Remedy> remedy_of(const PerformanceModel& model, const PerformanceFile& sheet) {
  const auto& g = sheet.guarantee->promised;
  const auto factor = hydraulics::factor_to_meet(model.curves().head, g.flow.value(), g.head.value());
  if (!factor) return std::nullopt;
  Remedy remedy;
  remedy.factor = *factor;
  remedy.safe_factor = safe_speed_factor(model, g, *factor);
  if (!sheet.impeller) return remedy;
  if (*factor < 1)
    remedy.trim = job::placed("/impeller", [&] {
      return hydraulics::plan_trim(model, {g.flow, g.head}, *sheet.impeller, {});
    });
  else
    remedy.diameter_needed =
        hydraulics::diameter_for(hydraulics::CutRule::affinity, *sheet.impeller, *factor);
  return remedy;
}

void put_acceptance(PerformanceFinding& f, const PerformanceQuestion& q, Executor& executor) {
  const auto& sheet = q.sheet;
  if (!sheet.guarantee) return;
  const auto& g = *sheet.guarantee;
  job::placed("/guarantee", [&] {
    f.acceptance = hydraulics::judge_acceptance(f.model, g.promised, g.rule);
    if (q.sampling)
      f.sampled = hydraulics::sample_acceptance(f.model, g.promised, g.rule, *q.sampling, executor);
    return 0;
  });
  f.remedy = remedy_of(f.model, sheet);
}

void put_npsh(PerformanceFinding& f, const PerformanceFile& sheet) {
  if (!sheet.npsh) return;
  const auto& n = *sheet.npsh;
  if (!n.run.empty())
    f.npsh3 =
        job::placed("/npsh/suppression", [&] { return hydraulics::npsh3_of(n.run, n.plateau, n.doubt); });
  if (n.plant)
    f.npsh_available = job::placed(
        "/npsh/plant", [&] { return hydraulics::npsh_available(*n.plant, *sheet.test.test.liquid); });
  if (f.npsh3 && f.best && f.best->flow_m3_s > 0)
    f.suction_shape =
        hydraulics::specific_speed(f.model.test().rated_speed, cubic_metres_per_second(f.best->flow_m3_s),
                                   metres(f.npsh3->npsh_m.value));
}

}  // namespace

PerformanceFinding answer(const PerformanceQuestion& q, Executor& executor) {
  return naming_file(q.file, [&] {
    PerformanceFinding f{job::placed("/test", [&] { return PerformanceModel(q.sheet.test.test); }),
                         {},
                         {},
                         {},
                         {},
                         {},
                         {},
                         {},
                         {},
                         {},
                         {},
                         {}};
    for (std::size_t i = 0; i < f.model.results().size(); ++i)
      f.points.push_back(f.model.point_figures(i));
    put_best(f, q.sheet.stages);
    put_speed_cautions(f);
    put_curve_cautions(f);
    put_acceptance(f, q, executor);
    put_npsh(f, q.sheet);
    return f;
  });
}

const hydraulics::GradeFinding* agreed_grade(const PerformanceQuestion& q, const PerformanceFinding& f) {
  if (!f.acceptance) return nullptr;
  if (q.sheet.guarantee->rule.own) return &f.acceptance->grades.front();
  for (const auto& g : f.acceptance->grades)
    if (q.sheet.guarantee->grade == g.grade) return &g;
  return nullptr;
}

}  // namespace pumpwright
