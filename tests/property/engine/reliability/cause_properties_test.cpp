// Exact inference beside the plainest way to it: every set of causes, one after the other.
#include <cmath>

#include "engine/reliability/cause_diagnosis.h"
#include "tests/support/hold.h"

namespace pumpwright::testing {
namespace {

using namespace pumpwright::reliability;

double part(int thousandths) {
  return thousandths / 1000.0;
}

CauseNetwork any_network() {
  CauseNetwork net;
  const auto causes = *rc::gen::inRange<std::size_t>(1, 10), findings = *rc::gen::inRange<std::size_t>(1, 12);
  for (std::size_t i = 0; i < causes; ++i)
    net.prior.push_back(part(*rc::gen::inRange(1, 700)));
  for (std::size_t i = 0; i < findings; ++i)
    net.leak.push_back(part(*rc::gen::inRange(1, 300)));
  for (std::size_t c = 0; c < causes; ++c)
    for (std::size_t f = 0; f < findings; ++f)
      if (*rc::gen::inRange(0, 3) > 0) net.links.push_back({c, f, part(*rc::gen::inRange(1, 999))});
  return net;
}

Evidence any_evidence(std::size_t findings) {
  Evidence out;
  for (std::size_t i = 0; i < findings; ++i)
    out.push_back(*rc::gen::element(Seen::present, Seen::absent, Seen::not_looked));
  return out;
}

bool there(std::size_t set, std::size_t cause) {
  return (set >> cause & 1) != 0;
}

// The joint chance of a set of causes and of the evidence, from the definition of the noisy-OR.
double joint(const CauseNetwork& net, const Evidence& seen, std::size_t set) {
  double chance = 1;
  for (std::size_t c = 0; c < net.prior.size(); ++c)
    chance *= there(set, c) ? net.prior[c] : 1 - net.prior[c];
  for (std::size_t f = 0; f < seen.size(); ++f) {
    if (seen[f] == Seen::not_looked) continue;
    double none = 1 - net.leak[f];
    for (const auto& link : net.links)
      if (link.finding == f && there(set, link.cause)) none *= 1 - link.strength;
    chance *= seen[f] == Seen::absent ? none : 1 - none;
  }
  return chance;
}

struct Enumerated {
  double evidence = 0;
  std::vector<double> posterior;
};

Enumerated enumerated(const CauseNetwork& net, const Evidence& seen) {
  Enumerated out{0, std::vector<double>(net.prior.size(), 0)};
  for (std::size_t set = 0; set < std::size_t{1} << net.prior.size(); ++set) {
    const double chance = joint(net, seen, set);
    out.evidence += chance;
    for (std::size_t c = 0; c < net.prior.size(); ++c)
      if (there(set, c)) out.posterior[c] += chance;
  }
  for (double& p : out.posterior)
    p /= out.evidence;
  return out;
}

TEST(CauseProperty, IsWhatEnumerationGives) {
  hold("exact", [] {
    const auto net = any_network();
    const auto seen = any_evidence(net.leak.size());
    const CauseInference inference(net);
    const auto wanted = enumerated(net, seen);
    const auto found = inference.posterior(seen);
    for (std::size_t c = 0; c < found.size(); ++c)
      RC_ASSERT(std::fabs(found[c] - wanted.posterior[c]) < 1e-12);
    RC_ASSERT(std::fabs(inference.chance_of(seen) - wanted.evidence) < 1e-12 * wanted.evidence);
  });
}

TEST(CauseProperty, WereACauseKnownItIsWhatEnumerationGivesOverItsSetsAlone) {
  hold("known", [] {
    auto net = any_network();
    const auto seen = any_evidence(net.leak.size());
    const auto cause = *rc::gen::inRange<std::size_t>(0, net.prior.size());
    const auto found = CauseInference(net).posterior_with(cause, seen);
    net.prior[cause] = 1;
    const auto wanted = enumerated(net, seen);
    for (std::size_t c = 0; c < found.size(); ++c)
      RC_ASSERT(std::fabs(found[c] - wanted.posterior[c]) < 1e-12);
  });
}

TEST(CauseProperty, LookingIsNeverExpectedToUnlearn) {
  hold("learn", [] {
    const auto net = any_network();
    const auto seen = any_evidence(net.leak.size());
    for (const auto& next : diagnose(CauseInference(net), seen).next) {
      RC_ASSERT(next.bits >= 0);
      RC_ASSERT(next.chance > 0 && next.chance < 1);
      auto looked = seen;
      looked[next.finding] = Seen::present;
      RC_ASSERT(std::fabs(next.chance - enumerated(net, looked).evidence / enumerated(net, seen).evidence) <
                1e-9);
    }
  });
}

}  // namespace
}  // namespace pumpwright::testing
