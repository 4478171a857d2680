// What puts a failing dimension chain right: the part that is off by as much as the sum is, or so much more
// or less shim.
#pragma once

#include <optional>

#include "job/judgement.h"
#include "job/measurement.h"

namespace pumpwright::job {

// For a chain whose sum lies outside its deciding limit, in `unit`. Nothing when it is inside, has no limit,
// or no part is named that corrects it.
std::optional<Text> chain_correction(const Check& check, const JudgedReading& sum, const JudgeContext& in,
                                     const Unit& unit);

}  // namespace pumpwright::job
