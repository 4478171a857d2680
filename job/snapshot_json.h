// The frozen form of a snapshot inside a job file. Exact: what is decoded equals what was encoded, bit for
// bit.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "job/json_reader.h"
#include "job/snapshot.h"

namespace pumpwright::job {

nlohmann::json encode_snapshot(const Snapshot& snapshot);

// Throws BadInput for anything missing, unknown or out of range.
Snapshot decode_snapshot(const JsonReader& json);

}  // namespace pumpwright::job
