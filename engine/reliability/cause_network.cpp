#include "engine/reliability/cause_network.h"

#include <cassert>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright::reliability {
namespace {

[[noreturn]] void refuse(const std::string& field, const std::string& value, const std::string& expected) {
  throw BadInput({.field = field, .place = "", .value = value, .expected = expected});
}

void check_part(const std::string& field, double value, bool one_is_fine) {
  const bool below = one_is_fine ? value <= 1 : value < 1;
  if (value > 0 && below) return;
  refuse(field, fmt::format("{:g}", value),
         one_is_fine ? "a probability over 0, at most 1" : "a probability over 0 and under 1");
}

// A finding that is there and that the cause may have brought.
struct Brings {
  std::size_t bit;  // of the findings that are there
  double strength;
};

// Sets of findings brought so far, one more cause there: from each set to it with what the cause brings.
void bring(std::vector<double>& sets, const std::vector<Brings>& brings) {
  for (const auto& [bit, strength] : brings) {
    const std::size_t mask = std::size_t{1} << bit;
    for (std::size_t set = 0; set < sets.size(); ++set) {
      if ((set & mask) != 0) continue;
      sets[set | mask] += strength * sets[set];
      sets[set] *= 1 - strength;
    }
  }
}

// The same step the other way round: what a set is worth before the cause, from what sets are worth after it.
void bring_back(std::vector<double>& worth, const std::vector<Brings>& brings) {
  for (const auto& [bit, strength] : brings) {
    const std::size_t mask = std::size_t{1} << bit;
    for (std::size_t set = 0; set < worth.size(); ++set)
      if ((set & mask) == 0) worth[set] = (1 - strength) * worth[set] + strength * worth[set | mask];
  }
}

}  // namespace

// What the evidence leaves of the network.
struct CauseInference::Terms {
  std::vector<double> prior;
  std::vector<double> weight;  // of each cause that is there: its prior, and nothing absent brought
  std::vector<std::vector<Brings>> brings;  // of each cause
  std::vector<double> start;                // of each set of present findings, brought by no cause
};

CauseInference::CauseInference(CauseNetwork network) : network_(std::move(network)) {
  for (std::size_t i = 0; i < network_.prior.size(); ++i)
    check_part(fmt::format("prior/{}", i), network_.prior[i], true);
  for (std::size_t i = 0; i < network_.leak.size(); ++i)
    check_part(fmt::format("leak/{}", i), network_.leak[i], false);
  std::set<std::pair<std::size_t, std::size_t>> known;
  for (std::size_t i = 0; i < network_.links.size(); ++i) {
    const CauseLink& link = network_.links[i];
    const std::string field = fmt::format("links/{}", i);
    check_part(field, link.strength, false);
    if (link.cause >= network_.prior.size() || link.finding >= network_.leak.size())
      refuse(field, fmt::format("cause {}, finding {}", link.cause, link.finding),
             "a cause and a finding of the network");
    if (!known.emplace(link.cause, link.finding).second)
      refuse(field, fmt::format("cause {}, finding {}", link.cause, link.finding), "one link for each pair");
  }
}

CauseInference::Terms CauseInference::terms_for(const Evidence& evidence) const {
  if (evidence.size() != network_.leak.size())
    refuse("findings", std::to_string(evidence.size()), fmt::format("{} findings", network_.leak.size()));
  std::vector<std::size_t> bit(evidence.size());
  std::size_t present = 0;
  for (std::size_t f = 0; f < evidence.size(); ++f)
    if (evidence[f] == Seen::present) bit[f] = present++;
  if (present > most_findings_present)
    refuse("findings", fmt::format("{} that are there", present),
           fmt::format("at most {}: leave out those that follow from others", most_findings_present));

  Terms terms;
  terms.prior = network_.prior;
  terms.weight = network_.prior;
  terms.brings.resize(network_.prior.size());
  for (const auto& link : network_.links) {
    if (evidence[link.finding] == Seen::present)
      terms.brings[link.cause].push_back({bit[link.finding], link.strength});
    else if (evidence[link.finding] == Seen::absent)
      terms.weight[link.cause] *= 1 - link.strength;
  }
  terms.start.assign(std::size_t{1} << present, 0);
  terms.start[0] = 1;
  std::vector<Brings> leaks;
  for (std::size_t f = 0; f < evidence.size(); ++f) {
    if (evidence[f] == Seen::absent) terms.start[0] *= 1 - network_.leak[f];
    if (evidence[f] == Seen::present) leaks.push_back({bit[f], network_.leak[f]});
  }
  bring(terms.start, leaks);
  return terms;
}

// Of each set after all causes; `before`: what it was before each.
std::vector<double> CauseInference::forward(const Terms& terms,
                                            std::vector<std::vector<double>>* before) const {
  std::vector<double> sets = terms.start;
  for (std::size_t cause = 0; cause < terms.prior.size(); ++cause) {
    std::vector<double> there = sets;
    for (auto& chance : there)
      chance *= terms.weight[cause];
    bring(there, terms.brings[cause]);
    for (std::size_t set = 0; set < sets.size(); ++set)
      there[set] += (1 - terms.prior[cause]) * sets[set];
    if (before != nullptr) before->push_back(std::move(sets));
    sets = std::move(there);
  }
  return sets;
}

CauseChances CauseInference::marginals(const Terms& terms) const {
  std::vector<std::vector<double>> before;
  before.reserve(terms.prior.size());
  const double all = forward(terms, &before).back();
  assert(all > 0);  // no leak is 0
  std::vector<double> out(terms.prior.size());
  std::vector<double> worth(terms.start.size(), 0);
  worth.back() = 1;  // every finding that is there has been brought
  for (std::size_t cause = terms.prior.size(); cause-- > 0;) {
    std::vector<double> there = worth;
    bring_back(there, terms.brings[cause]);
    double with = 0;
    for (std::size_t set = 0; set < there.size(); ++set) {
      there[set] *= terms.weight[cause];
      with += before[cause][set] * there[set];
      worth[set] = (1 - terms.prior[cause]) * worth[set] + there[set];
    }
    out[cause] = with / all;
  }
  return {std::move(out), all};
}

CauseChances CauseInference::chances(const Evidence& evidence) const {
  return marginals(terms_for(evidence));
}

std::vector<double> CauseInference::posterior(const Evidence& evidence) const {
  return chances(evidence).posterior;
}

std::vector<double> CauseInference::posterior_with(std::size_t cause, const Evidence& evidence) const {
  assert(cause < network_.prior.size());
  Terms terms = terms_for(evidence);
  terms.weight[cause] /= terms.prior[cause];
  terms.prior[cause] = 1;
  return marginals(terms).posterior;
}

double CauseInference::chance_of(const Evidence& evidence) const {
  return forward(terms_for(evidence), nullptr).back();
}

}  // namespace pumpwright::reliability
