#include "job/sheets/balance_finding.h"

#include <algorithm>

namespace pumpwright::job {
namespace {

using rotor::BalanceSolution;
using rotor::Unbalance;

std::vector<TrialAdvice> trial_advice(const BalanceSheet& file) {
  std::vector<TrialAdvice> all;
  for (const auto& plane : file.planes) {
    const auto radius = plane.radius.quantity().as<Length>();
    const Mass mass = rotor::trial_mass(file.rotor.mass, file.planes.size(), radius, file.balancing);
    all.push_back({mass, rotor::centrifugal_force(mass * radius, file.balancing)});
  }
  return all;
}

bool same_weights(const BalanceSheet& file, std::size_t a, std::size_t b) {
  for (std::size_t p = 0; p < file.planes.size(); ++p)
    if (rotor::fitted_in(file.runs.runs[a], p, file.runs.sense) !=
        rotor::fitted_in(file.runs.runs[b], p, file.runs.sense))
      return false;
  return true;
}

std::vector<TrialEffect> effects_of(const BalanceSheet& file) {
  std::vector<TrialEffect> all;
  for (std::size_t r = 1; r < file.runs.runs.size(); ++r) {
    if (same_weights(file, 0, r)) continue;
    TrialEffect effect{.run = file.run_names[r], .on_sensor = {}};
    for (std::size_t s = 0; s < file.sensors.size(); ++s)
      effect.on_sensor.push_back(
          rotor::change_between(file.runs.runs[0].readings[s], file.runs.runs[r].readings[s]));
    effect.enough = std::any_of(effect.on_sensor.begin(), effect.on_sensor.end(),
                                [](const auto& change) { return change.enough(); });
    all.push_back(effect);
  }
  return all;
}

// Metal comes out opposite to where weight would go on.
void take_out(const PlaneInFile& plane, PlaneCorrection& c) {
  for (const auto& part : c.parts) {
    if (const auto* drill = std::get_if<DrillAtHand>(&plane.by))
      c.holes.push_back(rotor::holes_for(drill->drill, part.amount, drill->spacing));
    if (const auto* grind = std::get_if<rotor::Grind>(&plane.by))
      c.pads.push_back(rotor::pad_for(*grind, part.amount));
  }
}

PlaneCorrection correction_in(const PlaneInFile& plane, std::complex<double> add,
                              const rotor::AngleSense& sense) {
  PlaneCorrection c;
  c.add = rotor::unbalance_of(add, sense);
  const auto radius = plane.radius.quantity().as<Length>();
  c.mass = c.add.amount / radius;
  const bool removes =
      std::holds_alternative<DrillAtHand>(plane.by) || std::holds_alternative<rotor::Grind>(plane.by);
  const rotor::UnbalanceVector wanted{c.add.amount, removes ? rotor::opposite(c.add.place) : c.add.place};
  c.parts = plane.places.empty() ? std::vector<rotor::PlaceLoad>{{wanted.place, wanted.amount}}
                                 : rotor::split_between_places(wanted, plane.places);
  if (removes) take_out(plane, c);
  if (const auto* weights = std::get_if<WeightsAtHand>(&plane.by)) {
    std::vector<Mass> masses;
    for (const auto& mass : weights->masses)
      masses.push_back(mass.quantity().as<Mass>());
    const std::vector<Angle> places = plane.places.empty() ? std::vector<Angle>{wanted.place} : plane.places;
    c.chosen = rotor::choose_weights(wanted, places, radius, masses, weights->most_per_place);
  }
  return c;
}

JudgedUnbalance judged(const std::string& where, const rotor::UnbalanceEstimate& estimate, Unbalance limit,
                       const BalanceSheet& file, bool told_apart) {
  return {where, rotor::judge_unbalance(estimate, limit, told_apart),
          rotor::unbalance_of(estimate.value, file.runs.sense).place};
}

// At the bearings where they are known, else in the correction planes: all of U_per in one, half in each of
// two.
std::vector<JudgedUnbalance> judge_all(const BalanceSheet& file, const BalanceFinding& f) {
  const BalanceSolution& solution = *f.solution;
  std::vector<JudgedUnbalance> all;
  if (!f.at_bearings) {
    const Unbalance limit = f.permissible / static_cast<double>(file.planes.size());
    for (std::size_t p = 0; p < file.planes.size(); ++p)
      all.push_back(judged(file.planes[p].name, solution.remaining[p], limit, file, solution.told_apart));
    return all;
  }
  std::vector<Length> at;
  for (const auto& plane : file.planes)
    at.push_back(*plane.at);
  const auto ends = rotor::seen_at(solution, at, file.bearings->a, file.bearings->b);
  all.push_back(judged("bearing A", ends[0], f.at_bearings->a, file, solution.told_apart));
  all.push_back(judged("bearing B", ends[1], f.at_bearings->b, file, solution.told_apart));
  return all;
}

// A fail anywhere fails; anything unproven leaves all unproven.
void conclude(const BalanceSheet& file, BalanceFinding& f) {
  const auto with = [&](Outcome outcome) {
    return std::find_if(f.judged.begin(), f.judged.end(),
                        [&](const auto& j) { return j.verdict.outcome == outcome; });
  };
  auto worst = with(Outcome::fail);
  if (worst == f.judged.end()) worst = with(Outcome::unproven);
  if (worst == f.judged.end()) worst = f.judged.begin();
  f.verdict = code(worst->verdict.outcome);
  f.reason = worst->verdict.reason;
  const bool remembered =
      f.at_bearings && f.at_bearings->how == HowKnown::remembered && !file.bounds_confirmed;
  if (remembered && f.verdict != "unproven") {
    f.verdict = "unproven";
    f.reason = "limit-unconfirmed";
  }
}

void solve(const BalanceSheet& file, BalanceFinding& f) {
  if (file.runs.runs.size() < file.planes.size() + 1) {
    f.verdict = "unproven";
    f.reason = "trial-runs-wanted";
    return;
  }
  f.influence = rotor::influence_of(file.runs);
  f.solution = rotor::solve_balance(file.runs, f.influence);
  for (std::size_t p = 0; p < file.planes.size(); ++p)
    f.corrections.push_back(correction_in(file.planes[p], f.solution->correction[p], file.runs.sense));
  f.judged = judge_all(file, f);
  conclude(file, f);
}

}  // namespace

BalanceFinding balance_finding(const BalanceSheet& sheet) {
  BalanceFinding f;
  f.eccentricity = rotor::permissible_eccentricity(sheet.rotor);
  f.permissible = rotor::permissible_unbalance(sheet.rotor);
  f.grade_is_listed = rotor::is_listed(sheet.rotor.grade);
  if (sheet.bearings) f.at_bearings = rotor::tolerance_at_bearings(f.permissible, *sheet.bearings);
  f.trial = trial_advice(sheet);
  if (sheet.key) f.key = rotor::unbalance_of_key(*sheet.key);
  if (!sheet.runs.runs.empty()) {
    f.effects = effects_of(sheet);
    solve(sheet, f);
  }
  return f;
}

}  // namespace pumpwright::job
