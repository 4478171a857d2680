#include "engine/hydraulics/figure_coverage.h"

#include "engine/metrology/quantiles.h"

namespace pumpwright::hydraulics {
namespace {

constexpr double two_sided_95 = 0.975;

}  // namespace

double expanded_95(const Figure& figure) {
  return student_quantile(two_sided_95, figure.dof) * figure.u;
}

}  // namespace pumpwright::hydraulics
