#include "server/past_view.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include <nlohmann/json.hpp>

#include "job/cause_wording.h"
#include "server/amount_json.h"
#include "server/cause_view.h"
#include "shop/job_index.h"

namespace pumpwright::server {
namespace {

using nlohmann::json;

json cause_of_build(const shop::PastBuild& build) {
  if (!build.strip_down) return nullptr;
  const auto& tables = shipped_causes();
  const auto finding = job::cause_of(tables, *build.strip_down);
  json change = json::array();
  for (const std::size_t cause : finding.diagnosis.named)
    change.push_back(text_json(tables.causes()[cause].change));
  return {{"headline", text_json(headline_text(tables, finding))}, {"change", std::move(change)}};
}

json deviations_view(const shop::PastBuild& build, const job::Plan& plan) {
  json out = json::array();
  for (const auto& [id, accepted] : build.deviations) {
    const job::Check* check = plan.find(id);
    out.push_back({{"check", check == nullptr ? same_in_both(id) : text_json(check->title)},
                   {"reason", accepted.reason},
                   {"actor", accepted.actor}});
  }
  return out;
}

json old_view(const shop::PastBuild& build) {
  if (!build.old) return nullptr;
  return {{"found", text_or_null(build.old->found)},
          {"changed", text_or_null(build.old->changed)},
          {"file", build.old->file},
          {"line", build.old->line}};
}

json build_view(const shop::PastBuild& build, const job::Plan& plan) {
  const auto& strip = build.strip_down;
  return {{"number", build.card.number},
          {"opened", build.card.opened},
          {"released", build.card.released},
          {"reason", text_or_null(build.header.reason)},
          {"complaint", strip ? text_or_null(strip->complaint) : json(nullptr)},
          {"hours_run", strip && strip->hours_run ? json(strip->hours_run->text) : json(nullptr)},
          {"cause", cause_of_build(build)},
          {"old", old_view(build)},
          {"deviations", deviations_view(build, plan)}};
}

// "grows" or "shrinks" when every build of three or more read more, or less, than the one before.
json moving(const std::vector<double>& oldest_first) {
  if (oldest_first.size() < 3) return nullptr;
  const auto steps = [&](auto beyond) {
    return std::adjacent_find(oldest_first.begin(), oldest_first.end(),
                              [&](double a, double b) { return !beyond(b, a); }) == oldest_first.end();
  };
  if (steps(std::greater<>())) return "grows";
  return steps(std::less<>()) ? json("shrinks") : json(nullptr);
}

// As an indicator or a micrometer shows a length.
constexpr double shown_step_m = 2.54e-6;

// All of a row in one unit, that of its largest, so that what stands side by side can be compared.
json amount_of(const job::Check& check, double si, double largest_si) {
  const AnyQuantity value(check.quantity, si);
  const Unit& unit = suitable_unit(check.quantity, largest_si, System::inch);
  return amount_json(value, units_beside(unit, AnyQuantity(check.quantity, largest_si)),
                     check.quantity == Kind::length ? shown_step_m : 0);
}

class Readings {
 public:
  Readings(const shop::JobPicture& picture, const shop::PumpPast& past) : picture_(picture) {
    for (const auto& build : past.builds)
      columns_.push_back({build.card.number, shop::last_by_check(build.values)});
    std::reverse(columns_.begin(), columns_.end());
    columns_.push_back({picture.logged.file.header.number, shop::last_by_check(past.now)});
  }

  // One row for each check of the present plan that was read in an earlier build.
  json view() const {
    json rows = json::array();
    for (const auto& step : picture_.snapshot.plan.steps)
      for (const auto& check : step.checks)
        if (auto row = row_of(step, check)) rows.push_back(std::move(*row));
    return rows;
  }

 private:
  struct Column {
    std::string number;
    std::map<std::string, double> values;
  };

  std::optional<json> row_of(const job::Step& step, const job::Check& check) const {
    std::vector<std::pair<std::string, double>> read;
    double largest = 0;
    for (const Column& column : columns_) {
      const auto at = column.values.find(check.id);
      if (at == column.values.end()) continue;
      read.emplace_back(column.number, at->second);
      largest = std::max(largest, std::fabs(at->second));
    }
    if (read.empty() || read.front().first == columns_.back().number) return std::nullopt;
    json cells = json::array();
    std::vector<double> values;
    values.reserve(read.size());
    for (const auto& [number, value] : read) {
      cells.push_back({{"number", number}, {"value", amount_of(check, value, largest)}});
      values.push_back(value);
    }
    return json{{"step", step.id},
                {"check", check.id},
                {"title", text_json(check.title)},
                {"values", std::move(cells)},
                {"moves", moving(values)}};
  }

  const shop::JobPicture& picture_;
  std::vector<Column> columns_;  // oldest first, the job itself last
};

}  // namespace

json past_view(const shop::JobPicture& picture, const shop::PumpPast& past) {
  json builds = json::array();
  for (const auto& build : past.builds)
    builds.push_back(build_view(build, picture.snapshot.plan));
  return {{"builds", std::move(builds)}, {"readings", Readings(picture, past).view()}};
}

}  // namespace pumpwright::server
