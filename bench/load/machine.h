// On what a figure was measured: a figure without its machine says nothing.
#pragma once

#include <filesystem>
#include <string>

namespace pumpwright::bench {

struct Machine {
  std::string processor;
  unsigned cores = 0;
  double memory_gib = 0.0;
  std::string system;       // kernel and its release
  std::string file_system;  // of the directory that was measured
  double load_1min = 0.0;   // how many others wanted a core
  double sync_ms = 0.0;     // middle of 50 syncs of 4 KiB appended to a file there
};

// Takes a moment: it syncs.
Machine describe_machine(const std::filesystem::path& directory);

}  // namespace pumpwright::bench
