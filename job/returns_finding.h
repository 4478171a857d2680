// What is asked of a list of pumps that went out, and what it shows and does not show.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/reliability/before_after.h"
#include "engine/reliability/comparison.h"
#include "engine/reliability/cox.h"
#include "engine/reliability/proportional_hazards.h"
#include "engine/reliability/return_rate.h"
#include "engine/reliability/survival_curve.h"
#include "engine/reliability/trend.h"
#include "engine/reliability/weibull_limits.h"
#include "engine/reliability/weibull_threshold.h"
#include "job/returns_table.h"
#include "job/text.h"

namespace pumpwright::job {

struct ReturnsQuestion {
  ReturnsColumns columns;
  ReturnsTable table;
  bool is_calendar = false;  // times count days on the calendar rather than running hours
  double confidence = 0.95;
  reliability::BandTransform band = reliability::BandTransform::log_log;
  reliability::Ties ties = reliability::Ties::efron;
  bool before_after = false;
  double ratio_to_prove = 0.5;  // of the rates of return, after over before
  bool threshold = true;        // look for a time before which none comes back: long for many pumps
};

// The Weibull curve of all pumps together.
struct WeibullSheet {
  reliability::WeibullFit fit;
  reliability::ShapeLimits shape;
  reliability::TimeLimits scale;
  Time b10;
  reliability::TimeLimits b10_limits;
};

struct GroupSheet {
  std::string name;
  reliability::ReturnRate rate;
};

struct GroupsSheet {
  std::vector<GroupSheet> groups;  // in the order in which they first occur
  reliability::LogRank log_rank;
  std::optional<reliability::ChiSquareTest> weibull;
};

struct ReadingsSheet {
  std::size_t pumps = 0;     // with all readings
  std::size_t left_out = 0;  // without one of them
  reliability::CoxFit fit;
  std::optional<reliability::ProportionalHazards> proportional;
};

// An analysis that the data do not support, and why.
struct NotComputed {
  Text what;
  Text why;
};

struct ReturnsFinding {
  std::size_t returned = 0, running = 0, replaced = 0;
  reliability::ReturnRate rate;
  reliability::SurvivalCurve curve;
  reliability::SurvivalTime median;
  std::vector<reliability::Incidence> incidence;
  std::optional<WeibullSheet> weibull;
  std::optional<reliability::ThresholdFit> threshold;
  std::optional<GroupsSheet> groups;
  std::optional<reliability::BeforeAfter> change;
  std::optional<ReadingsSheet> readings;
  std::optional<reliability::Trend> trend;
  std::vector<NotComputed> not_computed;
  std::string verdict;  // with before_after: "pass" (fewer), "fail" (more), "unproven"; else empty
  std::string reason;  // "interval-below-one", "interval-above-one", "one-in-the-interval", "too-few-returns"
};

// Fewest returns for a curve with two parameters, and for a third one (our own rule, docs/returns.md).
constexpr std::size_t returns_for_weibull = 3;
constexpr std::size_t returns_for_threshold = 10;
constexpr std::size_t groups_max = 20;

// Throws BadInput for rows that contradict each other, groups other than before and after under
// before_after, or a covariate that does not vary.
ReturnsFinding answer(const ReturnsQuestion& question);

}  // namespace pumpwright::job
