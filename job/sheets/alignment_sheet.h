// The alignment file: two machines, the indicators swept over their coupling, feet and shims, as JSON.
// docs/align.schema.json publishes the format.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/assembly/shaft_alignment_feet.h"
#include "engine/assembly/shaft_alignment_shims.h"
#include "engine/quantity/parse.h"
#include "job/json_reader.h"

namespace pumpwright::job {

constexpr int align_file_version = 1;

// From which machine's outer end one looks along the shafts; "right" is right from there.
enum class SeenFrom { fixed_machine, moved_machine };

struct ShimDrawer {
  std::vector<Written> stock;
  std::size_t most = 3;
};

struct AlignmentSheet {
  std::string name;
  SeenFrom seen_from = SeenFrom::fixed_machine;
  Written offset_tolerance;
  Written angularity_tolerance;
  alignment::AlignmentTolerance tolerance;
  Length coupling{};  // x of its middle
  Length sweep_tolerance = alignment::sweep_tolerance;
  Instrument instrument;
  std::array<std::string, 2> dial_names;
  std::array<alignment::Dial, 2> dials;
  alignment::Feet moved;
  std::optional<alignment::Feet> fixed;
  alignment::FootRoom front_room, back_room;
  std::optional<ShimDrawer> shims;
  std::optional<std::array<Length, 4>> soft_foot;  // in the order of alignment::Foot
  Length soft_foot_limit = alignment::soft_foot_limit;
};

// Throws BadInput whose place is a JSON pointer.
AlignmentSheet decode_alignment(const JsonReader& json);

// What is known before a sweep: all but indicator, dials and soft feet. Throws as above.
AlignmentSheet alignment_plan(const JsonReader& json);

// "12", "3", "4:30" as an angle from the top, clockwise: 0, 90, 135 degrees. Nothing when it is no clock
// position.
std::optional<Angle> clock_position(std::string_view text);

}  // namespace pumpwright::job
