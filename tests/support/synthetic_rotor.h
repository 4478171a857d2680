// Seeded synthetic pumps with planted errors, swept as the plan sweeps them: for counting how often the
// attribution of runout names the right part. docs/true-running.md describes how a case is made.
//
// Nothing here uses the model under test. Parts are rigid bodies placed by rotation matrices; a radial sweep
// meets a tilted cylinder, a face sweep a tilted plane, both exactly; the surfaces are a little oval and
// three-lobed; each reading has scatter and is rounded to the dial's graduation. The sweeps are evaluated
// like any other.
#pragma once

#include <complex>
#include <cstdint>
#include <optional>
#include <vector>

#include "engine/assembly/true_attribution.h"

namespace pumpwright::testing {

// How the synthetic shop works; the same for every case unless a test says otherwise.
struct SyntheticShop {
  double ratio = 5;                 // planted error over noise, where it shows most
  double ordinary_offset_m = 5e-6;  // standard deviation of a component of what is ordinary
  double ordinary_tilt_rad = 1e-4;
  double scatter_m = 1.5e-6;  // standard deviation of one reading
  double graduation_m = 5e-6;
  double form_m = 4e-6;  // largest amplitude of ovality; the three-lobed form has half
  int places = 12;
  bool more_stations =
      false;  // besides the plan's own: bare shaft near, sleeve end, hub, shroud; bracket bore, face
};

template <class Chain>
struct SyntheticCase {
  std::vector<true_running::Station<Chain>> stations;
  true_running::Geometry<Chain> geometry{};
  std::vector<true_running::NamedError<Chain>> planted;
  std::vector<std::complex<double>> planted_size;  // [m] or [rad], what is ordinary of that error included
};

// Every error that can be planted in the chain at the stations of `shop`: those of the parts, then a loose
// indicator at each station.
template <class Chain>
std::vector<true_running::NamedError<Chain>> plantable(const SyntheticShop& shop);

// Case number `number` with these errors planted (none, one or more), at random in direction. The same
// arguments always give the same case.
template <class Chain>
SyntheticCase<Chain> synthetic_case(std::uint64_t number,
                                    const std::vector<true_running::NamedError<Chain>>& planted,
                                    const SyntheticShop& shop);

}  // namespace pumpwright::testing
