// How the shaft bends under forces across it, standing still or turning with them, and what the bearings
// carry.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "engine/quantity/quantity.h"
#include "engine/rotor/rotor_matrices.h"

namespace pumpwright::rotor {

// Acts at the node nearest to `at`; make other places stations of the rotor.
struct PointForce {
  Length at;
  Force force;
};

struct LinePoint {
  Length at;
  Length deflection;  // the way the force points
  Angle tilt;         // of the section, and so of what sits square on the shaft there: the bending slope
};

struct Response {
  std::vector<LinePoint> line;   // at every node, along the shaft
  std::array<Force, 2> bearing;  // load on each bearing; the shaft gets the opposite
};

// Standing still, in one plane.
Response bent_by(const RotorMatrices& m, std::span<const PointForce> forces);

// By its own weight, standard gravity (9.80665 m/s²), shaft level.
Response bent_by_weight(const RotorMatrices& m);

// By forces that turn with the shaft (as unbalance does), undamped: (K + S² (G - M)) x = f. Near a forward
// critical speed the line grows without bound, above it points against the force.
Response whirled_by(const RotorMatrices& m, std::span<const PointForce> forces, Speed speed);

// The line's point nearest to `at`.
LinePoint point_at(const Response& response, Length at);

}  // namespace pumpwright::rotor
