// Reading quantities out of JSON texts, with the place of the mistake.
#pragma once

#include "engine/quantity/parse.h"
#include "job/json_reader.h"

namespace pumpwright::job {

// A text such as "7 thou". `default_unit`: of a bare number; null when a unit must be written.
Written decode_written(const JsonReader& json, Kind kind, const Unit* default_unit = nullptr);

// The same, above zero.
Written decode_positive(const JsonReader& json, Kind kind, const Unit* default_unit = nullptr);
Written decode_positive_length(const JsonReader& json);

}  // namespace pumpwright::job
