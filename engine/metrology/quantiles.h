// The distribution functions that the uncertainty statements rest on, each to better than 1e-13 relative over
// the range used here (checked against SciPy). Pure numbers throughout.
#pragma once

namespace pumpwright {

// Φ(z).
double normal_cdf(double z);
// z with Φ(z) = p, 0 < p < 1.
double normal_quantile(double p);

// P(T <= t) of Student's t; dof > 0, infinity allowed (then the normal distribution).
double student_cdf(double t, double dof);
// t with P(T <= t) = p, 0 < p < 1; dof > 0, infinity allowed.
double student_quantile(double p, double dof);

// x with P(χ² <= x) = p, 0 < p < 1, dof > 0.
double chi_square_quantile(double p, double dof);

// x with P(F <= x) = p, 0 < p < 1; both dof > 0, the second may be infinite.
double f_quantile(double p, double dof_numerator, double dof_denominator);

}  // namespace pumpwright
