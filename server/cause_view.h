// Why a pump came back, as the page shows it: what is looked for part by part, the causes the evidence speaks
// for, and what to look at next.
#pragma once

#include <optional>

#include <nlohmann/json_fwd.hpp>

#include "job/cause_tables.h"
#include "job/job_state.h"
#include "job/judgement.h"
#include "job/sheets/strip_down_sheet.h"
#include "job/snapshot.h"

namespace pumpwright::server {

// Of the catalog built into the program.
const job::CauseTables& shipped_causes();

// {"parts": [{"part", "title", "findings"}], "cause": null while the strip-down was not read}.
nlohmann::json cause_view(const job::Snapshot& snapshot, const job::JobState& state,
                          const job::Judgement& judgement);

// {"cause"} of a strip-down that is being written down, with what the job's own numbers say.
nlohmann::json tried_cause_view(const job::StripDownSheet& sheet, const job::Judgement& judgement);

}  // namespace pumpwright::server
