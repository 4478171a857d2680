#include "job/seal_finding.h"

#include <algorithm>
#include <array>
#include <span>

namespace pumpwright::job {
namespace {

// The checks a seal stands or falls with: before the box is opened, and once it is set.
constexpr std::array<std::string_view, 6> service_checks{
    "elastomer-temperature", "liquid-elastomer", "face-pair", "coil-hand", "fastener-hand", "vapour-margin"};
constexpr std::array<std::string_view, 4> set_checks{"working-length", "seat-squareness", "spring-force",
                                                     "lubricant-elastomer"};

// Of the absolute suction pressure: more than rounding to three digits takes away.
constexpr double suction_reserve = 0.006;
constexpr int suction_tries = 12;

bool is_one_of(std::span<const std::string_view> names, const CheckFinding& finding) {
  return std::find(names.begin(), names.end(), finding.check) != names.end();
}

Verdict verdict_of(const std::vector<CheckFinding>& checks) {
  const auto any = [&](Verdict v) {
    return std::any_of(checks.begin(), checks.end(), [v](const auto& c) { return c.verdict == v; });
  };
  if (any(Verdict::fail)) return Verdict::fail;
  return checks.empty() || any(Verdict::unproven) || any(Verdict::not_taken) ? Verdict::unproven
                                                                             : Verdict::pass;
}

Verdict verdict_of(const std::vector<CheckFinding>& checks, std::span<const std::string_view> names) {
  std::vector<CheckFinding> named;
  std::copy_if(checks.begin(), checks.end(), std::back_inserter(named),
               [&](const auto& finding) { return is_one_of(names, finding); });
  return verdict_of(named);
}

// Faces for which no film was found may boil or run dry: their margin, judged at the liquid's own
// temperature, says nothing of them.
bool film_in_doubt(const SealService& service) {
  return service.film && !service.film->converged;
}

Verdict no_better_than_unproven(Verdict verdict) {
  return verdict == Verdict::pass ? Verdict::unproven : verdict;
}

// The ratio of chamber to vapour pressure the plan asks for.
std::optional<double> ratio_asked(const Snapshot& snapshot) {
  const Check* check = snapshot.plan.find("vapour-margin");
  if (check == nullptr || check->limits.empty() || !check->limits.front().lower) return std::nullopt;
  return check->limits.front().lower->si;
}

}  // namespace

const CheckFinding* SealFinding::find(std::string_view check) const {
  const auto at = std::find_if(checks.begin(), checks.end(), [&](const auto& c) { return c.check == check; });
  return at == checks.end() ? nullptr : &*at;
}

SealFinding find_of_seal(const SealQuestion& question, const JobState& state) {
  SealFinding out;
  out.service = seal_service({question.snapshot, state}, Asked::everything, question.length);
  const Judgement judgement = judge(question.snapshot, state, question.length);
  for (const auto& finding : judgement.findings) {
    if (question.length && finding.check == "working-length") continue;
    if (is_one_of(service_checks, finding) || is_one_of(set_checks, finding)) out.checks.push_back(finding);
  }
  out.verdict = verdict_of(out.checks);
  out.in_service = verdict_of(out.checks, service_checks);
  out.as_set = verdict_of(out.checks, set_checks);
  if (film_in_doubt(out.service)) {
    out.verdict = no_better_than_unproven(out.verdict);
    out.in_service = no_better_than_unproven(out.in_service);
  }
  return out;
}

std::optional<GaugePressure> suction_that_does(const SealQuestion& question, const JobState& state,
                                               const SealFinding& finding) {
  const auto ratio = ratio_asked(question.snapshot);
  if (!ratio || !finding.service.least_suction) return std::nullopt;
  const double atmosphere_pa = finding.service.state->atmosphere.value.value();
  Snapshot snapshot = question.snapshot;
  double tried_pa = finding.service.least_suction->value.value();
  for (int i = 0; i < suction_tries; ++i) {
    snapshot.make_up.service.suction_pressure->si = tried_pa;
    const SealService there = seal_service({snapshot, state}, Asked::everything, question.length);
    if (!there.margin) return std::nullopt;
    const double reserve_pa = suction_reserve * (atmosphere_pa + tried_pa);
    if (there.ratio_low >= *ratio && !film_in_doubt(there))
      return GaugePressure{pascals(tried_pa + reserve_pa)};
    tried_pa = std::max(there.least_suction->value.value(), tried_pa + reserve_pa);
  }
  return std::nullopt;
}

}  // namespace pumpwright::job
