// The load itself: a shop full of tablets that write and listen for a while, then the question whether
// anything was lost or came twice, and what it cost.
#pragma once

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <filesystem>

#include "bench/load/faults.h"
#include "bench/load/machine.h"

namespace pumpwright::bench {

struct LoadSetting {
  std::filesystem::path program;      // pumpwright
  std::filesystem::path demo_jobs;    // the job files of the demonstration
  std::filesystem::path directory;    // made, on the disk that is measured; must not be there
  std::size_t tablets = 50;           // 1 … 80; two at each job
  std::chrono::seconds duration{60};  // up to 600
  std::chrono::milliseconds think{0};
  bool views = false;  // each tablet reads its job anew after every change
};

struct Spread {
  std::size_t count = 0;
  double p50_ms = 0.0, p99_ms = 0.0, max_ms = 0.0;
};

struct LoadFigures {
  Machine machine;
  std::size_t tablets = 0, jobs = 0;
  double seconds = 0.0;      // from the first reading to the last acknowledgement
  std::size_t events = 0;    // acknowledged, each once
  std::size_t resent = 0;    // handed in twice on purpose
  std::size_t messages = 0;  // heard, all tablets together
  double events_per_s = 0.0;
  Spread acknowledged;  // from handing in to the acknowledgement
  Spread seen;          // from handing in to hearing of it on the other tablet
  Spread viewed;        // reading the job anew
  double peak_resident_mib = 0.0;
  double server_cores = 0.0;  // CPU seconds a second
  double load_cores = 0.0;    // the same of this program
  double events_per_transaction = 0.0;
  double plain_events_per_s = 0.0;  // plain SQLite, same rows, as many transactions; 0: not measured
};

// Throws std::runtime_error when the load could not begin or not end; what went wrong in between is in
// `faults`.
LoadFigures run_load(const LoadSetting& setting, Faults& faults);

}  // namespace pumpwright::bench
