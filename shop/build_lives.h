// How long each pump that left the shop stayed out, from the record: the list that `pumpwright returns`
// reads.
//
// A build goes out when it is released. It came back when a job of the same serial number was opened after
// it; otherwise it is still out. Why it came back the record does not say in one word: a pump brought in for
// another reason stands here as returned. Times are on the calendar. Nothing of people.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "shop/job_card.h"
#include "store/index.h"

namespace pumpwright::shop {

struct BuildLife {
  JobCard card;
  double days = 0;  // over 0
  bool returned = false;
  // The newest standing one of each asked check, in their order, SI; a sweep by its TIR.
  std::vector<std::optional<double>> readings;
};

// Released jobs with a serial number among `cards`, which stand in the order in which the jobs were opened;
// no readings.
std::vector<BuildLife> lives_of(std::span<const JobCard> cards, std::int64_t now_ms);

// Released jobs with a serial number, in the order in which they were opened, as of `now_ms`. `checks`: whose
// readings are wanted.
std::vector<BuildLife> build_lives(const store::Index& index, const std::vector<std::string>& checks,
                                   std::int64_t now_ms);

// The checks whose readings may go with an early return: sweeps and end float.
const std::vector<std::string>& checks_of_lives();

// RFC 4180, a line of names first: pump, job, group (the pump's family), time ("213.4 d"), event ("returned",
// "running"), and a column for each check, lengths in µm.
std::string lives_csv(const std::vector<BuildLife>& lives, const std::vector<std::string>& checks);

}  // namespace pumpwright::shop
