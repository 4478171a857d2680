#include "engine/assembly/distribution.h"

#include <cmath>

#include "engine/assembly/input_check.h"

namespace pumpwright {
namespace {

template <class... F>
struct Overloaded : F... {
  using F::operator()...;
};
template <class... F>
Overloaded(F...) -> Overloaded<F...>;

template <class Bounded>
double middle(const Bounded& d) {
  return d.lower + (d.upper - d.lower) / 2;
}

template <class Bounded>
double squared_width(const Bounded& d) {
  return (d.upper - d.lower) * (d.upper - d.lower);
}

template <class Bounded>
void require_ordered(const Bounded& d, const std::string& field) {
  require_that(std::isfinite(d.lower), d.lower, field + "/lower", "a finite number");
  require_that(std::isfinite(d.upper) && d.upper >= d.lower, d.upper, field + "/upper",
               "a finite number not below the lower end");
}

}  // namespace

double mean_of(const Distribution& distribution) {
  return std::visit(
      Overloaded{[](const Normal& d) { return d.mean; }, [](const StudentT& d) { return d.centre; },
                 [](const auto& bounded) { return middle(bounded); }},
      distribution);
}

std::optional<double> variance_of(const Distribution& distribution) {
  using Variance = std::optional<double>;
  return std::visit(Overloaded{
                        [](const Normal& d) -> Variance { return d.sd * d.sd; },
                        [](const Rectangular& d) -> Variance { return squared_width(d) / 12; },
                        [](const Triangular& d) -> Variance { return squared_width(d) / 24; },
                        [](const Trapezoidal& d) -> Variance {
                          return squared_width(d) * (1 + d.top_ratio * d.top_ratio) / 24;
                        },
                        [](const Arcsine& d) -> Variance { return squared_width(d) / 8; },
                        [](const CurvilinearTrapezoid& d) -> Variance {
                          return squared_width(d) / 12 + d.inexactness * d.inexactness / 9;
                        },
                        [](const StudentT& d) -> Variance {
                          if (d.scale == 0) return 0.0;
                          if (d.dof <= 2) return std::nullopt;
                          return d.scale * d.scale * d.dof / (d.dof - 2);
                        },
                    },
                    distribution);
}

bool is_constant(const Distribution& distribution) {
  return std::visit(
      Overloaded{[](const Normal& d) { return d.sd == 0; }, [](const StudentT& d) { return d.scale == 0; },
                 [](const auto& bounded) { return bounded.lower == bounded.upper; }},
      distribution);
}

void require_valid(const Distribution& distribution, const std::string& field) {
  std::visit(Overloaded{
                 [&](const Normal& d) {
                   require_that(std::isfinite(d.mean), d.mean, field + "/mean", "a finite number");
                   require_that(std::isfinite(d.sd) && d.sd >= 0, d.sd, field + "/sd",
                                "a standard deviation of 0 or more");
                 },
                 [&](const StudentT& d) {
                   require_that(std::isfinite(d.centre), d.centre, field + "/centre", "a finite number");
                   require_that(std::isfinite(d.scale) && d.scale >= 0, d.scale, field + "/scale",
                                "a scale of 0 or more");
                   require_that(std::isfinite(d.dof) && d.dof > 0, d.dof, field + "/dof",
                                "degrees of freedom above 0");
                 },
                 [&](const Trapezoidal& d) {
                   require_ordered(d, field);
                   require_between(d.top_ratio, 0, 1, field + "/top_ratio",
                                   "a ratio of top to base from 0 to 1");
                 },
                 [&](const CurvilinearTrapezoid& d) {
                   require_ordered(d, field);
                   require_between(d.inexactness, 0, (d.upper - d.lower) / 2, field + "/inexactness",
                                   "0 to half the width between the ends");
                 },
                 [&](const auto& bounded) { require_ordered(bounded, field); },
             },
             distribution);
}

}  // namespace pumpwright
