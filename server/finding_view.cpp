#include "server/finding_view.h"

#include <cmath>
#include <numbers>

#include <nlohmann/json.hpp>

#include "job/sheets/sheet_result.h"
#include "report/sweep_points.h"
#include "server/amount_json.h"
#include "server/sheet_view.h"

namespace pumpwright::server {
namespace {

using nlohmann::json;

double degrees(Angle angle) {
  return angle.value() * 180 / std::numbers::pi;
}

json number_or_null(const std::optional<double>& number) {
  return number && std::isfinite(*number) ? json(*number) : json(nullptr);
}

// The surface at every place, as it was computed with; what lies in a gap is left out.
json points_json(const job::Check& check, const job::Reading& reading) {
  json out = json::array();
  const auto* sweep = std::get_if<job::SweepReading>(&reading.body);
  if (sweep == nullptr) return out;
  for (const auto& point : report::surface_readings(check, *sweep))
    out.push_back({{"angle_deg", std::round(point.place_deg * 100) / 100},
                   {"value_m", point.deviation_m},
                   {"index", point.index}});
  return out;
}

json sweep_json(const job::Check& check, const SweepResult& r, const ShownUnits& units, double graduation_si,
                const job::Reading* reading) {
  const auto length = [&](Length value) {
    return amount_json(AnyQuantity(Kind::length, value.value()), units, graduation_si);
  };
  const Length ecc_u = r.vector_uncertainty ? r.vector_uncertainty->u : Length{};
  json suspects = json::array();
  for (const auto& s : r.suspects)
    suspects.push_back({{"index", s.index}, {"angle_deg", std::round(degrees(s.place) * 10) / 10}});
  return {{"points", reading == nullptr ? json::array() : points_json(check, *reading)},
          {"mean_m", r.mean.value()},
          {"a1_m", r.vector[0].value()},
          {"b1_m", r.vector[1].value()},
          {"eccentricity", length(r.eccentricity.value)},
          {"eccentricity_u",
           r.vector_uncertainty ? doubt_json(Kind::length, 2 * ecc_u.value(), units) : json(nullptr)},
          {"high_spot_deg", r.high_spot && r.mount != Mount::unknown
                                ? json(std::round(degrees(*r.high_spot) * 10) / 10)
                                : json(nullptr)},
          {"tir", length(r.tir.value)},
          {"tir_fitted", length(r.tir_fitted.value)},
          {"missed_tir", length(r.missed_tir.bound())},
          {"ront", length(r.ront)},
          {"suspects", suspects},
          {"second_turn", r.repeatability.has_value()}};
}

const job::Reading* reading_with(const job::JobState& state, const std::string& check,
                                 const std::string& id) {
  const auto at = state.standing.find(check);
  if (at == state.standing.end()) return nullptr;
  for (const auto& reading : at->second)
    if (reading.id == id) return &reading;
  return nullptr;
}

json picture_or_null(const job::JudgedReading& judged) {
  const auto picture = judged.sheet ? job::picture_of(*judged.sheet) : std::nullopt;
  return picture ? picture_json(*picture) : json(nullptr);
}

// What a bench test's sheet came to, line by line.
json lines_of_sheet(const job::JudgedReading& judged) {
  return judged.sheet ? lines_json(job::lines_of(*judged.sheet)) : json::array();
}

json reading_view(const job::Check& check, const job::JudgedReading& judged, const job::JobState& state) {
  const AnyQuantity value = judged.value.value_or(AnyQuantity(check.quantity, 0));
  const ShownUnits units = units_beside(job::unit_to_show(check, judged), value);
  const double grain = judged.instrument_graduation_si;
  json out{{"reading", text_or_null(judged.reading_id)},
           {"as_written", judged.as_written},
           {"verdict", job::word_of(judged.verdict)},
           {"reason", job::word_of(judged.reason)},
           {"reason_title", text_json(job::title_of(judged.reason))},
           {"value", judged.value ? amount_json(value, units, grain) : json(nullptr)},
           {"u", nullptr},
           {"margin", nullptr},
           {"probability", number_or_null(judged.conformance_probability)},
           {"settle", judged.settle ? text_json(judged.settle->text) : json(nullptr)},
           {"remarks", json::array()},
           {"sweep", nullptr},
           {"lines", lines_of_sheet(judged)},
           {"picture", picture_or_null(judged)}};
  if (judged.standard_uncertainty && std::isfinite(*judged.standard_uncertainty))
    out["u"] = doubt_json(check.quantity, 2 * *judged.standard_uncertainty, units);
  if (judged.margin && std::isfinite(*judged.margin))
    out["margin"] = amount_json(AnyQuantity(check.quantity, *judged.margin), units, grain);
  for (const auto& remark : judged.remarks)
    out["remarks"].push_back(text_json(remark));
  if (judged.sweep) {
    const std::string& own = check.from.empty() ? check.id : check.from;
    out["sweep"] =
        sweep_json(check, *judged.sweep, units, grain, reading_with(state, own, judged.reading_id));
  }
  return out;
}

json chain_view(const job::CheckFinding& finding) {
  json out = json::array();
  for (const auto& share : finding.chain) {
    const ShownUnits units{&suitable_unit(share.value.kind(), share.value.si(), System::inch),
                           &suitable_unit(share.value.kind(), share.value.si(), System::metric)};
    out.push_back({{"name", text_json(share.name)},
                   {"value", amount_json(share.value, units, 0)},
                   {"u", doubt_json(share.value.kind(), 2 * share.standard_uncertainty, units)},
                   {"fraction", share.fraction}});
  }
  return out;
}

}  // namespace

json finding_view(const job::Check& check, const job::CheckFinding& finding, const job::JobState& state) {
  json readings = json::array();
  for (const auto& judged : finding.readings)
    readings.push_back(reading_view(check, judged, state));
  json deviation = nullptr;
  if (const auto at = state.deviations.find(check.id); at != state.deviations.end())
    deviation = {{"reason", at->second.reason},
                 {"actor", at->second.actor},
                 {"time", job::format_utc_time(at->second.time)}};
  return {{"verdict", job::word_of(finding.verdict)},
          {"verdict_title", text_json(job::title_of(finding.verdict))},
          {"reason", job::word_of(finding.reason)},
          {"reason_title", text_json(job::title_of(finding.reason))},
          {"deviation", deviation},
          {"readings", readings},
          {"chain", chain_view(finding)}};
}

}  // namespace pumpwright::server
