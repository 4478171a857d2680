#include "engine/assembly/true_attribution.h"

#include <algorithm>

#include "engine/assembly/true_assumptions.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::true_running {
namespace {

using Complex = std::complex<double>;

constexpr double shown_from = 1e-4;

Covariance2 block(const Eigen::MatrixXd& covariance, Eigen::Index j) {
  const auto b = covariance.block<2, 2>(2 * j, 2 * j);
  return {b(0, 0), b(0, 1), b(1, 0), b(1, 1)};
}

// Of Σ row_j f_j.
struct Sum {
  Complex value;
  Covariance2 covariance{};
};

Sum sum_of(const Eigen::RowVectorXcd& row, const Posterior& p) {
  const Eigen::MatrixXd a = real_rows(row);
  const Eigen::Vector2d v = a * p.mean;
  const Eigen::Matrix2d c = a * p.covariance * a.transpose();
  return {{v(0), v(1)}, {c(0, 0), c(0, 1), c(1, 0), c(1, 1)}};
}

template <class Chain>
Blame<Chain> blame_of(int error, const Posterior& p, std::span<const Station<Chain>> stations) {
  const auto faults = faults_of(Chain{});
  const auto j = static_cast<std::size_t>(error);
  Blame<Chain> b;
  b.covariance = block(p.covariance, error);
  const Complex v = p.error(error);
  if (j >= faults.size()) {
    b.station = stations[j - faults.size()].id;
    b.offset = Offset<Chain>::from_si(v);
    return b;
  }
  b.fault = faults[j].fault;
  b.part = static_cast<typename Chain::Part>(faults[j].part);
  if (faults[j].tilt)
    b.tilt = Tilt<Chain>::from_si(v);
  else
    b.offset = Offset<Chain>::from_si(v);
  return b;
}

// How assumptions stand to the best: most have an error that the best's can not imitate, which is seen once
// for each error, before any pair is looked at.
class BesideTheBest {
 public:
  BesideTheBest(const Eigen::MatrixXcd& seen, const Assumption& best) : seen_(seen), best_(best) {
    for (int j = 0; j < static_cast<int>(seen.cols()); ++j)
      imitated_.push_back(imitates(seen, best.at_fault(), j));
  }
  // Reads the same at every station.
  bool alike(const Assumption& a) const {
    if (a.count == 0 || best_.count == 0) return a.count == best_.count;
    for (const int error : a.at_fault())
      if (!imitated(error)) return false;
    return look_alike(seen_, best_.at_fault(), a.at_fault());
  }
  // Has the errors of the best, or what reads like them, among its own.
  bool includes(const Assumption& a) const {
    if (alike(a)) return true;
    if (best_.count != 1) return false;
    for (const int error : a.at_fault())
      if (imitated(error)) return true;
    return false;
  }

 private:
  bool imitated(int error) const { return imitated_[static_cast<std::size_t>(error)]; }

  const Eigen::MatrixXcd& seen_;
  const Assumption& best_;
  std::vector<bool> imitated_;
};

template <class Chain>
void add_hypotheses(const WeighedCase<Chain>& c, std::span<const Station<Chain>> stations,
                    Attribution<Chain>& out) {
  const BesideTheBest beside(c.model.seen, c.assumptions.front());
  for (const auto& a : c.assumptions) {
    const bool alike = beside.alike(a);
    if (beside.includes(a)) out.probability += a.probability;
    if (a.probability < shown_from && !out.hypotheses.empty()) continue;
    Hypothesis<Chain> h{.probability = a.probability, .looks_like_the_best = alike};
    const Posterior p = c.evidence.posterior(a.at_fault());
    for (const int error : a.at_fault())
      h.blames.push_back(blame_of<Chain>(error, p, stations));
    out.hypotheses.push_back(std::move(h));
  }
}

template <class Chain>
void add_parts(const WeighedCase<Chain>& c, std::span<const Station<Chain>> stations, const Posterior& p,
               Attribution<Chain>& out) {
  const auto faults = faults_of(Chain{});
  for (int part = 0; part < parts_of_a_chain; ++part) {
    Eigen::RowVectorXcd offset = Eigen::RowVectorXcd::Zero(c.model.errors()), tilt = offset, own = offset;
    for (std::size_t j = 0; j < faults.size(); ++j) {
      const auto at = static_cast<Eigen::Index>(j);
      if (faults[j].part != part) continue;
      own(at) = 1;
      (faults[j].tilt ? tilt : offset)(at) = 1;
    }
    const auto named = static_cast<typename Chain::Part>(part);
    const Sum o = sum_of(offset, p), t = sum_of(tilt, p);
    out.parts.push_back(
        {named, Offset<Chain>::from_si(o.value), o.covariance, Tilt<Chain>::from_si(t.value), t.covariance});
    for (std::size_t k = 0; k < stations.size(); ++k) {
      const Eigen::RowVectorXcd row = c.model.seen.row(static_cast<Eigen::Index>(k)).cwiseProduct(own);
      if (row.isZero(0)) continue;
      const Sum s = sum_of(row, p);
      out.contributions.push_back({stations[k].id, named, Offset<Chain>::from_si(s.value), s.covariance});
    }
  }
}

ErrorBelief belief_of(const Posterior& p, std::size_t errors) {
  const auto n = static_cast<Eigen::Index>(2 * errors);
  ErrorBelief out;
  for (Eigen::Index i = 0; i < n; ++i) {
    out.mean.push_back(p.mean(i));
    for (Eigen::Index j = 0; j < n; ++j)
      out.covariance.push_back(p.covariance(i, j));
  }
  return out;
}

template <class Chain>
std::vector<int> indices(std::span<const Station<Chain>> stations,
                         std::span<const NamedError<Chain>> errors) {
  const auto faults = faults_of(Chain{});
  std::vector<int> out;
  for (const auto& e : errors) {
    std::size_t j = 0;
    if (e.fault == Fault::indicator_loose) {
      while (j < stations.size() && stations[j].id != e.station)
        ++j;
      if (j == stations.size()) throw BadInput({"station", "", e.station, "one of the stations"});
      j += faults.size();
    } else {
      while (j < faults.size() && faults[j].fault != e.fault)
        ++j;
      if (j == faults.size()) throw BadInput({"fault", "", word_for(e.fault), "an error of this chain"});
    }
    out.push_back(static_cast<int>(j));
  }
  return out;
}

}  // namespace

template <class Chain>
bool Blame<Chain>::region_contains(Complex v) const {
  return squared_distance(v - (offset ? offset->si() : tilt->si()), covariance) <= region_95;
}

template <class Chain>
Attribution<Chain> attribute(std::span<const Station<Chain>> stations, const Geometry<Chain>& geometry,
                             const Beliefs& beliefs) {
  require_valid<Chain>(stations);
  const auto c = weigh(stations, geometry, beliefs);
  Attribution<Chain> out;
  add_hypotheses(c, stations, out);
  out.decided =
      out.probability >= (out.best().blames.empty() ? beliefs.nothing_decided_at : beliefs.decided_at);
  out.alone = out.decided && std::count_if(out.hypotheses.begin(), out.hypotheses.end(),
                                           [](const auto& h) { return h.looks_like_the_best; }) == 1;
  const auto faults = faults_of(Chain{});
  for (std::size_t j = 0; j < faults.size(); ++j)
    if (c.model.seen.col(static_cast<Eigen::Index>(j)).isZero(0))
      out.not_looked_at.push_back(faults[j].fault);
  const Posterior p = c.evidence.posterior(c.assumptions.front().at_fault());
  add_parts(c, stations, p, out);
  out.errors = belief_of(p, faults.size());
  return out;
}

template <class Chain>
bool read_alike(std::span<const Station<Chain>> stations, const Geometry<Chain>& geometry,
                std::span<const NamedError<Chain>> a, std::span<const NamedError<Chain>> b) {
  require_valid<Chain>(stations);
  const auto model = linear_model<Chain>(stations, geometry, {});
  return look_alike(model.seen, indices(stations, a), indices(stations, b));
}

template struct Blame<Rotating>;
template struct Blame<Standing>;
template Attribution<Rotating> attribute<Rotating>(std::span<const Station<Rotating>>,
                                                   const RotatingGeometry&, const Beliefs&);
template Attribution<Standing> attribute<Standing>(std::span<const Station<Standing>>,
                                                   const StandingGeometry&, const Beliefs&);
template bool read_alike<Rotating>(std::span<const Station<Rotating>>, const RotatingGeometry&,
                                   std::span<const NamedError<Rotating>>,
                                   std::span<const NamedError<Rotating>>);
template bool read_alike<Standing>(std::span<const Station<Standing>>, const StandingGeometry&,
                                   std::span<const NamedError<Standing>>,
                                   std::span<const NamedError<Standing>>);

}  // namespace pumpwright::true_running
