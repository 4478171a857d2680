// Derives the plan: the same make-up, step data and catalog always give the same plan.
#pragma once

#include <span>

#include "catalog/catalog.h"
#include "job/limit.h"
#include "job/make_up.h"
#include "job/plan.h"
#include "job/step_texts.h"

namespace pumpwright::job {

// A limit that a job, a customer or a pump family sets on one check of the plan. Its bounds are read once the
// check, and with it what is measured, is known.
struct LimitOverride {
  std::string check;
  Limit limit;                         // without bounds
  std::string lower_text, upper_text;  // as written; empty: no such bound
  std::string place;                   // JSON pointer of the override in its file
};

// Composes the steps whose conditions hold for the make-up, and finds the limits of their checks in catalog
// and make-up. A limit whose value the make-up or the catalog does not have is left out; a check without any
// limit stays in the plan and is judged "no limit". All competing limits are kept, the deciding one first.
//
// `make_up` has been completed from the catalog. Throws BadInput when the step data name a table, row or
// column that the catalog does not have, when two steps or checks of the plan share an id, or when an
// override names no check.
Plan generate_plan(const MakeUp& make_up, std::span<const StepText> steps, const Catalog& catalog,
                   std::span<const LimitOverride> overrides);

}  // namespace pumpwright::job
