#include "job/sheets/sheet_check.h"

#include "job/bench_sheet.h"
#include "job/check_words.h"
#include "job/json_quantity.h"
#include "job/sheets/pressure_hold_check.h"

namespace pumpwright::job {
namespace {

SheetMeasured measured_by(SheetOf sheet, Judged judged, const JsonReader& whole) {
  switch (sheet) {
    case SheetOf::pressure_hold:
      return pressure_hold::measure(judged, whole);
  }
  return {};
}

const std::string& written_in(const Reading* reading) {
  static const std::string nothing;
  return reading == nullptr ? nothing : std::get<SheetReading>(reading->body).json;
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
  SheetMeasured measured = placed(reading == nullptr ? "sheet" : "reading " + reading->id + "/sheet", [&] {
    return measured_by(*check.sheet, check.judged,
                       whole_sheet(*check.sheet, planned->second, written_in(reading)));
  });
  if (reading != nullptr) out.shown.reading_id = reading->id;
  out.shown.as_written = std::move(measured.as_written);
  out.shown.unit = measured.unit;
  out.shown.remarks = std::move(measured.remarks);
  out.shown.sheet = std::move(measured.result);
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
  return std::visit([](const auto& of) { return pressure_hold::lines(of); }, result.of);
}

}  // namespace pumpwright::job
