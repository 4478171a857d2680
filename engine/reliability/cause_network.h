// From what is found on a failed machine to what may have caused it: causes above, findings below, each
// finding a noisy-OR of its causes (Pearl, Probabilistic Reasoning in Intelligent Systems (1988), section
// 4.3.2; two layers as Shwe et al., Methods Inf. Med. 30 (1991) 241-255). Causes are independent before
// anything was looked at and may be there together; each brings its findings on its own.
//
// Inference is exact. Every finding that is there must have been brought by something: the chance of each set
// of findings brought so far is carried from cause to cause, forward and back, so that all terms are positive
// and nothing cancels. Cost grows by 2 to the number of findings that are there, and by the number of causes.
#pragma once

#include <cstddef>
#include <vector>

namespace pumpwright::reliability {

// That a cause, alone, brings a finding: over 0 and under 1.
struct CauseLink {
  std::size_t cause = 0;
  std::size_t finding = 0;
  double strength = 0;
};

struct CauseNetwork {
  std::vector<double> prior;     // of each cause before anything was looked at: over 0, at most 1
  std::vector<double> leak;      // of each finding when none of the causes is there: over 0 and under 1
  std::vector<CauseLink> links;  // at most one for a cause and a finding
};

enum class Seen { not_looked, present, absent };

// One for each finding of the network.
using Evidence = std::vector<Seen>;

// More findings than this that are there are refused: time and memory double with each.
constexpr std::size_t most_findings_present = 16;

struct CauseChances {
  std::vector<double> posterior;  // of each cause
  double evidence = 0;            // how likely it was before anything was looked at
};

class CauseInference {
 public:
  // Throws BadInput ("prior/3", "leak/0", "links/7") for a number outside its range or a link to nothing.
  explicit CauseInference(CauseNetwork network);

  const CauseNetwork& network() const { return network_; }

  // Of each cause given the evidence, and of the evidence. Throws BadInput ("findings") with more than
  // most_findings_present there, or another number of findings than the network has.
  CauseChances chances(const Evidence& evidence) const;

  // Of each cause given the evidence.
  std::vector<double> posterior(const Evidence& evidence) const;

  // The same, were the cause known to be there.
  std::vector<double> posterior_with(std::size_t cause, const Evidence& evidence) const;

  // How likely this evidence was before anything was looked at.
  double chance_of(const Evidence& evidence) const;

 private:
  struct Terms;
  std::vector<double> forward(const Terms& terms, std::vector<std::vector<double>>* before) const;
  Terms terms_for(const Evidence& evidence) const;
  CauseChances marginals(const Terms& terms) const;

  CauseNetwork network_;
};

}  // namespace pumpwright::reliability
