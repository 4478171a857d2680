#include "job/sheets/sheet_check.h"

#include <nlohmann/json.hpp>

#include "job/bench_sheet.h"
#include "job/check_words.h"
#include "job/json_quantity.h"
#include "job/sheets/alignment_check.h"
#include "job/sheets/balance_check.h"
#include "job/sheets/performance_check.h"
#include "job/sheets/pressure_hold_check.h"
#include "job/sheets/rotor_check.h"
#include "job/sheets/strip_down_check.h"
#include "job/sheets/system_check.h"
#include "job/sheets/vibration_check.h"

namespace pumpwright::job {
namespace {

SheetResult computed_by(SheetOf sheet, const JsonReader& whole) {
  switch (sheet) {
    case SheetOf::pressure_hold:
      return {pressure_hold::compute(whole)};
    case SheetOf::balance:
      return {balance::compute(whole)};
    case SheetOf::alignment:
      return {aligning::compute(whole)};
    case SheetOf::rotor:
      return {shaft::compute(whole)};
    case SheetOf::performance:
      return {performance::compute(whole)};
    case SheetOf::vibration:
      return {vibrating::compute(whole)};
    case SheetOf::system:
      return {running::compute(whole)};
    case SheetOf::strip_down:
      return {stripping::compute(whole)};
  }
  return {};
}

SheetMeasured measured_of(const SheetResult& result, Judged judged, const JsonReader& whole) {
  struct {
    Judged judged;
    const JsonReader& whole;
    SheetMeasured operator()(const PressureHoldResult& r) const {
      return pressure_hold::measure(judged, r, whole);
    }
    SheetMeasured operator()(const BalanceResult& r) const { return balance::measure(r, whole); }
    SheetMeasured operator()(const AlignmentResult& r) const { return aligning::measure(r); }
    SheetMeasured operator()(const RotorResult& r) const { return shaft::measure(judged, r); }
    SheetMeasured operator()(const PerformanceResult& r) const { return performance::measure(judged, r); }
    SheetMeasured operator()(const VibrationResult& r) const { return vibrating::measure(r); }
    SheetMeasured operator()(const SystemResult& r) const { return running::measure(r); }
    SheetMeasured operator()(const StripDownResult& r) const { return stripping::measure(r); }
  } measured{judged, whole};
  return std::visit(measured, result.of);
}

// A figure of an instrument, whose bare numbers are in its unit.
std::string figure_text(const Written& figure, const std::string& unit) {
  return figure.unit_was_written ? figure.text : figure.text + " " + unit;
}

// What the reading's file has that is neither planned nor typed: the dial an alignment was swept with is the
// shop's own, which the reading names.
std::string read_with(const Reading& reading, const SheetParts& parts, const Snapshot& snapshot) {
  const std::string& written = std::get<SheetReading>(reading.body).json;
  const auto of = snapshot.instruments.find(reading.instrument);
  if (parts.instrument_key.empty() || of == snapshot.instruments.end()) return written;
  nlohmann::json whole = nlohmann::json::parse(written);
  if (whole.contains(parts.instrument_key)) return written;
  const ShopInstrument& shops = of->second;
  nlohmann::json& into = whole[std::string(parts.instrument_key)];
  into["graduation"] = figure_text(shops.graduation, shops.unit);
  if (shops.mpe) into["mpe"] = figure_text(*shops.mpe, shops.unit);
  if (shops.repeatability) into["repeatability"] = figure_text(*shops.repeatability, shops.unit);
  return whole.dump();
}

// A sheet's instruments stand in it; the one the reading names must have been in date.
bool in_date(const Reading* reading, const Snapshot& snapshot) {
  if (reading == nullptr || reading->instrument.empty()) return true;
  const auto at = snapshot.instruments.find(reading->instrument);
  return at != snapshot.instruments.end() && at->second.in_date(reading->time);
}

}  // namespace

MeasuredReading measure_sheet(const Check& check, const Reading* reading, const JudgeContext& in) {
  const auto planned = in.snapshot.make_up.sheets.find(*check.sheet);
  MeasuredReading out;
  if (planned == in.snapshot.make_up.sheets.end()) {
    out.blocked = Reason::input_missing;
    return out;
  }
  const std::string written =
      reading == nullptr ? "" : read_with(*reading, parts_of(*check.sheet), in.snapshot);
  const std::string id = reading == nullptr ? "" : reading->id;
  auto& result = (*in.sheets)[{*check.sheet, id}];  // figures of one sheet share it
  SheetMeasured measured = placed(reading == nullptr ? "sheet" : "reading " + id + "/sheet", [&] {
    const JsonReader whole = whole_sheet(*check.sheet, planned->second, written);
    if (!result) result = std::make_shared<const SheetResult>(computed_by(*check.sheet, whole));
    return measured_of(*result, check.judged, whole);
  });
  out.shown.reading_id = id;
  out.shown.as_written = std::move(measured.as_written);
  out.shown.unit = measured.unit;
  out.shown.remarks = std::move(measured.remarks);
  out.shown.sheet = result;
  out.kept = measured.kept;
  out.blocked = measured.blocked;
  const bool dated = in_date(reading, in.snapshot);
  if (measured.number) {
    measured.number->in_date = dated;
    out.numbers = {*measured.number};
  } else if (!dated) {
    out.blocked = Reason::instrument_out_of_date;
  }
  return out;
}

std::vector<SheetLine> lines_of(const SheetResult& result) {
  struct {
    std::vector<SheetLine> operator()(const PressureHoldResult& r) const { return pressure_hold::lines(r); }
    std::vector<SheetLine> operator()(const BalanceResult& r) const { return balance::lines(r); }
    std::vector<SheetLine> operator()(const AlignmentResult& r) const { return aligning::lines(r); }
    std::vector<SheetLine> operator()(const RotorResult& r) const { return shaft::lines(r); }
    std::vector<SheetLine> operator()(const PerformanceResult& r) const { return performance::lines(r); }
    std::vector<SheetLine> operator()(const VibrationResult& r) const { return vibrating::lines(r); }
    std::vector<SheetLine> operator()(const SystemResult& r) const { return running::lines(r); }
    std::vector<SheetLine> operator()(const StripDownResult& r) const { return stripping::lines(r); }
  } lines;
  return std::visit(lines, result.of);
}

std::optional<SheetPicture> picture_of(const SheetResult& result) {
  struct {
    std::optional<SheetPicture> operator()(const PressureHoldResult&) const { return std::nullopt; }
    std::optional<SheetPicture> operator()(const BalanceResult& r) const { return balance::picture(r); }
    std::optional<SheetPicture> operator()(const AlignmentResult& r) const { return aligning::picture(r); }
    std::optional<SheetPicture> operator()(const RotorResult& r) const { return shaft::picture(r); }
    std::optional<SheetPicture> operator()(const PerformanceResult& r) const {
      return performance::picture(r);
    }
    std::optional<SheetPicture> operator()(const VibrationResult& r) const { return vibrating::picture(r); }
    std::optional<SheetPicture> operator()(const SystemResult& r) const { return running::picture(r); }
    std::optional<SheetPicture> operator()(const StripDownResult&) const { return std::nullopt; }
  } picture;
  return std::visit(picture, result.of);
}

}  // namespace pumpwright::job
