// Fills an empty shop with the demonstration: its people, instruments, adopted limits, and jobs with
// everything that happened to them, each event at its own time.
#pragma once

#include <string>
#include <vector>

namespace pumpwright {

struct DemoPerson {
  std::string id, name, role, password;
};

// Who works in the demonstration shop. The passwords are public: such a shop holds invented data only.
const std::vector<DemoPerson>& demo_people();

// Reads the job files of `jobs` and writes them into the shop in `data`. False, and nothing done, when that
// shop has people already. Throws BadInput.
bool fill_demo_shop(const std::string& data, const std::string& jobs);

}  // namespace pumpwright
