// Whether the head can follow a seat that does not stand square, at the speed it turns, and whether the faces
// still cover each other when they do not run true.
//
// No published numeric criterion was found: what stands here is own mechanics (rigid ring, small angles).
#pragma once

#include "engine/metrology/measured.h"
#include "engine/quantity/quantity.h"
#include "engine/seal/face_geometry.h"

namespace pumpwright::seal {

using Acceleration = units::quantity<si::acceleration>;  // [m/s²]

enum class HeadStyle {
  turning,  // flexible head turns with the shaft, seat fixed: the tilted plane stands still in space, the
            // ring spins in it without being tipped, and only the bellows and drive are flexed, once a turn
  stationary,  // flexible head stands, the seat wobbles with the shaft: the ring has to be tipped to and fro
};

struct TrackingCase {
  HeadStyle style = HeadStyle::turning;
  Measured<Tir> seat;     // full reading of the face sweep, at most a tenth of its diameter
  Length swept_diameter;  // over which it was read, 5 mm to 1 m
  Faces faces;
  Speed speed;      // 0 to 10 000 rad/s
  Mass ring;        // that has to follow, 0 to 50 kg
  Force spring;     // least it can be, 0 to 100 kN
  Force seal_drag;  // of the secondary seal against sliding, 0 or more
};

struct Tracking {
  Angle tilt;  // reading / diameter
  Angle tilt_u;
  Length stroke;              // amplitude at the mean face radius: r tilt, each way once a turn
  Velocity peak_velocity;     // w r tilt
  Acceleration acceleration;  // w² r tilt
  Force required;             // to keep a stationary head's ring on the wobbling seat all round: m w² r tilt
                              // (a thin ring, J = m r²/2, wants the moment J w² tilt; a ring pressed with F
                              // tips off beyond F r/2). A turning head needs none.
  Force available;            // spring less drag, not below 0; what the sealed pressure adds is left out
  double reserve = 0;         // available / required; infinite when none is required and some is available
  bool follows = false;       // available > 0 and at least the required force
  Velocity sliding;           // of the faces; over about 23 m/s the flexible part should stand still
  bool fast_for_turning_head = false;  // turning and over 23 m/s (habit of the trade, remembered)
};

// Throws BadInput "seat reading", "swept diameter", "faces/...", "speed", "ring mass", "spring force",
// "seal drag".
Tracking tracking(const TrackingCase& seal);

// Narrow ring (the contact) on a wider seat, running out of true against each other.
struct OverlapCase {
  Faces faces;                 // the contact as drawn
  Length seat_outer_diameter;  // of the seat's flat face: at least the contact's
  Length seat_inner_diameter;  // over 0, at most the contact's
  Eccentricity ring;           // of the narrow face to the axis of turning
  Eccentricity seat;           // of the wide face
};

struct Overlap {
  Length outer_margin;  // of the seat beyond the narrow face, at the worst place; negative: it hangs over
  Length inner_margin;
  Length track_width;   // that the narrow face rubs on the seat: its width + 2 x the turning part's
                        // eccentricity, at most the sum of both
  bool covers = false;  // both margins 0 or more
};

// Throws BadInput "faces/...", "seat/outer_diameter", "seat/inner_diameter", "eccentricity".
Overlap overlap(const OverlapCase& seal);

}  // namespace pumpwright::seal
