#include "job/sheets/pressure_hold_finding.h"

#include <limits>

#include "job/json_quantity.h"

namespace pumpwright::job {
namespace {

struct Judged {
  Outcome outcome;
  HoldReason reason;
};

// What keeps the readings from proving anything; nothing when they may be judged.
std::optional<Judged> obstacle(const PressureHoldSheet& sheet, const PressureHoldFinding& f) {
  if (!sheet.test) return Judged{Outcome::unproven, HoldReason::planned};
  if (sheet.leak_seen) return Judged{Outcome::fail, HoldReason::leak_seen};
  const Pressure start = sheet.test->start.pressure.value;
  for (const auto& part : sheet.parts)
    if (start > part.rating.value * 1.0001) return Judged{Outcome::fail, HoldReason::over_rating};
  if (sheet.medium == HoldMedium::liquid && !sheet.vented)
    return Judged{Outcome::unproven, HoldReason::not_vented};
  if (!sheet.isolated) return Judged{Outcome::unproven, HoldReason::not_isolated};
  if (sheet.test->held < f.hold.least) return Judged{Outcome::unproven, HoldReason::too_short};
  if (start < f.pressure.used.value * 0.9999) return Judged{Outcome::unproven, HoldReason::pressure_short};
  return std::nullopt;
}

void judge(const PressureHoldSheet& sheet, PressureHoldFinding& f) {
  if (sheet.leak_limit && f.leak) {
    decision_si::Input in;
    in.upper = sheet.leak_limit->value();
    in.value = f.leak->leak_m3_s.value;
    in.u = f.leak->leak_m3_s.u;
    in.dof = std::numeric_limits<double>::infinity();
    const auto decided = decision_si::decide(in, Guarded{});
    f.chance = decided.conformance_probability;
    f.outcome = decided.outcome;
    f.reason = decided.outcome == Outcome::pass   ? HoldReason::leak_under_limit
               : decided.outcome == Outcome::fail ? HoldReason::leak_over_limit
                                                  : HoldReason::leak_in_doubt;
  } else {
    f.outcome = Outcome::pass;
    f.reason = HoldReason::no_leak_seen;
  }
  if (const auto stands = obstacle(sheet, f)) {
    f.outcome = stands->outcome;
    f.reason = stands->reason;
  }
}

hydraulics::HoldTime time_of(const PressureHoldSheet& sheet) {
  if (sheet.hold) return {*sheet.hold, "stated in the file", HowKnown::read};
  return hydraulics::hold_time(sheet.rule, sheet.power);
}

}  // namespace

PressureHoldFinding pressure_hold_finding(const PressureHoldSheet& sheet) {
  PressureHoldFinding f;
  f.pressure =
      placed("/rule", [&] { return hydraulics::test_pressure(sheet.rule, sheet.basis, sheet.parts); });
  f.hold = time_of(sheet);
  f.gauge_share = f.pressure.used.value / sheet.gauge_range.value;
  f.energy_of_gas = hydraulics::stored_in_gas(f.pressure.used, sheet.volume, sheet.atmosphere);
  f.energy = sheet.medium == HoldMedium::gas
                 ? f.energy_of_gas
                 : hydraulics::stored_in_liquid(f.pressure.used, sheet.volume, sheet.stiffness.bulk_modulus);
  if (sheet.medium == HoldMedium::liquid && sheet.stiffness.trapped_air.value() > 0) {
    // Trapped air, squeezed to the test pressure, is gas too.
    const double squeezed = sheet.atmosphere.value / (sheet.atmosphere.value + f.pressure.used.value);
    f.energy +=
        hydraulics::stored_in_gas(f.pressure.used, sheet.stiffness.trapped_air * squeezed, sheet.atmosphere);
  }
  if (sheet.test)
    f.leak = placed("/readings", [&] {
      return sheet.medium == HoldMedium::gas ? hydraulics::gas_leak(*sheet.test)
                                             : hydraulics::liquid_leak(*sheet.test, sheet.stiffness);
    });
  judge(sheet, f);
  return f;
}

const char* word_of(HoldReason reason) {
  switch (reason) {
    case HoldReason::planned:
      return "planned";
    case HoldReason::leak_seen:
      return "leak-seen";
    case HoldReason::leak_over_limit:
      return "leak-over-limit";
    case HoldReason::leak_under_limit:
      return "leak-under-limit";
    case HoldReason::no_leak_seen:
      return "no-leak-seen";
    case HoldReason::leak_in_doubt:
      return "leak-in-doubt";
    case HoldReason::not_vented:
      return "not-vented";
    case HoldReason::not_isolated:
      return "not-isolated";
    case HoldReason::too_short:
      return "too-short";
    case HoldReason::pressure_short:
      return "pressure-short";
    case HoldReason::over_rating:
      return "over-rating";
  }
  return "";
}

}  // namespace pumpwright::job
