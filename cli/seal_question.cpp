#include "cli/seal_question.h"

#include <algorithm>
#include <array>

#include "cli/command.h"
#include "engine/quantity/parse.h"
#include "engine/seal/atmosphere.h"

namespace pumpwright {
namespace {

// The checks a seal stands or falls with.
constexpr std::array<std::string_view, 10> seal_checks{
    "elastomer-temperature", "liquid-elastomer", "face-pair",       "coil-hand",    "fastener-hand",
    "vapour-margin",         "working-length",   "seat-squareness", "spring-force", "lubricant-elastomer"};

Written read(const std::string& text, Kind kind, const char* flag) {
  return parse_written(text, kind, {.field = flag});
}

void refuse_unknown_air(const std::string& text, Length altitude) {
  try {
    seal::standard_atmosphere(altitude);
  } catch (const BadInput& e) {
    throw bad_argument("--altitude", text, e.what_was_wrong().expected);
  }
}

// Whether this check is one of the seal's.
bool of_seal(const job::CheckFinding& finding) {
  return std::find(seal_checks.begin(), seal_checks.end(), finding.check) != seal_checks.end();
}

job::Verdict verdict_of(const std::vector<job::CheckFinding>& checks) {
  const auto any = [&](job::Verdict v) {
    return std::any_of(checks.begin(), checks.end(), [v](const auto& c) { return c.verdict == v; });
  };
  if (any(job::Verdict::fail)) return job::Verdict::fail;
  return checks.empty() || any(job::Verdict::unproven) || any(job::Verdict::not_taken)
             ? job::Verdict::unproven
             : job::Verdict::pass;
}

}  // namespace

SealQuestion ask(const TriedConditions& tried, const job::Snapshot& snapshot) {
  SealQuestion q{snapshot, {}, false};
  job::Service& service = q.snapshot.make_up.service;
  const auto take = [&](const std::string& text, Kind kind, const char* flag, auto& field) {
    if (text.empty()) return;
    field = read(text, kind, flag);
    q.tried = true;
  };
  take(tried.temperature, Kind::temperature, "--temperature", service.temperature);
  take(tried.suction, Kind::pressure_gauge, "--suction", service.suction_pressure);
  take(tried.head, Kind::pressure_difference, "--head", service.head_pressure);
  take(tried.altitude, Kind::length, "--altitude", service.altitude);
  take(tried.speed, Kind::speed, "--speed", q.snapshot.make_up.speed);
  if (q.snapshot.make_up.speed.si <= 0) throw bad_argument("--speed", tried.speed, "a speed above zero");
  if (service.head_pressure && service.head_pressure->si < 0)
    throw bad_argument("--head", tried.head, "a pressure not below zero");
  if (service.altitude && !tried.altitude.empty())
    refuse_unknown_air(tried.altitude, metres(service.altitude->si));
  if (tried.length.empty()) return q;
  const Written length = read(tried.length, Kind::length, "--length");
  if (length.si <= 0 || length.si > 1)
    throw bad_argument("--length", tried.length, "a length above zero, at most 1 m");
  q.length = metres(length.si);
  q.tried = true;
  return q;
}

SealFinding answer(const SealQuestion& question, const job::JobState& state) {
  SealFinding out;
  out.service = job::seal_service({question.snapshot, state}, job::Asked::everything, question.length);
  const job::Judgement judgement = job::judge(question.snapshot, state);
  std::copy_if(judgement.findings.begin(), judgement.findings.end(), std::back_inserter(out.checks), of_seal);
  out.verdict = verdict_of(out.checks);
  return out;
}

}  // namespace pumpwright
