// A job as its events make it: what lists, memory and the shelf of open jobs begin with.
#pragma once

#include <span>

#include "job/job_log.h"
#include "store/event.h"

namespace pumpwright::shop {

// Throws BadInput when an event does not fit.
job::JobLog log_of(std::span<const store::StoredEvent> events);

}  // namespace pumpwright::shop
