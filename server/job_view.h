// A job as the page reads it: plan, readings, verdicts, drawing and log, worked out here so that the page
// only shows.
#pragma once

#include <cstdint>
#include <span>

#include <nlohmann/json_fwd.hpp>

#include "shop/shop.h"
#include "store/event.h"

namespace pumpwright::server {

// The whole job. `log`: the events of its stream. `now_ms` says which instruments are in date.
nlohmann::json job_view(const shop::JobPicture& picture, const shop::ShopState& shop,
                        std::span<const store::StoredEvent> log, std::int64_t now_ms);

// What a tried reading would be: the one judged reading, as in the job's findings. The check must be one of
// the job's plan.
nlohmann::json finding_json(const shop::JobPicture& picture, const shop::TriedReading& tried);

// A line in a list; with the picture also verdict counts, the next step, and what failed.
nlohmann::json card_json(const shop::JobCard& card);
nlohmann::json card_json(const shop::JobCard& card, const shop::JobPicture& picture);

// Steps, checks and section of a plan that nobody has begun, and the dimensions its checks need and the
// make-up does not give.
nlohmann::json plan_preview(const job::Snapshot& snapshot);

}  // namespace pumpwright::server
