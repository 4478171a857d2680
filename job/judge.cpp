#include <algorithm>
#include <cmath>

#include "job/bench_sheet.h"
#include "job/chain_correction.h"
#include "job/measurement.h"
#include "job/sheets/sheet_check.h"
#include "job/wording.h"

namespace pumpwright::job {
namespace {

Verdict verdict_of(Outcome outcome) {
  return outcome == Outcome::pass   ? Verdict::pass
         : outcome == Outcome::fail ? Verdict::fail
                                    : Verdict::unproven;
}

Reason reason_of(pumpwright::Reason reason) {
  using From = pumpwright::Reason;
  switch (reason) {
    case From::inside_guarded:
    case From::inside_limit:
      return Reason::inside;
    case From::outside_guarded:
    case From::outside_limit:
      return Reason::outside;
    case From::instrument_too_coarse:
    case From::instrument_not_stated:
      return Reason::instrument_too_coarse;
    case From::instrument_out_of_date:
      return Reason::instrument_out_of_date;
    case From::limit_in_uncertainty:
    case From::tolerance_too_narrow:
      return Reason::inside_uncertainty;
  }
  return Reason::inside_uncertainty;
}

pumpwright::DecisionRule engine_rule(const DecisionRule& rule) {
  if (rule.rule == Rule::guarded) return Guarded{};
  return SimpleAcceptance{.ratio = rule.ratio, .of = SimpleAcceptance::Of::graduation};
}

decision_si::Input input_of(const Measurement& m, const Limit& limit) {
  decision_si::Input in;
  if (limit.lower) in.lower = limit.lower->si;
  if (limit.upper) in.upper = limit.upper->si;
  in.value = m.value;
  in.u = m.u;
  in.dof = m.dof;
  in.graduation = m.graduation;
  in.u_graduation = m.u_graduation;
  in.u_scatter = m.u_scatter;
  in.in_date = m.in_date;
  in.never_negative = m.never_negative;
  return in;
}

int badness(Verdict v) {
  switch (v) {
    case Verdict::pass:
      return 0;
    case Verdict::not_taken:
      return 1;
    case Verdict::unproven:
      return 2;
    case Verdict::fail:
      return 3;
  }
  return 3;
}

const Unit& unit_of(const Limit& limit) {
  return limit.upper ? *limit.upper->unit : *limit.lower->unit;
}

// Judges one number by the deciding limit and keeps the result when it is worse than what `shown` holds.
void decide_number(const Check& check, const Measurement& m, const Limit& limit, JudgedReading& shown) {
  Limit concerned = limit;
  if (m.bounds_below_only && limit.lower && limit.upper) concerned.upper.reset();
  if (m.bounds_above_only && limit.lower && limit.upper) concerned.lower.reset();
  // The ratio of simple acceptance belongs to the whole width, so the rule sees both bounds there.
  const Limit& seen = limit.decision.rule == Rule::simple ? limit : concerned;
  const auto out = decision_si::decide(input_of(m, seen), engine_rule(limit.decision));
  const Verdict verdict = verdict_of(out.outcome);
  const bool worse = !shown.value || badness(verdict) > badness(shown.verdict) ||
                     (verdict == shown.verdict && shown.margin && out.margin < *shown.margin);
  if (!worse) return;
  shown.verdict = verdict;
  shown.reason = reason_of(out.reason);
  shown.value = AnyQuantity(check.quantity, m.value);
  shown.standard_uncertainty = m.u;
  shown.margin = out.margin;
  shown.conformance_probability = out.conformance_probability;
  shown.settle.reset();
  if (verdict == Verdict::unproven)
    shown.settle = Settle{wording::settle(shown.reason, out.settling, unit_of(limit)), std::nullopt};
}

void hold_back(Reason reason, JudgedReading& shown) {
  shown.verdict =
      reason == Reason::not_taken || reason == Reason::input_missing ? Verdict::not_taken : Verdict::unproven;
  shown.reason = reason;
  shown.settle.reset();
  const Text text = wording::settle(reason, {}, unit_with_symbol("m", Kind::length));
  if (!text.empty()) shown.settle = Settle{text, std::nullopt};
}

void show_value(const Check& check, const MeasuredReading& measured, JudgedReading& shown) {
  if (measured.numbers.empty()) return;
  shown.value = AnyQuantity(check.quantity, measured.numbers.back().value);
  shown.standard_uncertainty = measured.numbers.back().u;
}

// Why the deciding limit may not decide, if so.
std::optional<Reason> limit_holds_back(const Check& check, const Snapshot& snapshot) {
  if (check.limits.empty()) return Reason::no_limit;
  const Limit& limit = check.limits.front();
  if (may_decide(limit.source.obtained, snapshot.adoptions.count(limit.id) != 0)) return std::nullopt;
  return limit.source.obtained == Obtained::common_practice ? Reason::limit_not_adopted
                                                            : Reason::limit_unconfirmed;
}

// What keeps the number from deciding, the first of these: nothing read, a limit that may not decide, an
// instrument out of date, the way it was measured, no doubt that could be stated.
std::optional<Reason> held_back_by(const Check& check, const MeasuredReading& measured,
                                   const Snapshot& snapshot) {
  const bool nothing_read =
      measured.blocked == Reason::not_taken || measured.blocked == Reason::input_missing;
  if (nothing_read) return measured.blocked;
  if (const auto reason = limit_holds_back(check, snapshot)) return reason;
  const auto out_of_date = [](const Measurement& m) { return !m.in_date; };
  if (std::any_of(measured.numbers.begin(), measured.numbers.end(), out_of_date))
    return Reason::instrument_out_of_date;
  if (measured.blocked) return measured.blocked;
  return measured.numbers.empty() && !measured.kept ? std::optional(Reason::inside_uncertainty)
                                                    : std::nullopt;
}

JudgedReading judge_measured(const Check& check, MeasuredReading measured, const Snapshot& snapshot) {
  JudgedReading shown = std::move(measured.shown);
  if (!check.limits.empty())
    for (const auto& m : measured.numbers)
      decide_number(check, m, check.limits.front(), shown);
  else
    show_value(check, measured, shown);
  if (measured.kept) {
    shown.verdict = *measured.kept ? Verdict::pass : Verdict::fail;
    shown.reason = *measured.kept ? Reason::test_kept : Reason::test_failed;
  }
  if (const auto reason = held_back_by(check, measured, snapshot)) hold_back(*reason, shown);
  return shown;
}

JudgedReading judge_confirmation(const Reading& reading) {
  const auto& body = std::get<Confirmation>(reading.body);
  JudgedReading shown;
  shown.reading_id = reading.id;
  shown.as_written = body.note;
  shown.verdict = body.done ? Verdict::pass : Verdict::fail;
  shown.reason = body.done ? Reason::confirmed : Reason::refused;
  return shown;
}

JudgedReading judge_pairing(const Check& check, const Snapshot& snapshot) {
  const Pairing& pairing = *check.pairing;
  JudgedReading shown;
  for (const auto* remark : {&pairing.things, &pairing.why, &pairing.instead})
    if (!remark->empty()) shown.remarks.push_back(*remark);
  if (pairing.goes == Goes::unknown) {
    hold_back(Reason::pair_unknown, shown);
  } else if (const auto reason = limit_holds_back(check, snapshot)) {
    hold_back(*reason, shown);
  } else {
    shown.verdict = pairing.goes == Goes::together ? Verdict::pass : Verdict::fail;
    shown.reason = pairing.goes == Goes::together ? Reason::suits : Reason::does_not_suit;
  }
  return shown;
}

std::vector<JudgedReading> judge_readings(const Check& check, const JudgeContext& in) {
  std::vector<JudgedReading> out;
  const auto at = in.state.standing.find(check.from.empty() ? check.id : check.from);
  if (at == in.state.standing.end()) return out;
  for (const auto& reading : at->second) {
    if (check.kind == CheckKind::confirmation)
      out.push_back(judge_confirmation(reading));
    else
      out.push_back(judge_measured(check, measure(check, reading, in), in.snapshot));
  }
  return out;
}

std::vector<JudgedReading> judge_sheet(const Check& check, const JudgeContext& in) {
  const SheetParts& parts = parts_of(*check.sheet);
  auto out = parts.takes_reading() ? judge_readings(check, in) : std::vector<JudgedReading>{};
  if (out.empty() && (!parts.takes_reading() || parts.says_enough_unread))
    out.push_back(judge_measured(check, measure_sheet(check, nullptr, in), in.snapshot));
  return out;
}

void take_worst(CheckFinding& finding) {
  const auto worse = [](const JudgedReading& a, const JudgedReading& b) {
    return badness(a.verdict) < badness(b.verdict);
  };
  const auto worst = std::max_element(finding.readings.begin(), finding.readings.end(), worse);
  if (worst == finding.readings.end()) return;
  finding.verdict = worst->verdict;
  finding.reason = worst->reason;
  if (finding.readings.size() > 1)
    finding.readings.front().remarks.push_back(wording::two_readings_stand(finding.readings.size()));
}

CheckFinding judge_check(const Check& check, const JudgeContext& in) {
  CheckFinding finding;
  finding.check = check.id;
  switch (check.kind) {
    case CheckKind::chain: {
      ChainMeasured chain = measure_chain(check, in);
      finding.chain = std::move(chain.shares);
      JudgedReading sum = judge_measured(check, std::move(chain.measured), in.snapshot);
      if (auto text = chain_correction(check, sum, in, unit_to_show(check, sum)))
        sum.remarks.push_back(*text);
      finding.readings = {std::move(sum)};
      break;
    }
    case CheckKind::elapsed:
      finding.readings = {judge_measured(check, measure_elapsed(check, in), in.snapshot)};
      break;
    case CheckKind::preload:
      finding.readings = {judge_measured(check, measure_preload(check, in), in.snapshot)};
      break;
    case CheckKind::pairing:
      finding.readings = {judge_pairing(check, in.snapshot)};
      break;
    case CheckKind::service:
      finding.readings = {judge_measured(check, measure_service(check, in), in.snapshot)};
      break;
    case CheckKind::sheet:
      finding.readings = judge_sheet(check, in);
      break;
    default:
      finding.readings = judge_readings(check, in);
  }
  take_worst(finding);
  finding.deviation_accepted = in.state.deviations.count(check.id) != 0;
  return finding;
}

void count(const CheckFinding& finding, Judgement& out) {
  int* counter[] = {&out.passed, &out.failed, &out.unproven, &out.not_taken};
  ++*counter[static_cast<std::size_t>(finding.verdict)];
}

Text open_text(const Check& check, const CheckFinding& finding) {
  const Text verdict = title_of(finding.verdict);
  const Text reason = title_of(finding.reason);
  return {check.title.en + ": " + verdict.en + ", " + reason.en,
          check.title.es + ": " + verdict.es + ", " + reason.es};
}

void list_open(const Step& step, const JudgeContext& in, Judgement& out) {
  for (const auto& check : step.checks) {
    const CheckFinding* finding = out.find(check.id);
    if (finding->verdict != Verdict::pass && !finding->deviation_accepted)
      out.open.push_back({step.id, check.id, open_text(check, *finding)});
  }
  if (in.state.steps_done.count(step.id) == 0)
    out.open.push_back({step.id, "", wording::step_open(step.title)});
  if (step.hold && in.state.holds_released.count(step.id) == 0)
    out.open.push_back({step.id, "", wording::hold_open(step.title)});
}

}  // namespace

const CheckFinding* Judgement::find(std::string_view check) const {
  const auto at =
      std::find_if(findings.begin(), findings.end(), [&](const CheckFinding& f) { return f.check == check; });
  return at == findings.end() ? nullptr : &*at;
}

const Unit& unit_to_show(const Check& check, const JudgedReading& reading) {
  if (reading.unit != nullptr && reading.unit->kind == check.quantity) return *reading.unit;
  for (const auto& limit : check.limits)
    for (const auto* bound : {&limit.upper, &limit.lower})
      if (*bound && (*bound)->unit->kind == check.quantity) return *(*bound)->unit;
  return suitable_unit(check.quantity, reading.value ? std::fabs(reading.value->si()) : 0, System::metric);
}

CheckFinding judge(const Snapshot& snapshot, const JobState& state, const Check& check) {
  return judge_check(check, {snapshot, state, std::nullopt});
}

Judgement judge(const Snapshot& snapshot, const JobState& state, std::optional<Length> tried_length) {
  const JudgeContext in{snapshot, state, tried_length};
  Judgement out;
  for (const auto& step : snapshot.plan.steps)
    for (const auto& check : step.checks) {
      out.findings.push_back(judge_check(check, in));
      count(out.findings.back(), out);
    }
  for (const auto& step : snapshot.plan.steps)
    list_open(step, in, out);
  return out;
}

}  // namespace pumpwright::job
