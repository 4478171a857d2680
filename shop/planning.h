// The plan a job gets in this shop: derived from its make-up, with the shop's own limits and words over it.
#pragma once

#include <span>
#include <string>

#include "catalog/catalog.h"
#include "job/job_file.h"
#include "job/snapshot.h"
#include "shop/shop_state.h"

namespace pumpwright::shop {

struct PlanSources {
  const Catalog& catalog;
  std::span<const NamedBytes> step_files;
  const std::string& program;
};

// `job`: header and make-up; the rest is not read. Own limits whose check the plan does not have are left
// out. Throws BadInput for a make-up that can not be built, or an own limit in a unit that does not fit its
// check.
job::Snapshot plan_for(job::JobFile job, const ShopState& shop, const PlanSources& sources);

}  // namespace pumpwright::shop
