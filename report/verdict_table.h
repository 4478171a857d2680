// The table of checks: one row for every reading that stands, by stage in plan order, heads repeated on every
// page.
#pragma once

#include "report/build_record.h"
#include "report/page_flow.h"

namespace pumpwright::report {

void set_verdict_table(PageFlow& flow, const BuildRecordInput& input);

}  // namespace pumpwright::report
