// What a strip-down says of the cause, in words: the command prints them, page and record show them.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "job/cause_finding.h"

namespace pumpwright::job {

// As precise as estimates are: "over 95 %", "about 60 %", "under 5 %".
Text probability_text(double probability);

// "Most likely: liquid boiled between the faces (about 85 %)", or that the evidence does not tell, and
// between what.
Text headline_text(const CauseTables& tables, const CauseFinding& finding);

// What of it is worth a person's eye: the leading causes and all that are not unlikely, the evidence that
// moves a cause's odds, what is worth looking at next.
std::span<const reliability::RankedCause> causes_to_show(const CauseFinding& finding);
std::span<const reliability::FindingWeight> evidence_to_show(const reliability::RankedCause& cause);
std::span<const reliability::NextFinding> next_to_show(const CauseFinding& finding);

// Of a finding's part: "faces", "told" …
Text part_text(std::string_view part);

// How a finding stands: "there", "not there", with who says so when it is no hand.
Text seen_text(const CauseFinding& finding, std::size_t which);

// How far the faces moved against each other; empty when the widths were not measured.
Text track_text(const CauseFinding& finding);

}  // namespace pumpwright::job
