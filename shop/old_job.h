// A job of the shop from before this program, as its old records tell it: one row of a ledger. Kept in the
// log like everything else, a stream for each; a row handed in again with other words is a further event, and
// the last one counts.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "engine/quantity/parse.h"
#include "job/job_file.h"
#include "shop/job_card.h"
#include "store/event.h"

namespace pumpwright::shop {

inline constexpr const char* old_job_event = "old-job";

struct OldJob {
  std::string number;  // 1 to 64 bytes; unique among the old ones
  std::string serial;  // 1 to 80 bytes
  std::string pump, customer, seal;
  job::UtcTime came_in;                    // first second of its day
  std::optional<job::UtcTime> went_out{};  // likewise; nothing when it never did
  job::CameFor came_for = job::CameFor::not_said;
  std::string reason;                         // why it came in
  std::string found;                          // on stripping it
  std::string changed;                        // what was done, or said to change
  std::map<std::string, Written> readings{};  // by check of `checks_of_lives`; lengths with their unit
  std::string file;                           // where it was read
  std::size_t line = 0;
};

// The payload of its event, and back. Throws BadInput.
std::string encode_old_job(const OldJob& job);
OldJob decode_old_job(std::string_view payload);

// Whether both tell the same, wherever it was read.
bool tell_the_same(const OldJob& a, const OldJob& b);

// The card as its last event stands.
JobCard card_of(const OldJob& job, const store::StoredEvent& last);

}  // namespace pumpwright::shop
