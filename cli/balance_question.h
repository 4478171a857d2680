// What `pumpwright balance` was asked, and how it is said.
#pragma once

#include <string>

#include "job/sheets/balance_finding.h"

namespace pumpwright {

struct BalanceQuestion {
  std::string file;
  job::BalanceSheet balance;
};

std::string balance_text(const BalanceQuestion& question, const job::BalanceFinding& finding, bool colour);
std::string balance_json(const BalanceQuestion& question, const job::BalanceFinding& finding);

}  // namespace pumpwright
