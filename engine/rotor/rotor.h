// A pump's rotor as the computation takes it: a stepped shaft on two bearings with the impeller on it.
//
// Places are measured along the shaft from its impeller end. The rotor is the same in every plane through its
// axis, and so are the bearings; what the liquid adds (its mass in the impeller, the stiffness of wear rings)
// is not in it.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "engine/quantity/quantity.h"
#include "engine/rotor/shaft.h"

namespace pumpwright::rotor {

// A bearing as it holds the shaft: across the shaft, not against tilting.
struct Support {
  Length at;
  std::optional<SpringRate> stiffness;  // 1e3 to 1e12 N/m; rigid when absent
};

// The impeller, a coupling half or a motor's core as a rigid body held at one place.
struct Disk {
  Length at;
  Mass mass;          // 0 to 2000 kg
  Inertia polar;      // about the shaft's axis; at most twice the diametral one
  Inertia diametral;  // about a diameter through its centre of mass
};

// A solid disk of even thickness: Ip = m D²/8, Id = m (D²/16 + b²/12). Throws BadInput "impeller/...".
Disk solid_disk(Length at, Mass mass, Length diameter, Length width);

struct Rotor {
  ShaftMaterial material;
  std::vector<ShaftStep> steps;     // from the impeller end
  std::array<Support, 2> supports;  // the one nearer the impeller end first
  Disk impeller;                    // thrust, weight and unbalance of it act at its place
  std::vector<Disk> others;         // what else turns with the shaft; at most 20
  std::vector<Length> stations;     // more places to know the bent line at, e.g. the seal's faces; at most 20
};

// Throws BadInput "material/...", "shaft/...", "bearings/0/at", "impeller/...", "others/0/mass", "stations/0"
// for a rotor that does not meet the conditions above, has a place beyond the shaft's ends, or whose bearings
// are less than 1 mm apart or not in order.
void require_valid(const Rotor& rotor);

}  // namespace pumpwright::rotor
