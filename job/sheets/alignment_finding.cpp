#include "job/sheets/alignment_finding.h"

namespace pumpwright::job {
namespace {

using alignment::AlignmentVerdict;
using alignment::ShimPack;

std::optional<ShimPack> pack_of(const AlignmentSheet& file, Length thickness) {
  if (!file.shims) return std::nullopt;
  std::vector<Length> stock;
  for (const auto& shim : file.shims->stock)
    stock.push_back(shim.quantity().as<Length>());
  return alignment::nearest_pack(thickness, stock, file.shims->most);
}

// With what is under the foot known, a whole new pack; else shims to add, where the foot has to rise.
FootPlan plan_for(const AlignmentSheet& file, const alignment::FootMove& wanted,
                  const alignment::FootRoom& room) {
  FootPlan plan{.wanted = wanted, .possible = alignment::within_room(wanted, room), .pack = {}, .raised = {}};
  const Length raise = plan.possible.move.raise;
  plan.raised = raise;
  plan.replaces = room.shims_under.has_value();
  const Length thickness = plan.replaces ? *room.shims_under + raise : raise;
  if (plan.replaces || raise.value() > 0) plan.pack = pack_of(file, thickness);
  if (plan.pack) plan.raised = raise - plan.pack->left;
  return plan;
}

alignment::FootMove done(const FootPlan& plan) {
  return {plan.raised, plan.possible.move.push, std::nullopt, std::nullopt};
}

// The worse of the two; nothing passes over a soft foot or a sweep that does not fit a turn.
void conclude(AlignmentFinding& f) {
  const auto* worst = &f.offset;
  const auto rank = [](const AlignmentVerdict& v) {
    return v.outcome == Outcome::fail ? 2 : v.outcome == Outcome::unproven ? 1 : 0;
  };
  if (rank(f.angularity) > rank(*worst)) worst = &f.angularity;
  f.verdict = code(worst->outcome);
  f.reason = worst->reason;
  if (!f.dials[0].valid || !f.dials[1].valid) {
    f.verdict = "unproven";
    f.reason = "sweep-disagrees";
  }
  if (f.soft_foot && !f.soft_foot->soft.empty()) {
    f.verdict = "unproven";
    f.reason = "soft-foot";
  }
}

}  // namespace

AlignmentFinding alignment_finding(const AlignmentSheet& file) {
  AlignmentFinding f;
  if (file.soft_foot) {
    f.soft_foot = alignment::soft_foot_of(*file.soft_foot, file.soft_foot_limit);
    if (f.soft_foot->shim) f.soft_shim = pack_of(file, *f.soft_foot->shim);
  }
  for (std::size_t d = 0; d < 2; ++d)
    f.dials[d] = alignment::evaluate_dial(file.dials[d], &file.instrument, file.sweep_tolerance);
  f.cold = alignment::shaft_line(file.dials, f.dials, file.coupling);
  f.warm = alignment::warm_line(f.cold, file.coupling, file.moved, file.fixed);
  f.offset = alignment::judge_offset(f.warm, file.tolerance);
  f.angularity = alignment::judge_angularity(f.warm, file.tolerance);
  const auto moves = alignment::moves_for(f.warm, file.coupling, file.moved);
  f.front = plan_for(file, moves.front, file.front_room);
  f.back = plan_for(file, moves.back, file.back_room);
  f.after = alignment::line_after(f.warm, file.coupling, file.moved, done(f.front), done(f.back));
  f.after_within =
      f.after.offset() <= file.tolerance.offset && f.after.angularity() <= file.tolerance.angularity;
  conclude(f);
  if (!file.instrument.in_date) {
    f.verdict = "unproven";
    f.reason = code(Reason::instrument_out_of_date);
  }
  return f;
}

}  // namespace pumpwright::job
