// Torque and preload of a threaded fastener, as ranges: the same torque gives very different clamp loads on
// dry, oiled or thread-locked threads, and this file shows how different. Strengths and friction ranges come
// from the catalog or the shop.
#pragma once

#include "engine/quantity/quantity.h"

namespace pumpwright {

enum class ThreadForm { unified, iso_metric };

struct Thread {
  ThreadForm form = ThreadForm::iso_metric;
  Length diameter;  // major diameter d: 1 mm to 200 mm
  Length pitch;     // P: unified 1/n in; 0 < P < d / 2
};

// Area that carries the tension. Unified: pi/4 (d - 0.9743 P)^2 (ASME B1.1); metric: pi/4 (d - 0.9382 P)^2
// (ISO 898-1, where the constant is 0.9382 = (0.649519 + 1.226869)/2). The two must not be mixed. BadInput
// "thread/diameter", "thread/pitch".
Area stress_area(const Thread& thread);

// d2 = d - 0.649519 P, both forms.
Length pitch_diameter(const Thread& thread);

// A number known only as a range. 0 < lowest <= highest.
struct FrictionRange {
  double lowest = 0;
  double highest = 0;
};

// Short form T = K d F. K is not a friction coefficient; 0.02 to 2.
Torque torque_for_preload(double nut_factor, Length diameter, Force preload);

struct PreloadRange {
  Force smallest;  // least torque, most friction
  Force largest;   // most torque, least friction
};

struct AppliedTorque {
  Torque set;               // > 0
  double wrench_error = 0;  // relative: 0.04 is +-4 %; 0 to below 1
};

// F = T / (K d) over the ranges of torque and K.
PreloadRange preload_from_torque(const AppliedTorque& torque, Length diameter, FrictionRange nut_factor);

// Where the head or nut rubs and how.
struct JointFriction {
  FrictionRange thread;   // mu_t, 0.01 to 1
  FrictionRange bearing;  // mu_b
};
struct BearingFace {
  Length outside;  // of the rubbing ring under the head, e.g. across flats
  Length inside;   // the clearance hole
};

enum class LongForm {
  motosh,       // T = F [P/(2 pi) + mu_t r_t / cos 30 deg + mu_b r_b]
  vdi2230,      // T = F [0.16 P + 0.58 d2 mu_t + mu_b D_Km / 2]
  power_screw,  // T = F {d2/2 (tan lambda + mu_t sec 30 deg) / (1 - mu_t tan lambda sec 30 deg) + mu_b r_b}
};

struct LongFormJoint {
  Thread thread;
  BearingFace face;  // mean radius (outside + inside) / 4
};

// Torque per preload [m], i.e. T / F, at one pair of friction coefficients. Equivalent K is this over the
// diameter. Motosh, "Development of design charts for bolts preloaded up to the plastic range", ASME J. Eng.
// Ind. 98 (1976); VDI 2230-1; power screw: Shigley's Mechanical Engineering Design, ch. 8.
Length torque_per_preload(const LongFormJoint& joint, double thread_friction, double bearing_friction,
                          LongForm form);

// The same range by the long form: least torque with both frictions highest, and the other way round.
PreloadRange preload_from_torque(const AppliedTorque& torque, const LongFormJoint& joint,
                                 const JointFriction& friction, LongForm form);

struct ShareRange {
  double smallest = 0;
  double largest = 0;  // above 1: the fastener may be stretched past its proof load
};

// Preload over proof load = preload / (proof stress * stress area).
ShareRange share_of_proof_load(const PreloadRange& preload, const Thread& thread, Pressure proof_stress);

}  // namespace pumpwright
