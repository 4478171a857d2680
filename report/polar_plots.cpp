// Which polar pictures a record has, and what stands under them.
#include <algorithm>

#include <fmt/format.h>

#include "report/amount_text.h"
#include "report/labels.h"
#include "report/polar_plot.h"
#include "report/record_text.h"
#include "report/sweep_points.h"

namespace pumpwright::report {
namespace {

const job::Reading* standing_reading(const job::JobState& state, const std::string& check,
                                     const std::string& id) {
  const auto found = state.standing.find(check);
  if (found == state.standing.end()) return nullptr;
  for (const job::Reading& reading : found->second)
    if (reading.id == id) return &reading;
  return nullptr;
}

int badness(job::Verdict verdict) {
  switch (verdict) {
    case job::Verdict::fail:
      return 3;
    case job::Verdict::unproven:
      return 2;
    case job::Verdict::not_taken:
      return 1;
    case job::Verdict::pass:
      break;
  }
  return 0;
}

std::string line_for(Label name, double value_m, const Unit& unit, double graduation_m,
                     const job::Limit* limit, job::Language language) {
  const AnyQuantity value(Kind::length, value_m);
  std::string line = fmt::format("{} {}", text_of(name, language), value_text(value, unit, graduation_m));
  if (const std::string metric = metric_text(value, unit, graduation_m); !metric.empty())
    line += fmt::format(" ({})", metric);
  if (limit != nullptr) {
    const std::string same = limit_text_in(*limit, unit);
    line += fmt::format(", {} {}", text_of(Label::limit, language), same.empty() ? limit_text(*limit) : same);
  }
  return line;
}

class PlotFor {
 public:
  PlotFor(const job::Check& check, const job::Reading& reading, const job::JudgedReading& judged,
          job::Language language)
      : check_(check),
        written_(std::get<job::SweepReading>(reading.body)),
        judged_(judged),
        language_(language),
        unit_(&job::unit_to_show(check, judged)) {}

  PolarPlot start() const {
    const SweepResult& sweep = *judged_.sweep;
    PolarPlot plot;
    plot.title = check_.title.in(language_);
    plot.verdict = judged_.verdict;
    plot.turning = sweep.mount == Mount::unknown ? check_.turning
                   : sweep.mount == Mount::shaft ? job::Turning::rotating
                                                 : job::Turning::standing;
    for (const SurfaceReading& p : surface_readings(check_, written_)) {
      const bool suspect = std::any_of(sweep.suspects.begin(), sweep.suspects.end(),
                                       [&](const Suspect& s) { return s.index == p.index; });
      plot.points.push_back({p.place_deg, p.deviation_m - sweep.mean.value(), suspect});
    }
    for (const job::KeywayGap& gap : written_.gaps)
      plot.gaps.push_back({gap.from_deg, gap.to_deg});
    if (sweep.carried_order >= 1) plot.centre = {sweep.vector[0].value(), sweep.vector[1].value(), 0};
    set_direction(plot);
    return plot;
  }

  // The value this check judges, and its limit.
  void add_to(PolarPlot& plot) const {
    const SweepResult& sweep = *judged_.sweep;
    const job::Limit* limit = check_.limits.empty() ? nullptr : &check_.limits.front();
    const double graduation = judged_.instrument_graduation_si;
    switch (check_.judged) {
      case job::Judged::eccentricity:
        plot.caption.push_back(line_for(Label::eccentricity, sweep.eccentricity.value.value(), *unit_,
                                        graduation / 10, limit, language_));
        set_limit(plot, PolarLimitOn::eccentricity);
        break;
      case job::Judged::squareness:
        plot.caption.push_back(line_for(Label::squareness, judged_.value ? judged_.value->si() : 0, *unit_,
                                        graduation / 10, limit, language_));
        break;
      default:
        plot.caption.push_back(
            line_for(Label::tir, sweep.tir.value.value(), *unit_, graduation, limit, language_));
        set_limit(plot, PolarLimitOn::tir);
        break;
    }
  }

  // Said under every picture: the eccentricity behind the TIR.
  void add_eccentricity(PolarPlot& plot) const {
    const SweepResult& sweep = *judged_.sweep;
    if (!sweep.vector_uncertainty) {
      plot.caption.push_back(line_for(Label::eccentricity, sweep.eccentricity.value.value(), *unit_,
                                      judged_.instrument_graduation_si / 10, nullptr, language_));
      return;
    }
    const double doubt_m = 2 * sweep.vector_uncertainty->u.value();
    plot.caption.push_back(fmt::format("{} {} {}", text_of(Label::eccentricity, language_),
                                       doubtful_text(sweep.eccentricity.value, *unit_, doubt_m),
                                       plus_minus_text(doubt_m, *unit_)));
  }

 private:
  void set_direction(PolarPlot& plot) const {
    const SweepResult& sweep = *judged_.sweep;
    if (sweep.mount == Mount::unknown) {
      plot.direction = Direction::mount_missing;
    } else if (const auto high = claimed_high_spot(sweep)) {
      plot.direction = Direction::claimed;
      plot.high_spot_deg = degrees_of(*high);
      if (sweep.high_spot_u) plot.high_spot_spread_deg = 2 * degrees_of(*sweep.high_spot_u);
    } else {
      plot.direction = Direction::not_distinguishable;
    }
  }

  void set_limit(PolarPlot& plot, PolarLimitOn on) const {
    if (plot.limit || check_.limits.empty() || !check_.limits.front().upper) return;
    plot.limit = {on, check_.limits.front().upper->si};
  }

  const job::Check& check_;
  const job::SweepReading& written_;
  const job::JudgedReading& judged_;
  const job::Language language_;
  const Unit* unit_;
};

struct Gathered {
  std::string source;   // the check whose reading it is
  std::string reading;  // id
  const job::Check* first = nullptr;
  const job::JudgedReading* judged = nullptr;
  bool eccentricity_said = false;
  PolarPlot plot;
};

void gather(std::vector<Gathered>& all, const job::Check& check, const job::CheckFinding& finding,
            const job::JobState& state, job::Language language) {
  const std::string source = check.from.empty() ? check.id : check.from;
  for (const job::JudgedReading& judged : finding.readings) {
    const job::Reading* reading = standing_reading(state, source, judged.reading_id);
    if (!judged.sweep || reading == nullptr || !std::holds_alternative<job::SweepReading>(reading->body))
      continue;
    auto found = std::find_if(all.begin(), all.end(), [&](const Gathered& g) {
      return g.source == source && g.reading == judged.reading_id;
    });
    const PlotFor maker(check, *reading, judged, language);
    if (found == all.end()) {
      found = all.insert(found, {source, judged.reading_id, &check, &judged, false, maker.start()});
      found->plot.id = finding.readings.size() > 1 ? check.id + "/" + judged.reading_id : check.id;
      if (finding.readings.size() > 1) found->plot.title += " · " + reading->actor;
    }
    if (badness(judged.verdict) > badness(found->plot.verdict)) found->plot.verdict = judged.verdict;
    found->plot.deviation_accepted = found->plot.deviation_accepted || finding.deviation_accepted;
    found->eccentricity_said = found->eccentricity_said || check.judged == job::Judged::eccentricity;
    maker.add_to(found->plot);
  }
}

}  // namespace

std::vector<PolarPlot> polar_plots(const job::Plan& plan, const job::JobState& state,
                                   const job::Judgement& judgement, job::Language language) {
  std::vector<Gathered> all;
  for (const job::Step& step : plan.steps)
    for (const job::Check& check : step.checks)
      if (const job::CheckFinding* finding = judgement.find(check.id))
        gather(all, check, *finding, state, language);
  std::vector<PolarPlot> plots;
  for (Gathered& g : all) {
    const job::Reading* reading = standing_reading(state, g.source, g.reading);
    if (!g.eccentricity_said && g.plot.centre)
      PlotFor(*g.first, *reading, *g.judged, language).add_eccentricity(g.plot);
    g.plot.caption.push_back(fill(text_of(Label::written_list, language),
                                  sweep_as_written(std::get<job::SweepReading>(reading->body), language)));
    plots.push_back(std::move(g.plot));
  }
  return plots;
}

}  // namespace pumpwright::report
