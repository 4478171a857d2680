#include "engine/assembly/true_prediction.h"

#include <algorithm>
#include <cmath>

namespace pumpwright::true_running {
namespace {

using Complex = std::complex<double>;

// Covariance of Σ row_j f_j, for errors of two numbers each.
Covariance2 spread_of(std::span<const Complex> row, const ErrorBelief& errors) {
  const std::size_t n = 2 * row.size();
  Covariance2 out{};
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = 0; j < n; ++j) {
      const double c = errors.covariance[i * n + j];
      // Column i of the two real rows that row[i/2] stands for.
      const auto column = [&](std::size_t k) {
        const Complex a = row[k / 2];
        return k % 2 == 0 ? a : Complex(-a.imag(), a.real());
      };
      const Complex a = column(i), b = column(j);
      out[0] += a.real() * c * b.real();
      out[1] += a.real() * c * b.imag();
      out[2] += a.imag() * c * b.real();
      out[3] += a.imag() * c * b.imag();
    }
  return out;
}

double largest_variance(const Covariance2& c) {
  const double mean = (c[0] + c[3]) / 2, half = (c[0] - c[3]) / 2;
  return mean + std::hypot(half, (c[1] + c[2]) / 2);
}

template <class Chain>
void set_tir(Predicted<Chain>& p) {
  const Complex v = p.vector.si();
  const double size_m = std::abs(v);
  p.tir = {metres(2 * size_m)};
  double variance = largest_variance(p.covariance);
  if (size_m * size_m > region_95 * variance) {
    const Complex e = v / size_m;
    const auto& c = p.covariance;
    variance = e.real() * e.real() * c[0] + e.real() * e.imag() * (c[1] + c[2]) + e.imag() * e.imag() * c[3];
  }
  p.u = metres(2 * std::sqrt(std::max(0.0, variance)));
}

}  // namespace

template <class Chain>
std::vector<Predicted<Chain>> predict(std::span<const Station<Chain>> stations,
                                      const Geometry<Chain>& geometry, const ErrorBelief& errors) {
  std::vector<Predicted<Chain>> out;
  for (const auto& s : stations) {
    const auto row = seen_at(s, geometry);
    Complex v = 0;
    for (std::size_t j = 0; j < row.size(); ++j)
      v += row[j] * Complex(errors.mean[2 * j], errors.mean[2 * j + 1]);
    Predicted<Chain> p{.station = s.id,
                       .vector = Offset<Chain>::from_si(v),
                       .covariance = spread_of(row, errors),
                       .limit = s.limit};
    set_tir(p);
    out.push_back(std::move(p));
  }
  return out;
}

template <class Chain>
double worst_ratio(std::span<const Predicted<Chain>> predicted) {
  double worst = 0;
  for (const auto& p : predicted)
    worst = std::max(worst, p.ratio());
  return worst;
}

template <class Chain>
Predicted<Chain> moved_by(Predicted<Chain> predicted, const Offset<Chain>& move) {
  predicted.vector = predicted.vector + move;
  set_tir(predicted);
  return predicted;
}

template <class Chain>
AfterSweep<Chain> compare(const Predicted<Chain>& predicted, const Station<Chain>& actual) {
  Covariance2 both = predicted.covariance;
  for (std::size_t i = 0; i < both.size(); ++i)
    both[i] += actual.covariance[i];
  AfterSweep<Chain> out{.predicted = predicted, .actual = actual.vector};
  out.actual_tir = {actual.vector.size() * 2.0};
  out.distance = squared_distance((actual.vector - predicted.vector).si(), both);
  out.surprise = out.distance > region_95;
  return out;
}

template std::vector<Predicted<Rotating>> predict<Rotating>(std::span<const Station<Rotating>>,
                                                            const RotatingGeometry&, const ErrorBelief&);
template std::vector<Predicted<Standing>> predict<Standing>(std::span<const Station<Standing>>,
                                                            const StandingGeometry&, const ErrorBelief&);
template double worst_ratio<Rotating>(std::span<const Predicted<Rotating>>);
template double worst_ratio<Standing>(std::span<const Predicted<Standing>>);
template Predicted<Rotating> moved_by<Rotating>(Predicted<Rotating>, const Offset<Rotating>&);
template Predicted<Standing> moved_by<Standing>(Predicted<Standing>, const Offset<Standing>&);
template AfterSweep<Rotating> compare<Rotating>(const Predicted<Rotating>&, const Station<Rotating>&);
template AfterSweep<Standing> compare<Standing>(const Predicted<Standing>&, const Station<Standing>&);

}  // namespace pumpwright::true_running
