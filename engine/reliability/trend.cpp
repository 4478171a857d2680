#include "engine/reliability/trend.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

#include <fmt/format.h>

#include "engine/metrology/quantiles.h"
#include "engine/quantity/bad_input.h"
#include "engine/reliability/life.h"
#include "engine/reliability/p_value.h"
#include "engine/reliability/profile_limit.h"

namespace pumpwright::reliability {
namespace {

constexpr int steps_max = 200;
constexpr double precision = 1e-10;  // of a step; Newton is then there to rounding
constexpr double reach_log = 40;

void require_age(bool holds, Time age, const std::string& field, const std::string& expected) {
  if (!holds) throw BadInput({field, "", fmt::format("{:.9g} s", age.value()), expected});
}

void require_valid(std::span<const History> histories) {
  if (histories.empty()) throw BadInput({"histories", "", "none", "at least one pump"});
  for (std::size_t i = 0; i < histories.size(); ++i) {
    const History& history = histories[i];
    require_age(history.until >= lifetimes.shortest && history.until <= lifetimes.longest, history.until,
                fmt::format("histories/{}/until", i), "an age above zero");
    Time before = seconds(0);
    for (std::size_t j = 0; j < history.returns.size(); ++j) {
      const Time age = history.returns[j];
      require_age(age >= lifetimes.shortest && age >= before && age <= history.until, age,
                  fmt::format("histories/{}/returns/{}", i, j),
                  "an age above zero, not before the return ahead of it, up to the age watched");
      before = age;
    }
  }
}

// What the likelihood needs; ages in units of the longest one watched.
struct Sums {
  double age_s = 0;               // longest watched
  std::vector<double> log_until;  // ln(until/age), at most 0
  double log_returns = 0;         // Σ ln(return/age)
  double returned = 0;
  double spread = 0;   // S = ΣΣ ln(until/return)
  double counted = 0;  // M
};

Sums sums_of(std::span<const History> histories) {
  Sums s;
  for (const History& history : histories)
    s.age_s = std::max(s.age_s, history.until.value());
  for (const History& history : histories) {
    s.log_until.push_back(std::log(history.until.value() / s.age_s));
    for (const Time& age : history.returns) {
      s.log_returns += std::log(age.value() / s.age_s);
      s.spread += std::log(history.until / age);
    }
    const bool by_failure = !history.returns.empty() && history.returns.back() == history.until;
    s.returned += static_cast<double>(history.returns.size());
    s.counted += static_cast<double>(history.returns.size()) - (by_failure ? 1 : 0);
  }
  return s;
}

// Σ (until/age)^β and its first two derivatives by β.
struct Powers {
  double sum = 0, first = 0, second = 0;
};

Powers powers(const Sums& s, double shape) {
  Powers p;
  for (const double log_until : s.log_until) {
    const double power = std::exp(shape * log_until);
    p.sum += power;
    p.first += log_until * power;
    p.second += log_until * log_until * power;
  }
  return p;
}

// Root of N/β + Σ ln(return) - N·(Σ until^β ln until)/(Σ until^β), which falls as β grows.
double shape_of(const Sums& s) {
  double shape = s.counted / s.spread;
  for (int step = 0; step < steps_max; ++step) {
    const Powers p = powers(s, shape);
    const double mean = p.first / p.sum;
    const double value = s.returned / shape + s.log_returns - s.returned * mean;
    const double slope = -s.returned / (shape * shape) - s.returned * (p.second / p.sum - mean * mean);
    const double next = std::clamp(shape - value / slope, shape / 3, shape * 3);
    if (std::fabs(next - shape) <= precision * shape) return next;
    shape = next;
  }
  return shape;
}

// Highest log-likelihood with the rate at the longest age held at exp(log_rate) per that age. With
// λ·age^β = rate/β it is N·ln(rate) + (β-1)·Σ ln(return) - (rate/β)·Σ until^β, concave in β.
class AtRate {
 public:
  AtRate(const Sums& s, double shape) : s_(s), shape_(shape) {}

  ProfilePoint operator()(double log_rate) {
    const double rate = std::exp(log_rate);
    for (int step = 0; step < steps_max; ++step) {
      const Powers p = powers(s_, shape_);
      const double b = shape_;
      const double slope = s_.log_returns - rate * (p.first / b - p.sum / (b * b));
      const double curvature = -rate * (p.second / b - 2 * p.first / (b * b) + 2 * p.sum / (b * b * b));
      shape_ = std::clamp(b - slope / curvature, b / 3, b * 3);
      if (std::fabs(shape_ - b) <= precision * b) break;
    }
    const double returns = rate / shape_ * powers(s_, shape_).sum;
    return {.log_likelihood = s_.returned * log_rate + (shape_ - 1) * s_.log_returns - returns,
            .slope = s_.returned - returns};
  }

 private:
  const Sums& s_;
  double shape_;  // where the last search ended
};

void add_mean_at_age(const Sums& s, double confidence, Trend& t) {
  const double z = normal_quantile((1 + confidence) / 2);
  AtRate profile(s, t.shape);
  const double log_rate = std::log(s.returned * t.shape / powers(s, t.shape).sum);
  const ProfileMaximum maximum{.at = log_rate, .log_likelihood = profile(log_rate).log_likelihood};
  const double step = z * std::sqrt(2 / s.returned);
  const auto low = profile_limit(AtRate(s, t.shape), maximum, -step, z, reach_log);
  const auto high = profile_limit(AtRate(s, t.shape), maximum, step, z, reach_log);
  const auto mean = [&](double log_of) { return seconds(s.age_s * std::exp(-log_of)); };
  t.mean_at_age = mean(log_rate);
  t.mean_at_age_low = high ? mean(*high) : seconds(0);
  t.mean_at_age_high = low ? mean(*low) : seconds(std::numeric_limits<double>::infinity());
}

}  // namespace

std::optional<Trend> trend(std::span<const History> histories, double confidence) {
  require_valid(histories);
  const Sums s = sums_of(histories);
  if (s.counted < 1 || s.spread <= 0) return std::nullopt;
  Trend t{.pumps = histories.size(), .returned = static_cast<std::size_t>(s.returned), .scale = {}};
  t.shape = shape_of(s);
  t.age = seconds(s.age_s);
  t.scale = t.age * std::pow(powers(s, t.shape).sum / s.returned, 1 / t.shape);
  if (s.counted > 1) t.corrected_shape = (s.counted - 1) / s.spread;
  const double tail = (1 - confidence) / 2;
  t.test_dof = 2 * s.counted;
  t.test_chi_square = 2 * s.spread;
  t.shape_low = chi_square_quantile(tail, t.test_dof) / t.test_chi_square;
  t.shape_high = chi_square_quantile(1 - tail, t.test_dof) / t.test_chi_square;
  t.p = std::min(1.0, 2 * std::min(chi_square_within(t.test_chi_square, t.test_dof),
                                   chi_square_beyond(t.test_chi_square, t.test_dof)));
  add_mean_at_age(s, confidence, t);
  return t;
}

}  // namespace pumpwright::reliability
