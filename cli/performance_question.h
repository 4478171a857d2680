// What `pumpwright performance` was asked, and what it found.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/performance_file.h"
#include "engine/hydraulics/acceptance_chance.h"
#include "engine/hydraulics/curve_search.h"

namespace pumpwright {

struct PerformanceQuestion {
  std::string file;
  PerformanceFile sheet;
  std::optional<MonteCarloSettings> sampling;  // beside the law of propagation
};

// What would put a pump right that misses its head.
struct Remedy {
  double factor = 1;  // of speed (or, below 1, of flow by a cut): head there by the law
  std::optional<hydraulics::TrimPlan> trim;  // when it gives too much and the impeller is stated
  std::optional<Length> diameter_needed;  // by affinity, when it gives too little and the impeller is stated
  double safe_factor = 1;                 // of speed, with a 5 % chance of undershooting
};

struct PerformanceFinding {
  hydraulics::PerformanceModel model;
  std::vector<std::vector<hydraulics::Figure>> points;  // head, hydraulic power, shaft power, efficiency
  std::optional<hydraulics::BestPoint> best;
  std::vector<hydraulics::Figure> best_figures;  // flow, head, efficiency
  std::optional<hydraulics::SpecificSpeed> shape;
  std::optional<hydraulics::AcceptanceFinding> acceptance;
  std::optional<hydraulics::SampledAcceptance> sampled;
  std::optional<Remedy> remedy;
  std::optional<hydraulics::Npsh3> npsh3;
  std::optional<hydraulics::SpecificSpeed> suction_shape;
  std::optional<Length> npsh_available;
  std::vector<std::string> cautions;  // about the measurement: speed outside the window, bends, gaps
};

// BadInput as the engine's, with places in the file.
PerformanceFinding answer(const PerformanceQuestion& question, Executor& executor);

// Of the agreed grade (or of figures of one's own); nothing when none is agreed.
const hydraulics::GradeFinding* agreed_grade(const PerformanceQuestion& question,
                                             const PerformanceFinding& finding);

std::string performance_text(const PerformanceQuestion& question, const PerformanceFinding& finding,
                             bool colour);
std::string performance_json(const PerformanceQuestion& question, const PerformanceFinding& finding);

}  // namespace pumpwright
