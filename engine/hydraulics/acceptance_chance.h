// The chance that a pump keeps its guarantee, by Monte Carlo: beside the law of propagation, without its
// straight lines and with the criteria taken together.
//
// Draws come in blocks of fixed size with a random stream each and are counted in order: the same seed gives
// the same counts on any number of threads. A limit error is rectangular, scatter is normal about a standard
// deviation that is itself only known from the residuals (Student's t for all points together).
#pragma once

#include <vector>

#include "engine/assembly/monte_carlo.h"
#include "engine/executor.h"
#include "engine/hydraulics/acceptance.h"

namespace pumpwright::hydraulics {

struct SampledGrade {
  Grade grade;
  SampledProbability chance;  // that all criteria are met
};

struct SampledAcceptance {
  std::uint64_t samples = 0, seed = 0;
  double head_mean_m = 0, head_sd_m = 0;  // at the guaranteed flow
  std::vector<SampledGrade> grades;       // as judge_acceptance lists them
};

// BadInput as judge_acceptance, and "samples" outside 1000 to 100 000 000. A draw whose curve does not meet
// the line from the origin is counted as not met.
SampledAcceptance sample_acceptance(const PerformanceModel& model, const Guarantee& guarantee,
                                    const GradeRule& rule, const MonteCarloSettings& settings,
                                    Executor& executor);

}  // namespace pumpwright::hydraulics
