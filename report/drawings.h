// The drawings of a job by name, as SVG or PNG: for the page, for a mail, for a poster on the bench.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "report/build_record.h"

namespace pumpwright::report {

// Names of every drawing this job has: "section", "seal", "faces" where a film was found, "sweep:<check>" for
// every sweep (with
// "/<reading>" when several readings of a check stand), "chain:<check>" for every stack-up.
std::vector<std::string> drawing_names(const BuildRecordInput& input);

enum class Picture { svg, png };

// Bytes of one drawing; nothing when the job has none of that name. PNG at 3 pixels per point (216 per inch).
std::optional<std::string> drawing(const BuildRecordInput& input, std::string_view name, Picture picture);

}  // namespace pumpwright::report
