#include "engine/reliability/cox_sums.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include <fmt/format.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright::reliability {
namespace {

constexpr std::size_t columns_max = 50;
constexpr int steps_max = 60;
constexpr int halvings_max = 40;
constexpr double precision = 1e-13;        // of a step, in standard deviations
constexpr double gain_ignored = 1e-12;     // of the log-likelihood: rounding, not a worse step
constexpr double runaway = 25;             // a coefficient per standard deviation no real data have
constexpr double dependent_share = 1e-10;  // of a reading's variance that the others leave unexplained

using Eigen::Index;

void require_readings(std::span<const Life> lives, const Readings& readings) {
  if (readings.columns < 1 || readings.columns > columns_max ||
      readings.values.size() != lives.size() * readings.columns)
    throw BadInput({"readings", "", fmt::format("{} values", readings.values.size()),
                    fmt::format("1 to {} readings for each of {} pumps", columns_max, lives.size())});
  for (std::size_t i = 0; i < readings.values.size(); ++i)
    if (!std::isfinite(readings.values[i]))
      throw BadInput({fmt::format("readings/{}/{}", i / readings.columns, i % readings.columns), "",
                      "no finite number", "a finite number"});
}

[[noreturn]] void refuse_column(Index column, const std::string& value) {
  throw BadInput({fmt::format("readings/{}", column), "", value,
                  "a reading that varies between pumps and is not made up of the others"});
}

// Columns to distances from their mean in standard deviations.
void standardise(CoxTable& table) {
  auto& x = table.readings;
  table.spread.resize(x.cols());
  for (Index j = 0; j < x.cols(); ++j) {
    const double size = x.col(j).cwiseAbs().maxCoeff();
    x.col(j).array() -= x.col(j).mean();
    table.spread[j] = std::sqrt(x.col(j).squaredNorm() / static_cast<double>(x.rows()));
    if (!(table.spread[j] > 1e-14 * size)) refuse_column(j, "the same for all pumps");
    x.col(j) /= table.spread[j];
  }
}

void refuse_dependent_columns(const Eigen::MatrixXd& x) {
  for (Index j = 1; j < x.cols(); ++j) {
    const Eigen::MatrixXd before = x.leftCols(j);
    const Eigen::VectorXd rest = x.col(j) - before * before.colPivHouseholderQr().solve(x.col(j));
    if (rest.squaredNorm() <= dependent_share * static_cast<double>(x.rows()))
      refuse_column(j, "made up of the readings before it");
  }
}

// Σ w, Σ w·x, Σ w·x·xᵀ.
struct Moments {
  double sum = 0;
  Eigen::VectorXd first;
  Eigen::MatrixXd second;

  explicit Moments(Index columns)
      : first(Eigen::VectorXd::Zero(columns)), second(Eigen::MatrixXd::Zero(columns, columns)) {}

  void clear() {
    sum = 0;
    first.setZero();
    second.setZero();
  }

  void add(double weight, const Eigen::VectorXd& x) {
    sum += weight;
    first += weight * x;
    second.noalias() += weight * x * x.transpose();
  }
};

// Takes off the mean and covariance of the reading of whoever comes back next, once for each return.
void add_risk_sets(const Moments& risk, const Moments& tied, Ties ties, CoxTerm& term) {
  const auto d = static_cast<double>(term.returned);
  const int draws = ties == Ties::efron ? static_cast<int>(term.returned) : 1;
  for (int k = 0; k < draws; ++k) {
    const double gone = ties == Ties::efron ? k / d : 0;
    const double times = ties == Ties::efron ? 1 : d;
    const double sum = risk.sum - gone * tied.sum;
    const Eigen::VectorXd mean = (risk.first - gone * tied.first) / sum;
    term.log_likelihood -= times * std::log(sum);
    term.score -= times * mean;
    term.information += times * ((risk.second - gone * tied.second) / sum - mean * mean.transpose());
  }
}

CoxTerm empty_term(Index columns) {
  CoxTerm term;
  term.score = Eigen::VectorXd::Zero(columns);
  term.information = Eigen::MatrixXd::Zero(columns, columns);
  return term;
}

void begin_at(double time_s, CoxTerm& term) {
  term.time_s = time_s;
  term.returned = 0;
  term.log_likelihood = 0;
  term.score.setZero();
  term.information.setZero();
}

}  // namespace

CoxTable cox_table(std::span<const Life> lives, const Readings& readings) {
  require_valid(lives);
  require_readings(lives, readings);
  std::vector<std::size_t> order(lives.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return lives[a].time > lives[b].time; });
  CoxTable table;
  table.readings.resize(static_cast<Index>(lives.size()), static_cast<Index>(readings.columns));
  for (std::size_t row = 0; row < order.size(); ++row) {
    const Life& life = lives[order[row]];
    table.time_s.push_back(life.time.value());
    table.returned.push_back(life.ending == Ending::returned);
    for (std::size_t j = 0; j < readings.columns; ++j)
      table.readings(static_cast<Index>(row), static_cast<Index>(j)) =
          readings.values[order[row] * readings.columns + j];
  }
  standardise(table);
  refuse_dependent_columns(table.readings);
  return table;
}

void for_each_return_time(const CoxTable& table, const Eigen::VectorXd& coefficients, Ties ties,
                          const std::function<void(const CoxTerm&)>& use) {
  const Eigen::VectorXd log_weight = table.readings * coefficients;
  const double largest = log_weight.maxCoeff();  // a common factor of all weights drops out
  const Index columns = table.readings.cols();
  // Used again at every time: there may be as many of them as lives.
  Moments risk(columns), tied(columns);
  CoxTerm term = empty_term(columns);
  Eigen::VectorXd x(columns);
  const std::size_t count = table.time_s.size();
  for (std::size_t i = 0; i < count;) {
    tied.clear();
    begin_at(table.time_s[i], term);
    for (; i < count && table.time_s[i] == term.time_s; ++i) {
      const auto row = static_cast<Index>(i);
      x = table.readings.row(row);
      const double weight = std::exp(log_weight[row] - largest);
      risk.add(weight, x);
      if (!table.returned[i]) continue;
      tied.add(weight, x);
      ++term.returned;
      term.log_likelihood += log_weight[row] - largest;
      term.score += x;
    }
    if (term.returned == 0) continue;
    add_risk_sets(risk, tied, ties, term);
    use(term);
  }
}

CoxTerm cox_total(const CoxTable& table, const Eigen::VectorXd& coefficients, Ties ties) {
  CoxTerm total = empty_term(table.readings.cols());
  for_each_return_time(table, coefficients, ties, [&](const CoxTerm& term) {
    total.returned += term.returned;
    total.log_likelihood += term.log_likelihood;
    total.score += term.score;
    total.information += term.information;
  });
  return total;
}

std::optional<CoxMaximum> cox_maximum(const CoxTable& table, Ties ties) {
  CoxMaximum here{.coefficients = Eigen::VectorXd::Zero(table.readings.cols()), .total = {}};
  here.total = cox_total(table, here.coefficients, ties);
  if (here.total.returned == 0) return std::nullopt;
  for (int step = 0; step < steps_max; ++step) {
    const Eigen::LDLT<Eigen::MatrixXd> solver(here.total.information);
    if (solver.info() != Eigen::Success || !(solver.vectorD().minCoeff() > 0)) return std::nullopt;
    Eigen::VectorXd move = solver.solve(here.total.score);
    if (!move.allFinite()) return std::nullopt;
    CoxMaximum next{.coefficients = here.coefficients + move, .total = {}};
    next.total = cox_total(table, next.coefficients, ties);
    const double worse = gain_ignored * (1 + std::fabs(here.total.log_likelihood));
    for (int half = 0; half < halvings_max; ++half) {
      if (next.total.log_likelihood >= here.total.log_likelihood - worse) break;
      move /= 2;
      next.coefficients = here.coefficients + move;
      next.total = cox_total(table, next.coefficients, ties);
    }
    here = next;
    if (here.coefficients.cwiseAbs().maxCoeff() > runaway) return std::nullopt;
    if (move.cwiseAbs().maxCoeff() <= precision * (1 + here.coefficients.cwiseAbs().maxCoeff())) return here;
  }
  return std::nullopt;
}

}  // namespace pumpwright::reliability
