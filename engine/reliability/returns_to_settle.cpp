#include "engine/reliability/returns_to_settle.h"

#include <cmath>
#include <string>

#include <fmt/format.h>

#include "engine/metrology/quantiles.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::reliability {
namespace {

void require_part(double value, const std::string& field) {
  if (!(value > 0 && value < 1))
    throw BadInput({field, "", fmt::format("{:.9g}", value), "a number above 0 and below 1"});
}

void require_ratio(double ratio) {
  if (!(std::isfinite(ratio) && ratio > 0 && ratio != 1))
    throw BadInput({"ratio", "", fmt::format("{:.9g}", ratio), "a ratio of rates above 0, not 1"});
}

double both_quantiles(const TestPlan& plan) {
  require_part(plan.confidence, "confidence");
  require_part(plan.power, "power");
  return normal_quantile((1 + plan.confidence) / 2) + normal_quantile(plan.power);
}

}  // namespace

double returns_to_settle(double ratio, double share, const TestPlan& plan) {
  require_ratio(ratio);
  require_part(share, "share");
  const double z = both_quantiles(plan);
  const double log_ratio = std::log(ratio);
  return z * z / (share * (1 - share) * log_ratio * log_ratio);
}

double returns_to_settle_freedman(double ratio, const TestPlan& plan) {
  require_ratio(ratio);
  const double z = both_quantiles(plan) * (1 + ratio) / (1 - ratio);
  return z * z;
}

double power_with(double returns, double ratio, double share, double confidence) {
  require_ratio(ratio);
  require_part(share, "share");
  require_part(confidence, "confidence");
  return normal_cdf(std::sqrt(returns * share * (1 - share)) * std::fabs(std::log(ratio)) -
                    normal_quantile((1 + confidence) / 2));
}

}  // namespace pumpwright::reliability
