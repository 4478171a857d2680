// The jobs from before this program, as the log holds them.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>

#include "shop/old_job.h"
#include "store/event_log.h"

namespace pumpwright::shop {

struct OldTaken {
  std::size_t taken = 0;  // new, or told in other words than before
  std::size_t known = 0;  // told like that before: nothing was written
};

// Writes them in pieces, some hundreds with one sync of the disk; what was written when it throws stays, and
// handing all in again finishes it. Throws BadInput and Refused::conflict as an append does.
OldTaken take_old_jobs(store::EventLog& events, const std::string& actor, const std::string& device,
                       std::span<const OldJob> jobs);

// As it was told last.
std::optional<OldJob> old_job(const store::EventLog& events, const std::string& number);

}  // namespace pumpwright::shop
