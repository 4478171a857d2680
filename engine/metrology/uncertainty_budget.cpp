#include "engine/metrology/uncertainty_budget.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/metrology/quantiles.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

double checked_u_m(const Contribution& c) {
  const double u_m = c.u.value();
  if (!std::isfinite(u_m) || u_m < 0) {
    throw BadInput({.field = "uncertainty contribution \"" + c.name + "\"",
                    .place = "",
                    .value = fmt::format("{} m", u_m),
                    .expected = "a length of zero or more"});
  }
  if (!(c.dof > 0)) {
    throw BadInput({.field = "degrees of freedom of \"" + c.name + "\"",
                    .place = "",
                    .value = fmt::format("{}", c.dof),
                    .expected = "a number above zero"});
  }
  return u_m;
}

}  // namespace

Length rectangular(Length half_width) {
  return half_width / std::sqrt(3.0);
}

Length UncertaintyBudget::standard() const {
  double sum_m2 = 0;
  for (const Contribution& c : contributions) {
    const double u_m = checked_u_m(c);
    sum_m2 += u_m * u_m;
  }
  return metres(std::sqrt(sum_m2));
}

double UncertaintyBudget::effective_dof() const {
  const double u_m = standard().value();
  double sum = 0;  // of (u_i/u_c)⁴/ν_i, so that nothing underflows for lengths of nanometres
  for (const Contribution& c : contributions) {
    const double share = u_m > 0 ? c.u.value() / u_m : 0;
    sum += share * share * share * share / c.dof;
  }
  return sum > 0 ? 1 / sum : std::numeric_limits<double>::infinity();
}

double UncertaintyBudget::coverage_factor(double probability) const {
  if (!(probability > 0 && probability < 1)) {
    throw BadInput({.field = "coverage probability",
                    .place = "",
                    .value = fmt::format("{}", probability),
                    .expected = "a number between 0 and 1"});
  }
  const double dof = effective_dof();
  return student_quantile(0.5 * (1 + probability), std::isinf(dof) ? dof : std::max(1.0, std::floor(dof)));
}

Length UncertaintyBudget::expanded(double probability) const {
  return coverage_factor(probability) * standard();
}

}  // namespace pumpwright
