// After the load: is what the tablets were told, and nothing else, in the store?
#pragma once

#include <cstdint>
#include <filesystem>
#include <span>
#include <string>
#include <vector>

#include "bench/load/faults.h"
#include "bench/load/writer.h"
#include "store/event.h"

namespace pumpwright::bench {

// What one tablet was told.
struct Told {
  std::string job;
  std::string device;
  std::span<const Acknowledged> events;
};

struct JobStart {
  std::string job;
  std::uint64_t seq = 0;  // of its last event before the load
};

// Every acknowledged key stands exactly once, where the acknowledgement said and under the number its device
// gave it; the load's jobs hold nothing that was not acknowledged; every chain and page of the file holds.
// Gives the rows the load wrote, in the order of acceptance. The store must not be open elsewhere.
std::vector<store::StoredEvent> check_store(const std::filesystem::path& file, std::span<const JobStart> jobs,
                                            std::span<const Told> told, Faults& faults);

}  // namespace pumpwright::bench
