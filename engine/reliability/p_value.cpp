#include "engine/reliability/p_value.h"

#include <cmath>

#include <boost/math/special_functions/gamma.hpp>

namespace pumpwright::reliability {

double chi_square_beyond(double x, double dof) {
  return boost::math::gamma_q(dof / 2, x / 2);
}

double chi_square_within(double x, double dof) {
  return boost::math::gamma_p(dof / 2, x / 2);
}

double normal_two_sided(double z) {
  return std::erfc(std::fabs(z) / std::sqrt(2.0));
}

}  // namespace pumpwright::reliability
