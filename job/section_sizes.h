// Sizes of the half-section: what the make-up gives, completed by usual proportions, in an order that can be
// drawn.
//
// Each size is settled after those it depends on and kept within bounds that follow from them, so that radii
// and stations always stand in the order their names suggest, whatever was entered.
#pragma once

#include <set>
#include <string>

#include "job/make_up.h"

namespace pumpwright::job {

// Stations along the axis [m], from the mounting face towards the impeller.
struct SectionStations {
  double motor_end = 0;  // negative: where the motor is broken off
  double register_front = 0;
  double motor_flange = 0;  // thickness of the bracket's flange on the motor
  double cup_back = 0;      // motor side of the plate behind the seat
  double seat_shoulder = 0, seat_pocket_end = 0, seat_face = 0;
  double head_end = 0;
  double shaft_shoulder = 0;
  double hub_back = 0, hub_front = 0, shaft_end = 0;
  double plate_back = 0;      // motor side of the bracket's plate and casing flange
  double bracket_flange = 0;  // bracket's face towards the casing
  double casing_flange = 0;   // casing's face towards the bracket
  double spigot_end = 0;      // of the bracket inside the casing
  double cavity_back = 0, shroud_back = 0, rim_front = 0, casing_wall = 0;
  double eye_ring_end = 0, wear_ring_end = 0;
  double suction_flange = 0, suction_end = 0;
};

// Radii [m].
struct SectionRadii {
  double shaft = 0;      // where the sleeve, or without one the seal, sits
  double shaft_big = 0;  // on the motor's side of the shoulder
  double hub_bore = 0;
  double sleeve_bore = 0, seal = 0;  // `seal`: surface the seal head sits on
  double head = 0, seat = 0, seat_pocket = 0, plate_bore = 0, chamber = 0;
  double hub = 0, hub_nose = 0;
  double register_outside = 0, face = 0, motor_frame = 0, bearing = 0;
  double wall_inside = 0, wall_outside = 0, motor_flange = 0;  // of the bracket
  double impeller = 0, eye = 0, eye_inside = 0, wear_ring = 0, wear_ring_outside = 0, suction = 0;
  double casing_bore = 0, bracket_flange = 0, suction_pipe = 0, volute = 0;
};

struct SectionSizes {
  SectionStations x;
  SectionRadii r;
  double shaft_diameter = 0;
  double shroud = 0;  // thickness of a shroud
  double wall = 0;    // usual thickness of a cast wall
  double key_width = 0, key_length = 0;
  std::set<std::string> assumed, set_aside;  // names of dimensions
};

SectionSizes section_sizes(const MakeUp& make_up);

}  // namespace pumpwright::job
