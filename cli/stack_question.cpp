#include "cli/stack_question.h"

#include "cli/input_file.h"

namespace pumpwright {
namespace {

constexpr double one_sided_95 = 1.6448536269514722;  // quantile of the standard normal

bool worst_case_keeps(const Chain& chain, const ChainAnalysis& a) {
  return (!chain.lower_limit || a.worst_min >= *chain.lower_limit) &&
         (!chain.upper_limit || a.worst_max <= *chain.upper_limit);
}

// Links that may lie outside their tolerance have no true worst case.
bool worst_case_is_certain(const Chain& chain) {
  for (const auto& link : chain.links)
    if ((link.spread == Spread::normal || link.spread == Spread::student_t) &&
        link.lower_deviation < link.upper_deviation)
      return false;
  return true;
}

StackVerdict verdict_on(const ChainFile& file, const ChainAnalysis& a, const ChainSimulation& s) {
  if (!s.probability_inside) return {};
  StackVerdict v;
  v.inside = a.exact_probability_inside.value_or(s.probability_inside->value);
  v.standard_error = a.exact_probability_inside ? 0 : s.probability_inside->standard_error;
  const double doubt = one_sided_95 * v.standard_error;
  if (worst_case_is_certain(file.chain) && worst_case_keeps(file.chain, a)) {
    v.word = "pass";
    v.reason = "worst-case-inside";
  } else if (v.inside - doubt >= file.wanted_inside) {
    v.word = "pass";
    v.reason = "enough-inside";
  } else if (v.inside + doubt < file.wanted_inside) {
    v.word = "fail";
    v.reason = "too-few-inside";
  } else {
    v.word = "unproven";
    v.reason = "sampling-too-coarse";
  }
  return v;
}

}  // namespace

StackFinding answer(const StackQuestion& question, Executor& executor) {
  StackFinding finding;
  finding.closed_form = naming_file(question.file, [&] { return analyse(question.chain.chain); });
  finding.simulation = simulate(question.chain.chain, question.settings, executor);
  finding.verdict = verdict_on(question.chain, finding.closed_form, finding.simulation);
  return finding;
}

}  // namespace pumpwright
