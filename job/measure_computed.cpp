// Checks that are computed from others: dimension chains, elapsed times, preload.
#include <cmath>

#include <fmt/format.h>

#include "engine/assembly/chain.h"
#include "engine/quantity/bad_input.h"
#include "job/measurement.h"
#include "job/wording.h"

namespace pumpwright::job {
namespace {

Link dimension_link(const ChainPart& part, const Dimension& d) {
  Link link;
  link.name = part.name.en;
  link.coefficient = part.coefficient;
  link.nominal = d.nominal;
  link.spread = Spread::rectangular;
  link.lower_deviation = d.lower ? *d.lower - d.nominal : metres(0);
  link.upper_deviation = d.upper ? *d.upper - d.nominal : metres(0);
  return link;
}

struct DatedLink {
  Link link;
  bool in_date = true;
  const Unit* unit = nullptr;
};

// The link of one part, or nothing when its reading or dimension is not there.
std::optional<DatedLink> link_of(const ChainPart& part, const JudgeContext& in) {
  if (!part.dimension.empty()) {
    const Dimension* d = in.snapshot.make_up.dimension(part.dimension);
    if (d == nullptr) return std::nullopt;
    return DatedLink{dimension_link(part, *d)};
  }
  const Check* check = in.snapshot.plan.find(part.check);
  if (check == nullptr) return std::nullopt;
  const auto mean = mean_of(*check, in);
  if (!mean) return std::nullopt;
  return DatedLink{measured_link(part.name.en, part.coefficient, metres(mean->value_si), metres(mean->u_si)),
                   mean->in_date, mean->unit};
}

ChainShare share_of(const ChainPart& part, const Link& link, double fraction) {
  const auto variance = variance_of(distribution_of(link));
  return {part.name, part.coefficient, AnyQuantity(link.nominal), variance ? std::sqrt(*variance) : 0,
          fraction};
}

}  // namespace

ChainMeasured measure_chain(const Check& check, const JudgeContext& in) {
  ChainMeasured out;
  Chain chain;
  bool in_date = true;
  for (const auto& part : check.chain) {
    const auto link = link_of(part, in);
    if (link) {
      chain.links.push_back(link->link);
      in_date = in_date && link->in_date;
      if (out.measured.shown.unit == nullptr) out.measured.shown.unit = link->unit;
      continue;
    }
    out.measured.blocked = Reason::input_missing;
    out.measured.shown.remarks.push_back(wording::missing_input(part.name));
  }
  if (out.measured.blocked || chain.links.empty()) {
    out.measured.blocked = Reason::input_missing;
    return out;
  }
  const ChainAnalysis analysis = analyse(chain);
  for (std::size_t i = 0; i < chain.links.size(); ++i)
    out.shares.push_back(
        share_of(check.chain[i], chain.links[i], i < analysis.share.size() ? analysis.share[i].fraction : 0));
  Measurement m;
  m.value = analysis.mean.value();
  m.u = analysis.sd ? analysis.sd->value() : 0;
  m.in_date = in_date;
  out.measured.numbers = {m};
  return out;
}

MeasuredReading measure_elapsed(const Check& check, const JudgeContext& in) {
  MeasuredReading out;
  const auto from = in.state.steps_done.find(check.starts_at);
  const auto to = in.state.steps_done.find(check.ends_at);
  if (from == in.state.steps_done.end() || to == in.state.steps_done.end()) {
    out.blocked = Reason::not_taken;
    return out;
  }
  out.shown.as_written =
      fmt::format("{} … {}", format_utc_time(from->second.time), format_utc_time(to->second.time));
  Measurement m;
  m.value = elapsed(from->second.time, to->second.time).value();
  out.numbers = {m};
  return out;
}

MeasuredReading measure_preload(const Check& check, const JudgeContext& in) {
  MeasuredReading out;
  if (!in.snapshot.fastener) {
    out.blocked = Reason::not_computable;
    return out;
  }
  const Check* torque = in.snapshot.plan.find(check.from);
  const auto set = torque == nullptr ? std::nullopt : mean_of(*torque, in);
  if (!set || set->value_si <= 0) {
    out.blocked = Reason::input_missing;
    return out;
  }
  const FastenerFigures& f = *in.snapshot.fastener;
  const double error = std::min(0.99, 2 * set->u_si / set->value_si);
  const ShareRange share = share_of_proof_load(
      preload_from_torque({newton_metres(set->value_si), error}, f.thread.diameter, f.nut_factor), f.thread,
      f.proof_stress);
  out.shown.remarks.push_back(wording::preload_range(share.smallest, share.largest));
  Measurement m;
  m.value = share.largest;
  m.in_date = set->in_date;
  out.numbers = {m};
  return out;
}

}  // namespace pumpwright::job
