#include "cli/torque_question.h"

namespace pumpwright {
namespace {

bool rests_on_memory(const TorqueQuestion& q) {
  for (const auto& number : q.numbers)
    if (number.source && !may_decide(number.source->obtained, false)) return true;
  return false;
}

void judge(const TorqueQuestion& q, TorqueFinding& f) {
  if (f.share.smallest > 1) {
    f.verdict = "fail";
    f.reason = "above-proof-load";
  } else if (f.share.largest > 1) {
    f.verdict = "unproven";
    f.reason = "friction-decides";
  } else {
    f.verdict = "pass";
    f.reason = "below-proof-load";
  }
  if (rests_on_memory(q)) {
    f.verdict = "unproven";
    f.reason = "strength-unconfirmed";
  }
}

}  // namespace

TorqueFinding answer(const TorqueQuestion& q) {
  TorqueFinding f;
  f.proof_load = q.proof_stress * stress_area(q.thread);
  if (q.torque) {
    f.preload = preload_from_torque(*q.torque, q.thread.diameter, q.nut_factor);
    f.torque_least = f.torque_most = q.torque->set;
  } else {
    const Force wanted = q.preload ? *q.preload : q.proof_share.value() * f.proof_load;
    f.preload = {.smallest = wanted, .largest = wanted};
    f.torque_least = torque_for_preload(q.nut_factor.lowest, q.thread.diameter, wanted);
    f.torque_most = torque_for_preload(q.nut_factor.highest, q.thread.diameter, wanted);
  }
  f.share = share_of_proof_load(f.preload, q.thread, q.proof_stress);
  judge(q, f);
  return f;
}

}  // namespace pumpwright
