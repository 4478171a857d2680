#include "engine/assembly/true_next.h"

#include <algorithm>

#include <Eigen/LU>

#include "engine/assembly/input_check.h"
#include "engine/assembly/true_assumptions.h"

namespace pumpwright::true_running {
namespace {

constexpr double worth_a_sweep_nats = 0.1;

// A vector as foretold.
struct Foretold {
  Eigen::Vector2d mean;
  Eigen::Matrix2d covariance;
};

// Mean of the two divergences; the logarithms of the determinants cancel.
double told_apart(const Foretold& a, const Foretold& b) {
  const Eigen::Matrix2d inverse_a = a.covariance.inverse(), inverse_b = b.covariance.inverse();
  const Eigen::Vector2d d = a.mean - b.mean;
  return 0.25 * ((inverse_b * a.covariance).trace() + (inverse_a * b.covariance).trace() - 4 +
                 d.dot((inverse_a + inverse_b) * d));
}

template <class Chain>
Foretold foretold(const Candidate<Chain>& candidate, const Geometry<Chain>& geometry, const Posterior& p,
                  double u_m) {
  const auto seen = seen_at(candidate.station, geometry);
  Eigen::RowVectorXcd row = Eigen::RowVectorXcd::Zero(p.mean.size() / 2);
  for (std::size_t j = 0; j < seen.size(); ++j)
    row(static_cast<Eigen::Index>(j)) = seen[j];
  const Eigen::MatrixXd a = real_rows(row);
  return {a * p.mean, a * p.covariance * a.transpose() + u_m * u_m * Eigen::Matrix2d::Identity()};
}

}  // namespace

template <class Chain>
std::optional<NextMeasurement> next_measurement(std::span<const Station<Chain>> stations,
                                                const Geometry<Chain>& geometry,
                                                std::span<const Candidate<Chain>> candidates, Length u,
                                                const Beliefs& beliefs) {
  require_valid<Chain>(stations);
  require_that(u.value() > 0 && u.value() < 1, u.value(), "u", "a standard uncertainty above 0 to 1 m");
  const auto c = weigh(stations, geometry, beliefs);
  const Posterior first = c.evidence.posterior(c.assumptions[0].at_fault());
  const Posterior second = c.evidence.posterior(c.assumptions[1].at_fault());
  NextMeasurement out;
  for (std::size_t i = 0; i < candidates.size(); ++i)
    out.all.push_back({i, told_apart(foretold(candidates[i], geometry, first, u.value()),
                                     foretold(candidates[i], geometry, second, u.value()))});
  const auto better = [&](const Told& a, const Told& b) {
    const bool a_decides = a.nats >= decisive_nats, b_decides = b.nats >= decisive_nats;
    if (a_decides != b_decides) return a_decides;
    const int a_work = candidates[a.candidate].work, b_work = candidates[b.candidate].work;
    if (a_decides && a_work != b_work) return a_work < b_work;
    return a.nats > b.nats;
  };
  const auto best = std::min_element(out.all.begin(), out.all.end(), better);
  if (best == out.all.end() || best->nats < worth_a_sweep_nats) return std::nullopt;
  out.chosen = *best;
  return out;
}

template std::optional<NextMeasurement> next_measurement<Rotating>(std::span<const Station<Rotating>>,
                                                                   const RotatingGeometry&,
                                                                   std::span<const Candidate<Rotating>>,
                                                                   Length, const Beliefs&);
template std::optional<NextMeasurement> next_measurement<Standing>(std::span<const Station<Standing>>,
                                                                   const StandingGeometry&,
                                                                   std::span<const Candidate<Standing>>,
                                                                   Length, const Beliefs&);

}  // namespace pumpwright::true_running
