#include "job/job_state.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright::job {
namespace {

[[noreturn]] void refuse(const std::string& field, const std::string& value, const std::string& expected) {
  throw BadInput({.field = field, .place = "", .value = value, .expected = expected});
}

bool fits(const Reading& reading, CheckKind kind) {
  switch (kind) {
    case CheckKind::confirmation:
      return std::holds_alternative<Confirmation>(reading.body);
    case CheckKind::value:
      return std::holds_alternative<ValueReading>(reading.body);
    case CheckKind::size:
      return std::holds_alternative<SizeReading>(reading.body);
    case CheckKind::sweep:
      return std::holds_alternative<SweepReading>(reading.body);
    default:
      return false;
  }
}

const char* wanted(const Check& check) {
  if (!check.from.empty()) return "no reading of its own: it is judged from another check's";
  switch (check.kind) {
    case CheckKind::confirmation:
      return "a confirmation (\"done\")";
    case CheckKind::value:
      return "a value (\"value\" or \"values\")";
    case CheckKind::size:
      return "diameters (\"size\")";
    case CheckKind::sweep:
      return "a sweep (\"sweep\")";
    default:
      return "no reading of its own: it is computed from others";
  }
}

class Fold {
 public:
  explicit Fold(const Plan& plan) : plan_(plan) {}

  void operator()(const ReadingTaken& e) {
    const Reading& r = e.reading;
    const Check* check = plan_.find(r.check);
    if (check == nullptr) refuse("check", r.check, "a check of this job's plan");
    if (!check->from.empty() || !fits(r, check->kind)) refuse("check", r.check, wanted(*check));
    if (!ids_.insert(r.id).second) refuse("id", r.id, "an id that no other reading has");
    if (r.replaces) take_out(*r.replaces, r.check);
    state.standing[r.check].push_back(r);
  }

  void operator()(const StepDone& e) {
    want_step(e.step);
    state.steps_done[e.step] = e;
  }

  void operator()(const HoldReleased& e) {
    if (!want_step(e.step).hold) refuse("step", e.step, "a step with a hold point");
    const auto done = state.steps_done.find(e.step);
    if (done == state.steps_done.end()) refuse("step", e.step, "a step that was done before it is released");
    if (done->second.actor == e.actor)
      refuse("actor", e.actor, "another person than the one who did the step releases its hold point");
    state.holds_released[e.step] = e;
  }

  void operator()(const DeviationAccepted& e) {
    if (plan_.find(e.check) == nullptr) refuse("check", e.check, "a check of this job's plan");
    if (e.reason.empty()) refuse("reason", "", "why the deviation is accepted");
    state.deviations[e.check] = e;
  }

  JobState state;

 private:
  const Step& want_step(const std::string& id) {
    const Step* step = plan_.step(id);
    if (step == nullptr) refuse("step", id, "a step of this job's plan");
    return *step;
  }

  void take_out(const std::string& id, const std::string& check) {
    auto& readings = state.standing[check];
    const auto at =
        std::find_if(readings.begin(), readings.end(), [&](const Reading& r) { return r.id == id; });
    if (at == readings.end())
      refuse("replaces", id, fmt::format("the id of an earlier reading of {} that still stands", check));
    state.replaced.push_back(*at);
    readings.erase(at);
  }

  const Plan& plan_;
  std::set<std::string> ids_;
};

}  // namespace

JobState fold(const Plan& plan, std::span<const Event> events) {
  Fold folding(plan);
  for (std::size_t i = 0; i < events.size(); ++i) {
    try {
      std::visit(folding, events[i]);
    } catch (const BadInput& e) {
      throw e.at(fmt::format("/events/{}", i));
    }
  }
  return std::move(folding.state);
}

}  // namespace pumpwright::job
