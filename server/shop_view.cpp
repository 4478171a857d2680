#include "server/shop_view.h"

#include <algorithm>

#include <nlohmann/json.hpp>

#include "job/instrument_json.h"
#include "report/amount_text.h"
#include "server/amount_json.h"

namespace pumpwright::server {
namespace {

using nlohmann::json;

json people_view(const shop::ShopState& shop) {
  json out = json::array();
  for (const auto& [id, p] : shop.people)
    out.push_back({{"id", id},
                   {"initials", id},
                   {"name", p.name},
                   {"role", shop::word_of(p.role)},
                   {"active", p.active}});
  return out;
}

json instruments_view(const shop::ShopState& shop, job::UtcTime now) {
  json out = json::array();
  for (const auto& [id, instrument] : shop.instruments) {
    json one = job::encode_instrument(instrument);
    one["quantity"] = one["measures"];
    one["in_date"] = instrument.in_date(now);
    out.push_back(one);
  }
  return out;
}

json limits_view(const shop::ShopState& shop) {
  json out = json::array();
  for (const auto& [id, l] : shop.limits)
    out.push_back({{"id", id},
                   {"check", l.check},
                   {"rank", l.rank},
                   {"for", l.applies_to},
                   {"lower", l.lower},
                   {"upper", l.upper},
                   {"source", l.source},
                   {"by", l.by},
                   {"at", l.at}});
  return out;
}

json adopted_view(const shop::ShopState& shop) {
  json out = json::array();
  for (const auto& [id, a] : shop.adoptions)
    out.push_back({{"limit", id}, {"by", a.by}, {"time", job::format_utc_time(a.time)}});
  return out;
}

json adoptable_view(std::span<const job::Check> held_back) {
  json out = json::array();
  for (const auto& check : held_back) {
    const job::Limit& limit = check.limits.front();
    const bool bounded = limit.lower || limit.upper;
    out.push_back(
        {{"limit", limit.id},
         {"title", text_json(check.title)},
         {"text", bounded ? same_in_both(report::limit_text(limit)) : text_json(job::asked_by(limit))},
         {"source", same_in_both(citation(limit.source))}});
  }
  return out;
}

json devices_view(const shop::ShopState& shop) {
  json out = json::array();
  for (const auto& [id, device] : shop.devices)
    if (device.active) out.push_back({{"id", id}, {"name", device.name}});
  return out;
}

json sheets_view(const shop::ShopState& shop) {
  json out = json::array();
  for (const auto& [family, sheet] : shop.sheets)
    out.push_back(
        {{"pump", family}, {"make_up", json::parse(sheet.make_up)}, {"by", sheet.by}, {"at", sheet.at}});
  return out;
}

json step_texts_view(const shop::ShopState& shop) {
  json out = json::array();
  for (const auto& [step, own] : shop.step_texts)
    out.push_back(
        {{"step", step}, {"what_to_do", text_json(own.what_to_do)}, {"by", own.by}, {"at", own.at}});
  return out;
}

json old_columns_view(const shop::ShopState& shop) {
  json out = json::array();
  for (const auto& [name, saved] : shop.old_columns)
    out.push_back(
        {{"name", name}, {"columns", json::parse(saved.columns)}, {"by", saved.by}, {"at", saved.at}});
  return out;
}

// Latest first.
json changes_view(const shop::ShopState& shop) {
  json out = json::array();
  std::for_each(shop.changes.rbegin(), shop.changes.rend(), [&](const shop::ShopChange& change) {
    out.push_back({{"seq", change.seq},
                   {"at", change.at},
                   {"actor", change.actor},
                   {"type", change.type},
                   {"text", text_json(change.text)}});
  });
  return out;
}

}  // namespace

json shop_view(const shop::ShopState& shop, std::span<const job::Check> held_back, std::int64_t now_ms) {
  return {{"name", shop.name},
          {"invented", shop.invented},
          {"people", people_view(shop)},
          {"instruments", instruments_view(shop, job::UtcTime{now_ms / 1000})},
          {"limits", limits_view(shop)},
          {"adopted", adopted_view(shop)},
          {"adoptable", adoptable_view(held_back)},
          {"sheets", sheets_view(shop)},
          {"step_texts", step_texts_view(shop)},
          {"old_columns", old_columns_view(shop)},
          {"devices", devices_view(shop)},
          {"log", changes_view(shop)}};
}

}  // namespace pumpwright::server
