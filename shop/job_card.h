// What the shop knows of a job without opening it: the line in a list, and what a search finds.
#pragma once

#include <cstdint>
#include <string>

namespace pumpwright::shop {

struct JobCard {
  std::string number, customer, pump, serial;
  std::string bench;    // empty: on none
  std::string waiting;  // for what; empty: for nothing
  bool released = false;
  std::string opened;      // UTC, ISO 8601
  std::string last_at;     // UTC, ISO 8601 with milliseconds
  std::string last_actor;  // person id
  std::uint64_t seq = 0;

  bool operator==(const JobCard&) const = default;
};

}  // namespace pumpwright::shop
