#include "engine/assembly/fit.h"

#include <cmath>
#include <string>

#include <boost/math/distributions/normal.hpp>

#include "engine/assembly/input_check.h"

namespace pumpwright {
namespace {

void require_valid(const SizeLimits& limits, const std::string& field) {
  const double smallest_m = limits.smallest.value();
  const double largest_m = limits.largest.value();
  require_that(std::isfinite(smallest_m) && smallest_m > 0, smallest_m, field + "/smallest",
               "a diameter over 0");
  require_that(std::isfinite(largest_m) && largest_m >= smallest_m, largest_m, field + "/largest",
               "a diameter not below the smallest");
}

void require_valid(const MeasuredDiameter& size, const std::string& field) {
  const double value_m = size.value.value();
  const double u_m = size.standard_uncertainty.value();
  require_that(std::isfinite(value_m) && value_m > 0, value_m, field + "/value", "a diameter over 0");
  require_that(std::isfinite(u_m) && u_m >= 0, u_m, field + "/standard_uncertainty",
               "an uncertainty of 0 or more");
}

// Differences of sizes carry rounding of the order of 1e-17 m; what is nearer to zero than this touches.
constexpr double touching_m = 1e-12;

FitKind kind_of(Length smallest_clearance, Length largest_clearance) {
  if (smallest_clearance.value() >= -touching_m) return FitKind::clearance;
  return largest_clearance.value() <= touching_m ? FitKind::interference : FitKind::transition;
}

FitRange range_of(Length smallest_clearance, Length largest_clearance) {
  return {smallest_clearance, largest_clearance, kind_of(smallest_clearance, largest_clearance)};
}

double probability_above_zero(double mean, double sd) {
  if (sd > 0) return boost::math::cdf(boost::math::normal_distribution<double>(0, 1), mean / sd);
  if (mean == 0) return 0.5;
  return mean > 0 ? 1.0 : 0.0;
}

}  // namespace

const char* word_for(FitKind kind) {
  switch (kind) {
    case FitKind::clearance:
      return "clearance";
    case FitKind::transition:
      return "transition";
    case FitKind::interference:
      return "interference";
  }
  return "";
}

FitRange fit_between(const SizeLimits& bore, const SizeLimits& shaft) {
  require_valid(bore, "bore");
  require_valid(shaft, "shaft");
  return range_of(bore.smallest - shaft.largest, bore.largest - shaft.smallest);
}

MeasuredFit fit_between(const MeasuredDiameter& bore, const MeasuredDiameter& shaft, double coverage) {
  require_valid(bore, "bore");
  require_valid(shaft, "shaft");
  require_between(coverage, 0, 10, "coverage", "a coverage factor from 0 to 10");
  MeasuredFit fit;
  fit.clearance = bore.value - shaft.value;
  fit.standard_uncertainty =
      metres(std::hypot(bore.standard_uncertainty.value(), shaft.standard_uncertainty.value()));
  fit.range = range_of(fit.clearance - coverage * fit.standard_uncertainty,
                       fit.clearance + coverage * fit.standard_uncertainty);
  fit.probability_of_clearance =
      probability_above_zero(fit.clearance.value(), fit.standard_uncertainty.value());
  return fit;
}

}  // namespace pumpwright
