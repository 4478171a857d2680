// How long each pump that left the shop stayed out, from the record: what the returns page works with, and
// the list that `pumpwright returns` reads.
//
// A build goes out when it is released. It ended when the next job of the same serial number was opened: as
// "replaced" when that job says the pump came in for another reason than a fault, else as "returned".
// Otherwise it is still out. Times are on the calendar. Nothing of people.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/reliability/life.h"
#include "shop/job_card.h"

namespace pumpwright::shop {

// A build as life data sees it. The texts belong to whoever made it.
struct KnownBuild {
  std::string_view number, serial, customer, pump, seal;
  job::CameFor came_for = job::CameFor::not_said;
  std::int64_t opened_s = 0;            // since 1970
  std::optional<std::int64_t> out_s{};  // of its release; nothing while it is not released
  std::array<std::optional<double>, checks_of_lives.size()> readings{};  // SI
};

struct BuildLife {
  const KnownBuild* build = nullptr;
  double days = 0;
  reliability::Ending ending = reliability::Ending::running;
  bool reason_said = true;  // false: it came back, and the record does not say for what
};

// Released builds with a serial number, by the time at which they were opened; how long those that are still
// out have been so is not said. `builds` in any order; they must outlive the lives.
std::vector<BuildLife> lives_in(const std::vector<KnownBuild>& builds);

// The same as of `now_s`. A pump that was opened again in the second of its release was not out.
std::vector<BuildLife> as_of(const std::vector<BuildLife>& lives, std::int64_t now_s);

// RFC 4180, a line of names first: pump, job, group (the pump's family), customer, seal, out (the day it went
// out), time ("213.4 d"), event ("returned", "running", "replaced"), and a column for each of
// `checks_of_lives`, lengths in µm.
std::string lives_csv(const std::vector<BuildLife>& lives);

}  // namespace pumpwright::shop
