#include "cli/sweep_question.h"

#include "cli/input_file.h"

namespace pumpwright {
namespace {

std::vector<SweepReading> readings_of(const SweepQuestion& question) {
  std::vector<SweepReading> readings;
  readings.reserve(question.rows.size());
  for (const auto& row : question.rows)
    readings.push_back({.angle = radians(row.angle.si), .reading = metres(row.reading.si)});
  return readings;
}

template <class Q>
SweepVerdict judged(const SweepQuestion& question, const Measured<Q>& measured) {
  const Limit<Q> limit{.lower = std::nullopt, .upper = Q{metres(question.limit.si)}};
  const auto verdict = decide(limit, measured, question.rule);
  return {.outcome = verdict.outcome,
          .reason = code(verdict.reason),
          .margin = verdict.margin,
          .guard = verdict.guard,
          .conformance_probability = verdict.conformance_probability,
          .settling = verdict.settling};
}

// Three readings and no graduation: there is a value, but nothing to say how far it can be trusted.
SweepVerdict undecidable(const SweepQuestion& question, Length value) {
  return {.outcome = Outcome::unproven,
          .reason = "uncertainty-unknown",
          .margin = metres(question.limit.si) - value,
          .guard = metres(0),
          .conformance_probability = std::nullopt,
          .settling = {}};
}

SweepVerdict verdict_on(const SweepQuestion& question, const SweepResult& sweep) {
  if (question.on_eccentricity) {
    const auto measured = eccentricity_measured(sweep);
    return measured ? judged(question, *measured) : undecidable(question, sweep.eccentricity.value);
  }
  const auto measured = tir_measured(sweep);
  return measured ? judged(question, *measured) : undecidable(question, sweep.tir.value);
}

SweepFinding evaluated(const SweepQuestion& question) {
  const auto readings = readings_of(question);
  const Instrument* instrument = question.instrument ? &*question.instrument : nullptr;
  if (question.setup.axis == Axis::radial) {
    auto sweep = evaluate_sweep(readings, question.setup, instrument);
    auto verdict = verdict_on(question, sweep);
    return {.sweep = std::move(sweep), .tilt = std::nullopt, .verdict = std::move(verdict)};
  }
  const Length radius = question.radius.value();
  const FaceGeometry geometry{.radius = radius, .seat_diameter = question.over.value_or(2.0 * radius)};
  auto face = evaluate_face_sweep(readings, question.setup, question.held, geometry, instrument);
  auto verdict = verdict_on(question, face.sweep);
  return {.sweep = std::move(face.sweep), .tilt = face.tilt, .verdict = std::move(verdict)};
}

}  // namespace

SweepFinding answer(const SweepQuestion& question) {
  return naming_file(question.file, [&] { return evaluated(question); });
}

}  // namespace pumpwright
