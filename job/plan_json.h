// The plan as JSON, for snapshots and for programs that read `pumpwright plan --json`.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "job/json_reader.h"
#include "job/plan.h"

namespace pumpwright::job {

nlohmann::json encode_written(const Written& written);
Written decode_frozen(const JsonReader& json);  // the inverse of encode_written

nlohmann::json encode_source(const Source& source);
Source decode_source(const JsonReader& json);

nlohmann::json encode_limit(const Limit& limit);

nlohmann::json encode_plan(const Plan& plan);
Plan decode_plan(const JsonReader& json);

}  // namespace pumpwright::job
