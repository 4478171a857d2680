#include "job/sheets/performance_finding.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/metrology/quantiles.h"

namespace pumpwright::job {
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
    f.cautions.push_back(
        {"Tested outside 50 % to 120 % of the rated speed: the affinity laws are not trusted that far (ISO "
         "9906, remembered).",
         "Probada fuera del 50 % al 120 % de la velocidad nominal: las leyes de afinidad no llegan hasta ahí "
         "(ISO 9906, recordado)."});
  else if (lowest < 0.8)
    f.cautions.push_back(
        {"Tested below 80 % of the rated speed: efficiency and NPSH should not be carried over (ISO 9906, "
         "remembered).",
         "Probada por debajo del 80 % de la velocidad nominal: rendimiento y NPSH no deberían trasladarse "
         "(ISO 9906, recordado)."});
}

void put_curve_cautions(PerformanceFinding& f) {
  const auto& head = f.model.curves().head;
  const double low = head.lowest_m3_s(), high = head.highest_m3_s();
  double highest_m = head.at(low);
  for (int i = 0; i <= 100; ++i)
    highest_m = std::max(highest_m, head.at(low + (high - low) * i / 100));
  if (highest_m - head.at(low) > 2 * f.points.front()[0].u + 1e-4 * highest_m)
    f.cautions.push_back(
        {"The head curve rises with flow in places: look for a misread point, or for a pump whose curve "
         "droops toward shut-off.",
         "La curva de altura sube con el caudal en algún tramo: buscar un punto mal leído, o una bomba cuya "
         "curva cae hacia caudal nulo."});
  if (f.best && f.best->at_end)
    f.cautions.push_back(
        {"The best efficiency lies at the end of the tested flows: the true best point was not tested.",
         "El mejor rendimiento está al final de los caudales probados: el verdadero punto óptimo no se "
         "probó."});
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

std::optional<Remedy> remedy_of(const PerformanceModel& model, const PerformanceSheet& sheet) {
  const auto& g = sheet.guarantee->promised;
  const auto factor = hydraulics::factor_to_meet(model.curves().head, g.flow.value(), g.head.value());
  if (!factor) return std::nullopt;
  Remedy remedy;
  remedy.factor = *factor;
  remedy.safe_factor = safe_speed_factor(model, g, *factor);
  if (!sheet.impeller) return remedy;
  if (*factor < 1)
    remedy.trim = placed("/impeller", [&] {
      return hydraulics::plan_trim(model, {g.flow, g.head}, *sheet.impeller, {});
    });
  else
    remedy.diameter_needed =
        hydraulics::diameter_for(hydraulics::CutRule::affinity, *sheet.impeller, *factor);
  return remedy;
}

void put_acceptance(PerformanceFinding& f, const PerformanceSheet& sheet) {
  if (!sheet.guarantee) return;
  const auto& g = *sheet.guarantee;
  f.acceptance =
      placed("/guarantee", [&] { return hydraulics::judge_acceptance(f.model, g.promised, g.rule); });
  f.remedy = remedy_of(f.model, sheet);
}

double flow_of_most_power(const PumpCurves& c) {
  const double low = c.power->lowest_m3_s(), high = c.power->highest_m3_s();
  double at = low;
  for (int i = 1; i <= 200; ++i) {
    const double flow = low + (high - low) * i / 200;
    if (c.power->at(flow) > c.power->at(at)) at = flow;
  }
  return at;
}

void put_driver(PerformanceFinding& f, const PerformanceSheet& sheet) {
  if (!sheet.driver || !f.model.curves().power) return;
  DriverLoad load;
  if (sheet.driver->lines) {
    load.uneven = hydraulics::voltage_unbalance(*sheet.driver->lines);
    load.derating = hydraulics::unbalance_derating(*load.uneven);
  }
  load.flow_m3_s = flow_of_most_power(f.model.curves());
  const double may_give_w = sheet.driver->rated_power.value() * load.derating;
  load.share = f.model.propagate(
      [&](const PumpCurves& c, std::span<double> out) { out[0] = c.power->at(load.flow_m3_s) / may_give_w; },
      1)[0];
  f.driver = load;
}

void put_npsh(PerformanceFinding& f, const PerformanceSheet& sheet) {
  if (!sheet.npsh) return;
  const auto& n = *sheet.npsh;
  if (!n.run.empty())
    f.npsh3 = placed("/npsh/suppression", [&] { return hydraulics::npsh3_of(n.run, n.plateau, n.doubt); });
  if (n.plant)
    f.npsh_available =
        placed("/npsh/plant", [&] { return hydraulics::npsh_available(*n.plant, *sheet.test.test.liquid); });
  if (f.npsh3 && f.best && f.best->flow_m3_s > 0)
    f.suction_shape =
        hydraulics::specific_speed(f.model.test().rated_speed, cubic_metres_per_second(f.best->flow_m3_s),
                                   metres(f.npsh3->npsh_m.value));
}

}  // namespace

PerformanceFinding performance_finding(const PerformanceSheet& sheet) {
  PerformanceFinding f{placed("/test", [&] { return PerformanceModel(sheet.test.test); }),
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
  put_best(f, sheet.stages);
  put_speed_cautions(f);
  put_curve_cautions(f);
  put_acceptance(f, sheet);
  put_driver(f, sheet);
  put_npsh(f, sheet);
  return f;
}

const hydraulics::GradeFinding* agreed_grade(const PerformanceSheet& sheet, const PerformanceFinding& f) {
  if (!f.acceptance) return nullptr;
  if (sheet.guarantee->rule.own) return &f.acceptance->grades.front();
  for (const auto& g : f.acceptance->grades)
    if (sheet.guarantee->grade == g.grade) return &g;
  return nullptr;
}

}  // namespace pumpwright::job
