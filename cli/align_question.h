// What `pumpwright align` was asked, and what it found.
#pragma once

#include <array>
#include <optional>
#include <string>

#include "cli/align_file.h"

namespace pumpwright {

struct AlignQuestion {
  std::string file;
  AlignFile align;
};

// What to do at one pair of feet, left and right foot alike.
struct FootPlan {
  alignment::FootMove wanted;
  alignment::BoundMove possible;            // within shims and bolts
  std::optional<alignment::ShimPack> pack;  // from the drawer; see `replaces`
  bool replaces = false;  // the pack takes the place of what is under the foot; false: it is added
  Length raised;          // by the pack, or as possible
};

struct AlignFinding {
  std::array<alignment::DialResult, 2> dials;
  std::optional<alignment::SoftFoot> soft_foot;
  std::optional<alignment::ShimPack> soft_shim;  // from the drawer
  alignment::ShaftLine cold;
  alignment::ShaftLine warm;  // judged
  alignment::AlignmentVerdict offset;
  alignment::AlignmentVerdict angularity;
  FootPlan front;
  FootPlan back;
  alignment::ShaftLine after;  // warm, with the packs in and the pushes done
  bool after_within = false;   // after is within the tolerance, as calculated
  // "pass", "fail", "unproven"; the reason is a code of decision.h or one of "uncertainty-not-known",
  // "sweep-disagrees", "soft-foot".
  std::string verdict;
  std::string reason;
};

// BadInput as the engine's.
AlignFinding answer(const AlignQuestion& question);

std::string align_text(const AlignQuestion& question, const AlignFinding& finding, bool colour);
std::string align_json(const AlignQuestion& question, const AlignFinding& finding);

}  // namespace pumpwright
