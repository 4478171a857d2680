// What `pumpwright performance` was asked, and what it found.
#pragma once

#include <optional>
#include <string>

#include "job/sheets/performance_finding.h"

namespace pumpwright {

struct PerformanceQuestion {
  std::string file;
  job::PerformanceSheet sheet;
  std::optional<MonteCarloSettings> sampling;  // beside the law of propagation
};

struct PerformanceAnswer {
  job::PerformanceFinding finding;
  std::optional<hydraulics::SampledAcceptance> sampled;
};

// BadInput as the engine's, with places in the file.
PerformanceAnswer answer(const PerformanceQuestion& question, Executor& executor);

std::string performance_text(const PerformanceQuestion& question, const PerformanceAnswer& answer,
                             bool colour);
std::string performance_json(const PerformanceQuestion& question, const PerformanceAnswer& answer);

}  // namespace pumpwright
