// Chains as RapidCheck draws them: 1 to 8 links of every spread, millimetres and tenths, signs and levers.
#pragma once

#include <string>

#include <rapidcheck.h>

#include "engine/assembly/chain.h"

namespace pumpwright::testing {

// Without t links of fewer than 3 degrees of freedom, so that every chain has a variance.
inline rc::Gen<Chain> any_chain() {
  return rc::gen::exec([] {
    Chain chain;
    const int count = *rc::gen::inRange(1, 9);
    for (int i = 0; i < count; ++i) {
      Link link;
      link.name = "link " + std::to_string(i);
      link.coefficient = *rc::gen::element(-2.5, -1.0, -0.5, 0.5, 1.0, 3.0);
      link.nominal = metres(*rc::gen::inRange(-200'000, 200'000) * 1e-6);
      const int lower_um = *rc::gen::inRange(-500, 500);
      const int width_um = *rc::gen::inRange(0, 500);
      link.lower_deviation = metres(lower_um * 1e-6);
      link.upper_deviation = metres((lower_um + width_um) * 1e-6);
      link.spread =
          *rc::gen::element(Spread::normal, Spread::rectangular, Spread::triangular, Spread::trapezoidal,
                            Spread::arcsine, Spread::curvilinear_trapezoid, Spread::student_t);
      link.sigmas = *rc::gen::inRange(1, 7);
      link.top_ratio = *rc::gen::inRange(0, 11) * 0.1;
      link.inexactness = metres(width_um * 0.25e-6);
      link.dof = *rc::gen::inRange(3, 40);
      chain.links.push_back(link);
    }
    return chain;
  });
}

// Links whose samples can not leave their tolerance.
inline bool is_bounded(Spread spread) {
  return spread != Spread::normal && spread != Spread::student_t;
}

}  // namespace pumpwright::testing
