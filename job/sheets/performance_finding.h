// What a pump's performance test shows, found from its sheet.
#pragma once

#include <optional>
#include <vector>

#include "engine/hydraulics/acceptance_chance.h"
#include "engine/hydraulics/curve_search.h"
#include "job/sheets/performance_sheet.h"
#include "job/text.h"

namespace pumpwright::job {

// What would put a pump right that misses its head.
struct Remedy {
  double factor = 1;  // of speed (or, below 1, of flow by a cut): head there by the law
  std::optional<hydraulics::TrimPlan> trim;  // when it gives too much and the impeller is stated
  std::optional<Length> diameter_needed;  // by affinity, when it gives too little and the impeller is stated
  double safe_factor = 1;                 // of speed, with a 5 % chance of undershooting
};

// What the pump asks of its motor where it asks most.
struct DriverLoad {
  hydraulics::Figure share;      // of what the motor may give on this supply
  double flow_m3_s = 0;          // where that is
  std::optional<double> uneven;  // voltage unbalance
  double derating = 1;           // for it
};

struct PerformanceFinding {
  hydraulics::PerformanceModel model;
  std::vector<std::vector<hydraulics::Figure>> points;  // head, hydraulic power, shaft power, efficiency
  std::optional<hydraulics::BestPoint> best;
  std::vector<hydraulics::Figure> best_figures;  // flow, head, efficiency
  std::optional<hydraulics::SpecificSpeed> shape;
  std::optional<hydraulics::AcceptanceFinding> acceptance;
  std::optional<Remedy> remedy;
  std::optional<hydraulics::Npsh3> npsh3;
  std::optional<hydraulics::SpecificSpeed> suction_shape;
  std::optional<Length> npsh_available;
  std::optional<DriverLoad> driver;
  std::vector<Text> cautions;  // about the measurement: speed outside the window, bends, gaps
};

// BadInput as the engine's, with places in the sheet.
PerformanceFinding performance_finding(const PerformanceSheet& sheet);

// Of the agreed grade (or of figures of one's own); nothing when none is agreed.
const hydraulics::GradeFinding* agreed_grade(const PerformanceSheet& sheet,
                                             const PerformanceFinding& finding);

}  // namespace pumpwright::job
