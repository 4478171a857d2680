// How long the faces last without liquid between them: an estimate between two simple bodies, to show that it
// is seconds, not to plan with.
#pragma once

#include <optional>

#include "engine/quantity/quantity.h"
#include "engine/seal/face_geometry.h"
#include "engine/seal/ring.h"

namespace pumpwright::seal {

// Heat of dry faces pressed by the spring alone: f F r_m w. Carbon dry on a hard face: f 0.1 to 0.4
// (remembered). friction 0 to 2, spring 0 to 100 kN, speed 0 to 10 000 rad/s; BadInput "dry friction",
// "spring force", "speed".
Power dry_heat(const Faces& faces, Force spring, double friction, Speed speed);

struct RingMaterial {
  Conductivity conductivity;  // all over 0
  Density density;
  HeatCapacity heat_capacity;
};

struct DryRun {
  Power heat;                  // over 0
  Mass heated;                 // of both rings and what is as hot as they, over 0
  HeatCapacity heat_capacity;  // of that mass, over 0
  HeatConductance loss;        // to the surroundings, 0 or more
  Temperature start;           // of rings and surroundings
  Temperature damage;          // above start: of the face material or of the secondary seal beside it
  Area face;                   // over 0
  RingMaterial first, second;  // of the two faces
};

struct DryRunTime {
  Time skin;       // the faces' own surface: two half-spaces heated where they touch,
                   // t = pi/4 ((e1 + e2) dT / q)², e = sqrt(k rho c), q = heat / face (Carslaw & Jaeger,
                   // remembered)
  Time adiabatic;  // the whole mass at one temperature, nothing lost: t = m c dT / H
  std::optional<Time> lump;  // the same with loss: t = -(m c / G) ln(1 - G dT / H); empty: never gets there
  Temperature settles;  // where heat and loss balance: start + H / G; at most 100 000 K above when G is 0
  Time earliest;  // the smaller of skin and adiabatic: what to say when asked. Always an estimate: friction
                  // changes with temperature and wear, and the true body lies between the two.
};

// Throws BadInput "dry run/..." when a condition above does not hold.
DryRunTime time_to_damage(const DryRun& run);

// Temperature of the lump after `t` (0 or more): start + (H/G)(1 - exp(-t G / (m c))), or H t / (m c) with no
// loss.
Temperature lump_temperature(const DryRun& run, Time t);

}  // namespace pumpwright::seal
