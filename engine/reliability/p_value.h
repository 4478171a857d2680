// How often mere chance would give a test figure at least this large. Pure numbers.
#pragma once

namespace pumpwright::reliability {

// P(χ² >= x), x >= 0, dof > 0; small values keep their digits.
double chi_square_beyond(double x, double dof);

// P(χ² <= x), x >= 0, dof > 0.
double chi_square_within(double x, double dof);

// P(|Z| >= |z|) of a standard normal Z.
double normal_two_sided(double z);

}  // namespace pumpwright::reliability
