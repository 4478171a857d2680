// What the shop knows of a job without opening it: the line in a list, what a search finds, and what life
// data is made of.
#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <string>
#include <string_view>

#include "job/job_file.h"

namespace pumpwright::shop {

// The checks whose readings may go with an early return: sweeps and end float, all lengths.
inline constexpr std::array<std::string_view, 7> checks_of_lives{
    "impeller-sweep", "sleeve-runout",   "shaft-runout", "register-runout",
    "face-runout",    "seat-squareness", "end-float"};

struct JobCard {
  std::string number, customer, pump, serial;
  std::string seal;  // how it is made: "elastomer-bellows, EPDM, B/V"; empty: not known
  job::CameFor came_for = job::CameFor::not_said;
  std::string bench;    // empty: on none
  std::string waiting;  // for what; empty: for nothing
  bool released = false;
  bool old = false;         // from records older than this program (old_job.h): there is no job behind it
  std::string opened;       // UTC, ISO 8601
  std::string released_at;  // likewise; empty: not released
  std::string last_at;      // UTC, ISO 8601 with milliseconds
  std::string last_actor;   // person id
  std::uint64_t seq = 0;
  // Of a released job: by check, the newest standing one of `checks_of_lives`, SI.
  std::map<std::string, double> readings{};

  bool operator==(const JobCard&) const = default;
};

}  // namespace pumpwright::shop
