#include "engine/reliability/cause_diagnosis.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace pumpwright::reliability {
namespace {

using Chances = std::vector<double>;

// Finite where rounding leaves no doubt.
double log_odds(double p) {
  constexpr double edge = 1e-15;
  const double held = std::clamp(p, edge, 1 - edge);
  return std::log10(held / (1 - held));
}

double entropy_bits(double p) {
  if (p <= 0 || p >= 1) return 0;
  return -(p * std::log2(p) + (1 - p) * std::log2(1 - p));
}

double entropy_bits(const Chances& chances) {
  return std::accumulate(chances.begin(), chances.end(), 0.0,
                         [](double sum, double p) { return sum + entropy_bits(p); });
}

std::vector<RankedCause> ranked(const Chances& posterior) {
  std::vector<RankedCause> out(posterior.size());
  for (std::size_t i = 0; i < out.size(); ++i)
    out[i] = {i, posterior[i], {}};
  std::stable_sort(out.begin(), out.end(),
                   [](const auto& a, const auto& b) { return a.probability > b.probability; });
  return out;
}

void weigh(const CauseInference& inference, const Evidence& evidence, CauseDiagnosis& out) {
  for (std::size_t finding = 0; finding < evidence.size(); ++finding) {
    if (evidence[finding] == Seen::not_looked) continue;
    Evidence without = evidence;
    without[finding] = Seen::not_looked;
    const Chances before = inference.posterior(without);
    for (auto& cause : out.ranked) {
      const double weight = log_odds(cause.probability) - log_odds(before[cause.cause]);
      if (std::abs(weight) >= least_weight) cause.evidence.push_back({finding, weight});
    }
  }
  for (auto& cause : out.ranked)
    std::stable_sort(cause.evidence.begin(), cause.evidence.end(),
                     [](const auto& a, const auto& b) { return std::abs(a.weight) > std::abs(b.weight); });
}

void name(const CauseInference& inference, const Evidence& evidence, CauseDiagnosis& out) {
  if (out.ranked.empty()) return;
  const RankedCause& first = out.ranked.front();
  const Chances beside = inference.posterior_with(first.cause, evidence);
  std::vector<std::size_t> together{first.cause};
  for (std::size_t i = 1; i < out.ranked.size(); ++i) {
    const RankedCause& other = out.ranked[i];
    if (beside[other.cause] >= least_probability_named && other.probability >= least_probability_named)
      together.push_back(other.cause);
    else if (other.probability > first.probability / 2)
      out.rivals.push_back(other.cause);
  }
  if (first.probability >= least_probability_named && out.rivals.empty()) out.named = std::move(together);
}

// From the posterior and that of the finding's absence; that of its presence is what is left of the whole.
NextFinding telling(const CauseInference& inference, const Evidence& evidence, const CauseChances& known,
                    std::size_t finding) {
  Evidence without = evidence;
  without[finding] = Seen::absent;
  const CauseChances if_absent = inference.chances(without);
  const double absent = if_absent.evidence / known.evidence;
  NextFinding out{finding, 1 - absent, 0};
  double expected = absent * entropy_bits(if_absent.posterior);
  for (std::size_t i = 0; i < known.posterior.size(); ++i) {
    const double if_present = (known.posterior[i] - absent * if_absent.posterior[i]) / out.chance;
    expected += out.chance * entropy_bits(if_present);
  }
  out.bits = std::max(0.0, entropy_bits(known.posterior) - expected);
  return out;
}

void look_ahead(const CauseInference& inference, const Evidence& evidence, const CauseChances& known,
                CauseDiagnosis& out) {
  for (std::size_t finding = 0; finding < evidence.size(); ++finding)
    if (evidence[finding] == Seen::not_looked)
      out.next.push_back(telling(inference, evidence, known, finding));
  std::stable_sort(out.next.begin(), out.next.end(),
                   [](const auto& a, const auto& b) { return a.bits > b.bits; });
}

}  // namespace

CauseDiagnosis diagnose(const CauseInference& inference, const Evidence& evidence) {
  CauseDiagnosis out;
  const CauseChances known = inference.chances(evidence);
  out.ranked = ranked(known.posterior);
  weigh(inference, evidence, out);
  name(inference, evidence, out);
  look_ahead(inference, evidence, known, out);
  return out;
}

}  // namespace pumpwright::reliability
