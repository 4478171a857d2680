// Events as job files write them.
#pragma once

#include <map>
#include <string>

#include "job/event.h"
#include "job/json_reader.h"
#include "job/snapshot.h"

namespace pumpwright::job {

// One event. Bare numbers of a reading take the unit of its instrument, which must be one of `instruments`.
// Throws BadInput for unknown keys and words, times that are none, diameters that are not positive, and the
// like.
Event decode_event(const JsonReader& json, const std::map<std::string, ShopInstrument>& instruments);

}  // namespace pumpwright::job
