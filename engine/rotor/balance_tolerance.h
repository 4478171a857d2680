// How much unbalance a rotor may keep, and how much of it each bearing plane may see.
//
// U_per = m · (e_per·ω) / ω: the grade is the speed at which the centre of mass may travel round the axis.
// Sources: grades G 0.4 to G 4000 and their e_per·Ω as restated from ISO 21940-11 (ISO 1940-1) table 1 (read
// on a public page on balance grades); pumps stand at G 6.3 there. The formula was
// read in several restatements, as was the split in proportion to the bearing loads (energy-tech.com article
// 18389). The bounds of a share are remembered from ISO 21940-11, clause on allocation.
#pragma once

#include <optional>
#include <span>

#include "engine/assembly/how_known.h"
#include "engine/rotor/balance_angles.h"

namespace pumpwright::rotor {

// e_per·Ω of the grades in the standard's table [m/s], rising by about 2.5 from one to the next.
std::span<const Velocity> listed_grades();
// Whether the grade is one of them. The standard allows finer steps between; they are not judged otherwise.
bool is_listed(Velocity grade);

struct RotorToBalance {
  Mass mass;         // [kg], > 0, at most 100 t
  Speed service;     // [rad/s], the highest speed in service, 1 to 1e5 rpm
  Velocity grade{};  // e_per·Ω [m/s], from the lowest listed grade to the highest
};

// e_per = grade / ω [m]. Throws BadInput "rotor/mass", "rotor/speed", "rotor/grade" outside the ranges above.
Length permissible_eccentricity(const RotorToBalance& rotor);
// U_per = m · e_per [kg·m]: of the whole rotor.
Unbalance permissible_unbalance(const RotorToBalance& rotor);

// Along the shaft from any one origin, in either direction.
struct BearingPlanes {
  Length a;
  Length b;
  Length centre_of_mass;
};

enum class MassStands { between_bearings, outboard };

struct BearingTolerance {
  Unbalance a;
  Unbalance b;
  MassStands mass = MassStands::between_bearings;
  bool bounded = false;           // a bound took the place of the plain proportion
  HowKnown how = HowKnown::read;  // remembered where a bound took effect
};

// In the proportion of the static bearing loads: U_a = U_per·|b - c|/|b - a|, U_b = U_per·|c - a|/|b - a|. No
// share below 0.3 U_per; none above 0.7 U_per with the centre of mass between the bearings, none above 1.3
// U_per with it outboard. Throws BadInput "rotor/bearings" when both planes are one.
BearingTolerance tolerance_at_bearings(Unbalance permissible, const BearingPlanes& planes);

}  // namespace pumpwright::rotor
