// What `pumpwright stack` was asked, and what it found.
#pragma once

#include <cstdint>
#include <string>

#include "cli/chain_file.h"
#include "engine/assembly/monte_carlo.h"

namespace pumpwright {

struct StackQuestion {
  std::string file;
  ChainFile chain;
  MonteCarloSettings settings;
};

// Whether the wanted part of all builds keeps to the limits.
struct StackVerdict {
  std::string word;           // "pass", "fail" or "unproven"; empty when the chain has no limit
  std::string reason;         // "worst-case-inside", "enough-inside", "too-few-inside", "sampling-too-coarse"
  double inside = 0;          // the part that was found
  double standard_error = 0;  // of it; 0 when it is exact
};

struct StackFinding {
  ChainAnalysis closed_form;
  ChainSimulation simulation;
  StackVerdict verdict;
};

// Pass when the worst case keeps to the limits, or the part of builds inside is proven (one-sided 95 %) to be
// at least the wanted one; fail when it is proven to be less; else unproven: more samples would settle it.
// The exact part is taken when there is one (all links normal), else the sampled one.
StackFinding answer(const StackQuestion& question, Executor& executor);

std::string stack_text(const StackQuestion& question, const StackFinding& finding, bool colour);
std::string stack_json(const StackQuestion& question, const StackFinding& finding);

}  // namespace pumpwright
