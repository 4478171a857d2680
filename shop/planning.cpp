#include "shop/planning.h"

#include <fmt/format.h>

namespace pumpwright::shop {
namespace {

bool applies(const OwnLimit& limit, const job::JobHeader& header) {
  if (limit.applies_to.empty()) return true;
  return limit.applies_to == (limit.rank == "customer" ? header.customer : header.pump);
}

job::LimitOverride override_of(const OwnLimit& own) {
  job::LimitOverride out;
  out.check = own.check;
  out.limit.rank = *job::rank_from(own.rank);
  out.limit.id = fmt::format("{}/{}", own.check, own.id);
  out.limit.source.document = own.source;
  out.limit.source.edition = own.at.substr(0, 10);
  out.limit.source.clause = own.by;
  out.limit.source.obtained = Obtained::shop_rule;
  out.lower_text = own.lower;
  out.upper_text = own.upper;
  out.place = "own limit " + own.id;
  return out;
}

void put_own_words(job::Plan& plan, const ShopState& shop) {
  for (auto& step : plan.steps) {
    const auto own = shop.step_texts.find(step.id);
    if (own == shop.step_texts.end()) continue;
    step.what_to_do = own->second.what_to_do;
    step.source = {};
    step.source.document = "The shop's own words";
    step.source.edition = own->second.at.substr(0, 10);
    step.source.clause = own->second.by;
    step.source.obtained = Obtained::shop_rule;
  }
}

}  // namespace

job::Snapshot plan_for(job::JobFile job, const ShopState& shop, const PlanSources& sources) {
  job.instruments = shop.instruments;
  job.adoptions = shop.adoptions;
  job::Snapshot snapshot = derive_snapshot(job, sources.catalog, sources.step_files, sources.program);
  for (const auto& [id, own] : shop.limits)
    if (applies(own, job.header) && snapshot.plan.find(own.check) != nullptr)
      job.overrides.push_back(override_of(own));
  if (!job.overrides.empty())
    snapshot = derive_snapshot(job, sources.catalog, sources.step_files, sources.program);
  put_own_words(snapshot.plan, shop);
  return snapshot;
}

}  // namespace pumpwright::shop
