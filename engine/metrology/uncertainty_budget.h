// Adding up standard uncertainties: what each source contributes, the combined figure, how many degrees of
// freedom stand behind it and by what factor it is to be multiplied for a stated coverage.
//
// Source: JCGM 100:2008 (GUM), clauses 4.3 (type B), 5.1 (combination of uncorrelated inputs), G.4
// (Welch-Satterthwaite).
#pragma once

#include <limits>
#include <string>
#include <vector>

#include "engine/quantity/quantity.h"

namespace pumpwright {

// What is assumed about the shape of a contribution; kept so that a report can say it.
enum class AssumedShape { normal, rectangular, student };

// One source of uncertainty, already multiplied by its sensitivity: u_i(y) = |c_i| u(x_i).
struct Contribution {
  std::string name;  // e.g. "graduation", "largest permissible error"
  Length u{};        // [m] standard uncertainty, >= 0
  double dof =
      std::numeric_limits<double>::infinity();  // degrees of freedom, > 0; infinite for an exactly known u
  AssumedShape distribution = AssumedShape::normal;
};

// Standard uncertainty of a rectangular distribution of half-width a: a/√3 (GUM 4.3.7).
Length rectangular(Length half_width);

// A list of uncorrelated contributions to one measured length.
struct UncertaintyBudget {
  std::vector<Contribution> contributions{};

  // u_c = sqrt(Σ u_i²) [m]; 0 for an empty list. Throws BadInput when a contribution is negative or not
  // finite.
  Length standard() const;

  // ν_eff = u_c⁴ / Σ(u_i⁴/ν_i), not truncated; infinite when every contribution with a share is exactly
  // known.
  double effective_dof() const;

  // k of a two-sided interval y ± k u_c of coverage `probability` (0 < probability < 1) from Student's t.
  // ν_eff is truncated to the next lower integer first (GUM G.4.2), but never below 1.
  double coverage_factor(double probability) const;

  // U = k u_c [m].
  Length expanded(double probability) const;
};

}  // namespace pumpwright
