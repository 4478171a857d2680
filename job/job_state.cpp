#include "job/job_state.h"

#include <algorithm>

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
    case CheckKind::sheet:
      return std::holds_alternative<SheetReading>(reading.body);
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
    case CheckKind::sheet:
      return "what the test wrote down (\"sheet\")";
    default:
      return "no reading of its own: it is computed from others";
  }
}

const Step& want_step(const Plan& plan, const std::string& id) {
  const Step* step = plan.step(id);
  if (step == nullptr) refuse("step", id, "a step of this job's plan");
  return *step;
}

// One event over the state. Everything is looked at before anything is changed.
struct Folding {
  const Plan& plan;
  JobState& state;
  std::map<std::string, std::string>& check_of;

  void operator()(const ReadingTaken& e) const {
    const Reading& r = e.reading;
    const Check* check = plan.find(r.check);
    if (check == nullptr) refuse("check", r.check, "a check of this job's plan");
    if (!check->from.empty() || !fits(r, check->kind)) refuse("check", r.check, wanted(*check));
    if (check->kind == CheckKind::sheet && check->instrument != "none" && r.instrument.empty())
      refuse("instrument", "nothing", "the instrument it was read with");
    if (check_of.count(r.id) != 0) refuse("id", r.id, "an id that no other reading has");
    if (r.replaces) take_out(*r.replaces, r.check);
    if (names_remedy(r)) set_aside(r.check);
    check_of.emplace(r.id, r.check);
    state.standing[r.check].push_back(r);
  }

  void operator()(const StepDone& e) const {
    want_step(plan, e.step);
    state.steps_done[e.step] = e;
  }

  void operator()(const HoldReleased& e) const {
    if (!want_step(plan, e.step).hold) refuse("step", e.step, "a step with a hold point");
    const auto done = state.steps_done.find(e.step);
    if (done == state.steps_done.end()) refuse("step", e.step, "a step that was done before it is released");
    if (done->second.actor == e.actor)
      refuse("actor", e.actor, "another person than the one who did the step releases its hold point");
    state.holds_released[e.step] = e;
  }

  void operator()(const DeviationAccepted& e) const {
    if (plan.find(e.check) == nullptr) refuse("check", e.check, "a check of this job's plan");
    if (e.reason.empty()) refuse("reason", "", "why the deviation is accepted");
    state.deviations[e.check] = e;
  }

 private:
  static bool names_remedy(const Reading& reading) {
    const auto* sweep = std::get_if<SweepReading>(&reading.body);
    return sweep != nullptr && sweep->remedy.has_value();
  }

  // What was read before the part was moved tells nothing of how it runs now.
  void set_aside(const std::string& check) const {
    auto& readings = state.standing[check];
    for (Reading& reading : readings) {
      state.before_remedy.insert(reading.id);
      state.replaced.push_back(std::move(reading));
    }
    readings.clear();
  }

  void take_out(const std::string& id, const std::string& check) const {
    const auto known = check_of.find(id);
    if (known == check_of.end() || known->second != check)
      refuse("replaces", id, fmt::format("the id of an earlier reading of {}", check));
    auto& readings = state.standing[check];
    const auto at =
        std::find_if(readings.begin(), readings.end(), [&](const Reading& r) { return r.id == id; });
    if (at == readings.end()) return;  // replaced by somebody else meanwhile: both replacements stand
    state.replaced.push_back(*at);
    readings.erase(at);
  }
};

}  // namespace

void JobFold::apply(const Plan& plan, const Event& event) {
  std::visit(Folding{plan, state_, check_of_}, event);
}

JobState fold(const Plan& plan, std::span<const Event> events) {
  JobFold folding;
  for (std::size_t i = 0; i < events.size(); ++i) {
    try {
      folding.apply(plan, events[i]);
    } catch (const BadInput& e) {
      throw e.at(fmt::format("/events/{}", i));
    }
  }
  return folding.take();
}

}  // namespace pumpwright::job
