#include "engine/assembly/fastener.h"

#include <cmath>
#include <numbers>
#include <string>

#include "engine/assembly/input_check.h"

namespace pumpwright {
namespace {

// Both thread forms have flanks at 30 degrees.
const double cos_flank = std::cos(std::numbers::pi / 6);

void require_valid(const Thread& thread) {
  require_between(thread.diameter.value(), 0.001, 0.2, "thread/diameter",
                  "a major diameter from 1 mm to 200 mm");
  require_that(thread.pitch.value() > 0 && thread.pitch < thread.diameter / 2.0, thread.pitch.value(),
               "thread/pitch", "a pitch over 0 and below half the diameter");
}

void require_range(FrictionRange range, double lowest, double highest, const char* field) {
  require_between(range.lowest, lowest, highest, std::string(field) + "/lowest",
                  "a number in its usual range");
  require_between(range.highest, range.lowest, highest, std::string(field) + "/highest",
                  "a number in its usual range, not below the lowest");
}

void require_nut_factor(double nut_factor) {
  require_between(nut_factor, 0.02, 2, "nut factor", "K from 0.02 to 2");
}

void require_diameter(Length diameter) {
  require_between(diameter.value(), 0.001, 0.2, "diameter", "a major diameter from 1 mm to 200 mm");
}

void require_valid(const AppliedTorque& torque) {
  require_that(std::isfinite(torque.set.value()) && torque.set.value() > 0, torque.set.value(), "torque",
               "a torque over 0");
  require_that(torque.wrench_error >= 0 && torque.wrench_error < 1, torque.wrench_error, "wrench error",
               "a relative error from 0 to below 1");
}

void require_valid(const LongFormJoint& joint) {
  require_valid(joint.thread);
  require_that(std::isfinite(joint.face.outside.value()) && joint.face.outside > joint.face.inside,
               joint.face.outside.value(), "face/outside", "a diameter larger than the inside of the face");
  require_that(joint.face.inside.value() >= 0, joint.face.inside.value(), "face/inside",
               "a diameter of 0 or more");
}

// Torque per preload bounds to preload bounds.
PreloadRange preload_between(const AppliedTorque& torque, double least_m, double most_m) {
  const double set_nm = torque.set.value();
  return {newtons(set_nm * (1 - torque.wrench_error) / most_m),
          newtons(set_nm * (1 + torque.wrench_error) / least_m)};
}

// The thread's part of the torque per preload.
double thread_part_m(const Thread& thread, double mu_t, LongForm form) {
  const double p_m = thread.pitch.value();
  const double d2_m = pitch_diameter(thread).value();
  switch (form) {
    case LongForm::motosh:
      return p_m / (2 * std::numbers::pi) + mu_t * d2_m / 2 / cos_flank;
    case LongForm::vdi2230:
      return 0.16 * p_m + 0.58 * d2_m * mu_t;
    case LongForm::power_screw:
      break;
  }
  const double tan_lambda = p_m / (std::numbers::pi * d2_m);
  return d2_m / 2 * (tan_lambda + mu_t / cos_flank) / (1 - mu_t * tan_lambda / cos_flank);
}

}  // namespace

Area stress_area(const Thread& thread) {
  require_valid(thread);
  const double constant = thread.form == ThreadForm::unified ? 0.9743 : 0.9382;
  const Length across = thread.diameter - constant * thread.pitch;
  return std::numbers::pi / 4 * across * across;
}

Length pitch_diameter(const Thread& thread) {
  require_valid(thread);
  return thread.diameter - 0.649519 * thread.pitch;
}

Torque torque_for_preload(double nut_factor, Length diameter, Force preload) {
  require_nut_factor(nut_factor);
  require_diameter(diameter);
  require_that(std::isfinite(preload.value()) && preload.value() >= 0, preload.value(), "preload",
               "a force of 0 or more");
  return newton_metres(nut_factor * diameter.value() * preload.value());
}

PreloadRange preload_from_torque(const AppliedTorque& torque, Length diameter, FrictionRange nut_factor) {
  require_valid(torque);
  require_diameter(diameter);
  require_range(nut_factor, 0.02, 2, "nut factor");
  return preload_between(torque, nut_factor.lowest * diameter.value(), nut_factor.highest * diameter.value());
}

Length torque_per_preload(const LongFormJoint& joint, double thread_friction, double bearing_friction,
                          LongForm form) {
  require_valid(joint);
  require_between(thread_friction, 0.01, 1, "thread friction", "a coefficient of friction from 0.01 to 1");
  require_between(bearing_friction, 0.01, 1, "bearing friction", "a coefficient of friction from 0.01 to 1");
  const double bearing_radius_m = (joint.face.outside + joint.face.inside).value() / 4;
  return metres(thread_part_m(joint.thread, thread_friction, form) + bearing_friction * bearing_radius_m);
}

PreloadRange preload_from_torque(const AppliedTorque& torque, const LongFormJoint& joint,
                                 const JointFriction& friction, LongForm form) {
  require_valid(torque);
  require_range(friction.thread, 0.01, 1, "thread friction");
  require_range(friction.bearing, 0.01, 1, "bearing friction");
  return preload_between(
      torque, torque_per_preload(joint, friction.thread.lowest, friction.bearing.lowest, form).value(),
      torque_per_preload(joint, friction.thread.highest, friction.bearing.highest, form).value());
}

ShareRange share_of_proof_load(const PreloadRange& preload, const Thread& thread, Pressure proof_stress) {
  require_between(proof_stress.value(), 1e6, 5e9, "proof stress", "a stress from 1 MPa to 5000 MPa");
  const Force proof_load = proof_stress * stress_area(thread);
  return {preload.smallest / proof_load, preload.largest / proof_load};
}

}  // namespace pumpwright
