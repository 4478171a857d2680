// Head lost in a pipe and its fittings.
//
// h = (f L/d + ΣK) v²/(2 g), Darcy and Weisbach. f is 64/Re below Re 2300; above 4000 it solves
// 1/√f = -2 log10(ε/(3.7 d) + 2.51/(Re √f)) (Colebrook 1939; the equation read in a paper on solving it), to
// rounding. Between the two the flow may be either: f goes straight from one to the other over Re (own), and
// the pipe says so.
#pragma once

#include "engine/quantity/quantity.h"

namespace pumpwright::hydraulics {

// Darcy's f. Re 0 (exclusive) to 1e9, relative roughness 0 to 0.1, else BadInput "reynolds" or "roughness".
double friction_factor(double reynolds, double relative_roughness);

struct Pipe {
  Length length;        // 0 to 1000 km
  Length bore;          // 1 mm to 10 m
  Length roughness;     // 0 to a tenth of the bore
  double fittings = 0;  // ΣK of all fittings and valves at this bore's velocity, 0 to 1e6
};

struct PipeLoss {
  Length head;
  Velocity velocity;
  double reynolds = 0, friction = 0;
  bool transitional = false;  // Re between 2300 and 4000
};

// At a flow of 0 the loss is 0. BadInput for what lies outside the ranges above.
PipeLoss pipe_loss(const Pipe& pipe, VolumeFlow flow, KinematicViscosity viscosity);

}  // namespace pumpwright::hydraulics
