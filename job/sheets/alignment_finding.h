// What two coupled shafts need to stand in line, found from its sheet.
#pragma once

#include <array>
#include <optional>
#include <string>

#include "job/sheets/alignment_sheet.h"

namespace pumpwright::job {

// What to do at one pair of feet, left and right foot alike.
struct FootPlan {
  alignment::FootMove wanted;
  alignment::BoundMove possible;            // within shims and bolts
  std::optional<alignment::ShimPack> pack;  // from the drawer; see `replaces`
  bool replaces = false;  // the pack takes the place of what is under the foot; false: it is added
  Length raised;          // by the pack, or as possible
};

struct AlignmentFinding {
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
AlignmentFinding alignment_finding(const AlignmentSheet& sheet);

}  // namespace pumpwright::job
