// Dimension chains: does a stack of parts leave the gap, working length or end float it must leave?
//
// A chain is a sum of links, y = sum of c_i x_i; every link has a nominal length, a tolerance and a belief
// about how real parts lie inside it. This file answers in closed form: worst case, root sum of squares,
// mean, standard deviation and the share each link has in the variance. `monte_carlo.h` samples the same
// chain.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "engine/assembly/distribution.h"
#include "engine/quantity/quantity.h"

namespace pumpwright {

// How real parts lie inside the tolerance of a link. All are centred on the middle of the tolerance.
enum class Spread {
  normal,                 // tolerance = +- `sigmas` standard deviations; parts may lie outside
  rectangular,            // anywhere inside, equally likely
  triangular,             // the middle preferred
  trapezoidal,            // with `top_ratio`
  arcsine,                // near the ends preferred
  curvilinear_trapezoid,  // rectangular whose ends are known to +- `inexactness`
  student_t,              // a mean of few readings: `dof`; tolerance = +- `sigmas` times the scale
};

// "normal", "rectangular", "triangular", "trapezoidal", "arcsine", "curvilinear_trapezoid", "student_t".
// `u_shaped` is read as arcsine. Any other word is BadInput naming `field`.
Spread spread_from(const std::string& word, const std::string& field);
const char* word_for(Spread spread);

struct Link {
  std::string name;        // not empty, unique in its chain
  double coefficient = 1;  // sensitivity c_i: +1 opens the gap, -1 closes it; any finite number but 0
  Length nominal;          // as on the drawing, or as measured
  Length lower_deviation;  // actual size >= nominal + lower_deviation (signed)
  Length upper_deviation;  // actual size <= nominal + upper_deviation (signed), >= lower_deviation
  Spread spread = Spread::normal;
  double sigmas = 3;       // normal and student_t: 0.5 to 12
  double top_ratio = 0.5;  // trapezoidal: 0 to 1
  Length inexactness;      // curvilinear_trapezoid: each end may lie this much further out or in
  double dof = 0;          // student_t: degrees of freedom, > 0
};

// A link that was measured: `value` with standard uncertainty u; its tolerance becomes +- `sigmas` * u.
Link measured_link(const std::string& name, double coefficient, Length value, Length standard_uncertainty,
                   double sigmas = 3);

struct Chain {
  std::vector<Link> links;            // 1 to 1000
  std::optional<Length> lower_limit;  // requirement y >= lower_limit
  std::optional<Length> upper_limit;  // requirement y <= upper_limit
};

struct LinkShare {
  std::string name;
  double fraction = 0;  // c_i^2 var_i / sum of c_j^2 var_j, 0 to 1; all zero when nothing varies
};

struct ChainAnalysis {
  Length nominal;    // sum of c_i nominal_i
  Length worst_min;  // every link at the end of its tolerance that makes y smallest
  Length worst_max;
  Length rss_half_width;         // sqrt(sum of (c_i t_i)^2), t_i half the tolerance; taken about `mean`
  Length mean;                   // every link in the middle of its tolerance
  std::optional<Length> sd;      // empty when a t link has dof <= 2
  std::vector<LinkShare> share;  // in the order of the links; empty when sd is empty
  std::optional<double> exact_probability_inside;  // closed form; only when every link is normal (or fixed)
                                                   // and a limit is given
};

// Throws BadInput with field "links/3/sigmas" (numbers from 0) or "links", "lower_limit", "upper_limit" for a
// chain that does not meet the conditions above.
void require_valid(const Chain& chain);

// Distribution of the link's actual size [m]. The link must be valid.
Distribution distribution_of(const Link& link);

// Checks the chain, then computes all of the above in closed form; exact but for rounding (relative 1e-14 of
// the largest link).
//
// The worst case is over the stated tolerances, `inexactness` included; a normal or t link can lie outside
// it. Worst case and root sum of squares: e.g. Shigley's Mechanical Engineering Design, ch. 1, "Dimensions
// and Tolerances"; variance of the distributions: JCGM 101:2008, 6.4.
ChainAnalysis analyse(const Chain& chain);

}  // namespace pumpwright
