#include "engine/metrology/quantiles.h"

#include <cassert>
#include <cmath>

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <boost/math/policies/policy.hpp>

namespace pumpwright {
namespace {

// Working in long double would cost several times the time for digits nobody asks for.
using InDouble = boost::math::policies::policy<boost::math::policies::promote_double<false>>;

[[maybe_unused]] bool is_probability(double p) {
  return p > 0 && p < 1;
}

}  // namespace

double normal_cdf(double z) {
  return 0.5 * std::erfc(-z / std::sqrt(2.0));
}

double normal_quantile(double p) {
  assert(is_probability(p));
  return boost::math::quantile(boost::math::normal_distribution<double, InDouble>(), p);
}

double student_cdf(double t, double dof) {
  assert(dof > 0);
  if (std::isinf(dof)) return normal_cdf(t);
  if (std::isinf(t)) return t > 0 ? 1 : 0;
  return boost::math::cdf(boost::math::students_t_distribution<double, InDouble>(dof), t);
}

double student_quantile(double p, double dof) {
  assert(is_probability(p) && dof > 0);
  if (std::isinf(dof)) return normal_quantile(p);
  return boost::math::quantile(boost::math::students_t_distribution<double, InDouble>(dof), p);
}

double chi_square_quantile(double p, double dof) {
  assert(is_probability(p) && dof > 0);
  return boost::math::quantile(boost::math::chi_squared_distribution<double, InDouble>(dof), p);
}

double f_quantile(double p, double dof_numerator, double dof_denominator) {
  assert(is_probability(p) && dof_numerator > 0 && dof_denominator > 0);
  if (std::isinf(dof_denominator)) {
    return dof_numerator == 2 ? -std::log1p(-p) : chi_square_quantile(p, dof_numerator) / dof_numerator;
  }
  if (dof_numerator == 2) {
    // P(F > x) = (1 + 2x/ν)^(-ν/2), which inverts in closed form.
    return 0.5 * dof_denominator * std::expm1(-2 * std::log1p(-p) / dof_denominator);
  }
  return boost::math::quantile(
      boost::math::fisher_f_distribution<double, InDouble>(dof_numerator, dof_denominator), p);
}

}  // namespace pumpwright
