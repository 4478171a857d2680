#include "shop/job_fold.h"

namespace pumpwright::shop {

job::JobLog log_of(std::span<const store::StoredEvent> events) {
  job::JobLog log;
  for (const auto& e : events)
    log.apply({e.seq, e.type, e.actor, e.accepted_at, e.payload});
  return log;
}

}  // namespace pumpwright::shop
