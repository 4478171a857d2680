// One walk over the times of returns with everything a proportional-hazards fit or test needs at each of
// them. Internal to this folder: it shows Eigen.
#pragma once

#include <functional>
#include <span>
#include <vector>

#include <Eigen/Dense>

#include "engine/reliability/cox.h"

namespace pumpwright::reliability {

// Lives with their readings, longest first, readings as distances from their mean in standard deviations.
struct CoxTable {
  std::vector<double> time_s;
  std::vector<bool> returned;
  Eigen::MatrixXd readings;  // a row for each life
  Eigen::VectorXd spread;    // standard deviation of each reading, > 0
};

// Throws BadInput as fit_cox says.
CoxTable cox_table(std::span<const Life> lives, const Readings& readings);

// What the returns at one time add to the partial log-likelihood, its gradient and its information.
struct CoxTerm {
  double time_s = 0;
  std::size_t returned = 0;
  double log_likelihood = 0;
  Eigen::VectorXd score;
  Eigen::MatrixXd information;
};

// Calls `use` for every distinct time of a return, longest first, at the given coefficients (per standard
// deviation).
void for_each_return_time(const CoxTable& table, const Eigen::VectorXd& coefficients, Ties ties,
                          const std::function<void(const CoxTerm&)>& use);

// All terms together; its time and count mean nothing.
CoxTerm cox_total(const CoxTable& table, const Eigen::VectorXd& coefficients, Ties ties);

// The coefficients with the highest partial likelihood, by Newton; nothing when it rises for ever.
struct CoxMaximum {
  Eigen::VectorXd coefficients;  // per standard deviation
  CoxTerm total;                 // there
};
std::optional<CoxMaximum> cox_maximum(const CoxTable& table, Ties ties);

}  // namespace pumpwright::reliability
