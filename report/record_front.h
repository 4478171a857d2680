// The front page of the build record: title block, make-up, verdict counts and the half-section.
#pragma once

#include "report/build_record.h"
#include "report/page_flow.h"

namespace pumpwright::report {

void set_front_page(PageFlow& flow, const BuildRecordInput& input);

}  // namespace pumpwright::report
