// How a balance's amounts are shown: in oz·in when the rotor's mass is written in an inch unit, else in g·mm.
#pragma once

#include <string>

#include "job/sheets/balance_sheet.h"

namespace pumpwright::job {

bool in_inches(const BalanceSheet& sheet);

// "296 g·mm", to three digits where there are no more before the point.
std::string unbalance_text(const BalanceSheet& sheet, rotor::Unbalance amount);

}  // namespace pumpwright::job
