// Checks that are computed from the seal's service: its temperature, its margin over boiling, its spring.
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
  Measurement m;
  m.value = (service.ratio_low + service.ratio_high) / 2;
  m.u = (service.ratio_high - service.ratio_low) / 2 / std::sqrt(3.0);
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

}  // namespace

MeasuredReading measure_service(const Check& check, const JudgeContext& in) {
  switch (check.judged) {
    case Judged::service_temperature:
      return service_temperature(in);
    case Judged::spring_force:
      return spring_force(in);
    default:
      return vapour_ratio(check, in);
  }
}

}  // namespace pumpwright::job
