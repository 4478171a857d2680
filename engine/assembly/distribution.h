// Probability distributions that a dimension, or an input of a measurement model, can have. They are the ones
// JCGM 101:2008, 6.4, assigns from what is known about a quantity. A distribution is a plain mathematical
// object: its numbers are in the unit of whatever it belongs to (metres in a dimension chain).
#pragma once

#include <optional>
#include <string>
#include <variant>

namespace pumpwright {

// Normal with mean and standard deviation (6.4.7). sd >= 0.
struct Normal {
  double mean = 0;
  double sd = 0;
};

// Equally likely from lower to upper (6.4.2). lower <= upper, as in all that follow.
struct Rectangular {
  double lower = 0;
  double upper = 0;
};

// Sum of two equal rectangulars: peak in the middle (6.4.5).
struct Triangular {
  double lower = 0;
  double upper = 0;
};

// Symmetric trapezoid; `top_ratio` (beta, 0 to 1) is the width of the top over that of the base (6.4.4).
// 1 is the rectangle, 0 the triangle.
struct Trapezoidal {
  double lower = 0;
  double upper = 0;
  double top_ratio = 0.5;
};

// U-shaped: a quantity that cycles sinusoidally between the two ends (6.4.6).
struct Arcsine {
  double lower = 0;
  double upper = 0;
};

// Rectangular whose ends are known only to within +-`inexactness` (d), each equally likely; the width changes
// while the middle stays (6.4.3, "curvilinear trapezoid"). 0 <= 2 d <= upper - lower.
struct CurvilinearTrapezoid {
  double lower = 0;
  double upper = 0;
  double inexactness = 0;
};

// Scaled and shifted Student t (6.4.9). `scale` is not the standard deviation, which is
// scale * sqrt(dof / (dof - 2)) and exists for dof > 2 only. dof > 0, need not be whole.
struct StudentT {
  double centre = 0;
  double scale = 0;
  double dof = 1;
};

using Distribution =
    std::variant<Normal, Rectangular, Triangular, Trapezoidal, Arcsine, CurvilinearTrapezoid, StudentT>;

// Expectation. For a t with dof <= 1 the centre is returned (the expectation does not exist).
double mean_of(const Distribution& distribution);

// Variance, closed form; empty for a t with dof <= 2.
std::optional<double> variance_of(const Distribution& distribution);

// True when every value is certain to be the same.
bool is_constant(const Distribution& distribution);

// Throws BadInput naming `field` when a number is not finite or breaks the conditions stated above.
void require_valid(const Distribution& distribution, const std::string& field);

}  // namespace pumpwright
