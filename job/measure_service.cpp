// Checks that are computed from the seal's service: its temperature, its margin over boiling, its spring.
#include <algorithm>
#include <cmath>

#include "job/measurement.h"
#include "job/seal_service.h"
#include "job/service_wording.h"

namespace pumpwright::job {
namespace {

MeasuredReading blocked_by(Reason reason, std::vector<Text> remarks) {
  MeasuredReading out;
  out.blocked = reason;
  out.shown.remarks = std::move(remarks);
  return out;
}

// Anywhere between two ends.
Measurement between(double low, double high) {
  Measurement m;
  m.value = (low + high) / 2;
  m.u = (high - low) / 2 / std::sqrt(3.0);
  return m;
}

MeasuredReading service_temperature(const JudgeContext& in) {
  const auto& temperature = in.snapshot.make_up.service.temperature;
  if (!temperature) return blocked_by(Reason::input_missing, {wording::service_temperature_missing()});
  MeasuredReading out;
  out.shown.as_written = temperature->text;
  out.shown.unit = temperature->unit;
  Measurement m;
  m.value = temperature->si;
  out.numbers = {m};
  return out;
}

// The chamber's pressure is known as a range only; the ratio is taken as anywhere in it.
MeasuredReading vapour_ratio(const Check& check, const JudgeContext& in) {
  const SealService service = seal_service(in, Asked::everything, in.tried_length);
  if (!service.margin) return blocked_by(Reason::not_computable, service.missing);
  MeasuredReading out;
  out.shown.remarks = wording::margin(service, in.snapshot.make_up);
  const Measurement m = between(service.ratio_low, service.ratio_high);
  out.numbers = {m};
  // Below the limit already at the liquid's own temperature, it fails whatever the faces do.
  const bool lower = !check.limits.empty() && check.limits.front().lower.has_value();
  if (service.film_in_doubt() && lower && m.value >= check.limits.front().lower->si)
    out.blocked = Reason::not_computable;
  return out;
}

MeasuredReading spring_force(const JudgeContext& in) {
  const SealService service = seal_service(in, Asked::forces, in.tried_length);
  if (!service.spring) return blocked_by(Reason::not_computable, service.missing);
  if (!service.length->measured)
    return blocked_by(Reason::input_missing, {wording::working_length_missing()});
  MeasuredReading out;
  out.shown.unit = in.snapshot.make_up.seal.sheet->spring_force->unit;
  out.shown.remarks = wording::spring_state(service, *out.shown.unit);
  Measurement m;
  m.value = service.spring->force.value.value();
  m.u = service.spring->force.u.value();
  m.never_negative = true;
  out.numbers = {m};
  return out;
}

MeasuredReading face_pv(const JudgeContext& in) {
  const SealService service = seal_service(in, Asked::loads, in.tried_length);
  if (!service.load) return blocked_by(Reason::not_computable, service.missing);
  MeasuredReading out;
  out.shown.unit = in.snapshot.make_up.seal.sheet->pv_limit->unit;
  out.shown.remarks = service.assumed;
  out.numbers = {between(service.pv_low.value(), service.pv_high.value())};
  return out;
}

// Share of the force that presses a standing head which its tipping asks for.
MeasuredReading tracking_share(const JudgeContext& in) {
  constexpr double least_force_n = 1e-9;  // a spring that presses with nothing follows nothing
  const SealService service = seal_service(in, Asked::loads, in.tried_length);
  if (!service.tracking) return blocked_by(Reason::input_missing, {wording::seat_sweep_missing()});
  const seal::Tracking& tracking = *service.tracking;
  const MakeUp& make_up = in.snapshot.make_up;
  const double available_n = std::max(least_force_n, tracking.available.value());
  const double newtons_a_radian =
      make_up.seal.sheet->ring_mass->si * make_up.speed.si * tracking.sliding.value();
  MeasuredReading out;
  out.shown.remarks = {wording::tracking(tracking, *make_up.seal.sheet->ring_mass->unit)};
  Measurement m;
  m.value = tracking.required.value() / available_n;
  m.u = newtons_a_radian * tracking.tilt_u.value() / available_n;
  m.never_negative = true;
  out.numbers = {m};
  return out;
}

MeasuredReading face_margin(const JudgeContext& in) {
  const SealService service = seal_service(in, Asked::loads, in.tried_length);
  if (!service.overlap) return blocked_by(Reason::input_missing, {wording::sweeps_of_faces_missing()});
  MeasuredReading out;
  out.shown.unit = in.snapshot.make_up.seal.sheet->seat_face_outer->unit;
  out.shown.remarks = {wording::track(service.overlap->track_width, *out.shown.unit)};
  Measurement m;
  m.value = std::min(service.overlap->outer_margin, service.overlap->inner_margin).value();
  out.numbers = {m};
  return out;
}

}  // namespace

MeasuredReading measure_service(const Check& check, const JudgeContext& in) {
  switch (check.judged) {
    case Judged::service_temperature:
      return service_temperature(in);
    case Judged::spring_force:
      return spring_force(in);
    case Judged::face_pv:
      return face_pv(in);
    case Judged::tracking_share:
      return tracking_share(in);
    case Judged::face_margin:
      return face_margin(in);
    default:
      return vapour_ratio(check, in);
  }
}

}  // namespace pumpwright::job
