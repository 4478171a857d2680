// What the catalog knows about the seal of a make-up: the two faces' materials and their friction. Frozen
// with the plan.
#pragma once

#include <optional>

#include "catalog/catalog.h"
#include "job/snapshot.h"

namespace pumpwright::job {

// Nothing for a make-up without the faces' letters, or with a letter the table of face materials does not
// have.
std::optional<SealFigures> find_seal_figures(const MakeUp& make_up, const Catalog& catalog);

}  // namespace pumpwright::job
