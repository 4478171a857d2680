#include "job/seal_finding.h"

#include <algorithm>
#include <array>
#include <span>

namespace pumpwright::job {
namespace {

// The checks a seal stands or falls with: before the box is opened, and once it is set.
constexpr std::array<std::string_view, 7> service_checks{
    "elastomer-temperature", "liquid-elastomer", "face-pair",    "coil-hand",
    "fastener-hand",         "face-load",        "vapour-margin"};
constexpr std::array<std::string_view, 6> set_checks{"working-length", "seat-squareness",
                                                     "head-follows",   "face-overlap",
                                                     "spring-force",   "lubricant-elastomer"};

constexpr std::array<std::string_view, 3> deciding{"vapour-margin", "elastomer-temperature", "spring-force"};

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

Verdict no_better_than_unproven(Verdict verdict) {
  return verdict == Verdict::pass ? Verdict::unproven : verdict;
}

// A make-up that leaves these out has no such check in its plan, and proves nothing by that.
bool lacks_a_check(const SealFinding& finding) {
  constexpr std::array<std::string_view, 3> never_missing{"elastomer-temperature", "face-pair",
                                                          "vapour-margin"};
  return std::any_of(never_missing.begin(), never_missing.end(),
                     [&](std::string_view check) { return finding.find(check) == nullptr; });
}

}  // namespace

const CheckFinding* SealFinding::find(std::string_view check) const {
  const auto at = std::find_if(checks.begin(), checks.end(), [&](const auto& c) { return c.check == check; });
  return at == checks.end() ? nullptr : &*at;
}

std::span<const std::string_view> deciding_checks() {
  return deciding;
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
  if (lacks_a_check(out)) {
    out.verdict = no_better_than_unproven(out.verdict);
    out.in_service = no_better_than_unproven(out.in_service);
  }
  out.as_set = verdict_of(out.checks, set_checks);
  return out;
}

}  // namespace pumpwright::job
