// The sums a Weibull likelihood is made of, for one set of lives; every fit and every limit asks for them
// over and over, so the logarithms are taken once.
//
// With x = ln(t/longest) <= 0 no power can overflow, whatever the unit of time. Neighbours of the same time
// are one term with a weight: lives in the order of their times make long lists of few times short.
#pragma once

#include <span>
#include <vector>

#include "engine/reliability/life.h"

namespace pumpwright::reliability {

class WeibullData {
 public:
  // `threshold`: a time in which nothing can come back (0: none); it is taken off every time, and pumps that
  // were running no longer than that say nothing. 0 <= threshold < the shortest time of a return. Throws
  // BadInput for lives that are not valid, or a threshold out of range.
  explicit WeibullData(std::span<const Life> lives, Time threshold = seconds(0));

  // Σ exp(βx), Σ x·exp(βx), Σ x²·exp(βx) over all lives.
  struct Powers {
    double sum = 0;
    double first = 0;
    double second = 0;
  };
  Powers powers(double shape) const;

  std::size_t units() const { return units_; }
  std::size_t returned() const { return returned_; }
  Time threshold() const { return threshold_; }
  // Mean of x over the returned, at most 0; exactly 0 when they all returned at the longest time.
  double mean_returned_x() const { return mean_returned_x_; }
  double log_longest() const { return log_longest_; }  // ln of the longest time [s], threshold taken off
  // Σ ln t [s] over the returned, threshold taken off.
  double log_sum_returned() const;

 private:
  struct Term {
    double x = 0;
    double weight = 0;  // how many lives
  };

  std::vector<Term> terms_;
  std::size_t units_ = 0;
  std::size_t returned_ = 0;
  Time threshold_;
  double mean_returned_x_ = 0;
  double log_longest_ = 0;
};

}  // namespace pumpwright::reliability
