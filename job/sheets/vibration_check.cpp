#include "job/sheets/vibration_check.h"

#include <algorithm>

#include <fmt/format.h>

#include "engine/quantity/format.h"
#include "job/sheets/vibration_units.h"
#include "job/sheets/vibration_wording.h"

namespace pumpwright::job::vibrating {
namespace {

Text same(const std::string& text) {
  return {text, text};
}

const JudgedPlace& highest(const VibrationFinding& finding) {
  return *std::max_element(finding.places.begin(), finding.places.end(),
                           [](const auto& a, const auto& b) { return a.rms < b.rms; });
}

std::vector<Text> remarks(const VibrationFinding& finding) {
  const JudgedPlace& worst = highest(finding);
  if (!worst.zone || *worst.zone == vibration::Zone::a || *worst.zone == vibration::Zone::b) return {};
  const Text zone = zone_text(*worst.zone);
  return {{worst.place + ", " + zone.en + ". Record the signal there: pumpwright vibration names its tones.",
           worst.place + ", " + zone.es + ". Grabar allí la señal: pumpwright vibration nombra sus tonos."}};
}

}  // namespace

void try_planned(const JsonReader& whole) {
  if (!decode_vibration(whole).category) whole.refuse("category and power: without them no zone is known");
}

std::vector<Limit> limits(const JsonReader& whole) {
  const VibrationSheet sheet = decode_vibration(whole);
  const auto zones = vibration::zone_limits(*sheet.category, sheet.power->quantity().as<Power>());
  Limit limit;
  limit.id = "vibration/unrestricted";
  limit.rank = Rank::standard;
  const std::string upper = format_significant(zones.b_to_c, unit_with_symbol("mm/s", Kind::velocity), 3);
  limit.upper = parse_written(upper, Kind::velocity, {.field = "upper"});
  limit.source.document = "ISO 10816-7";
  limit.source.edition = "2009";
  limit.source.clause = "tables A.1 and A.2";
  limit.source.obtained = sheet.confirmed_by.empty() ? Obtained::remembered : Obtained::read;
  if (!sheet.confirmed_by.empty()) limit.source.note = "compared with the standard by " + sheet.confirmed_by;
  return {std::move(limit)};
}

VibrationResult compute(const JsonReader& whole) {
  VibrationSheet sheet = decode_vibration(whole);
  if (sheet.overall.empty()) (void)whole.required("overall");
  VibrationFinding finding = vibration_finding(sheet);
  return {std::move(sheet), std::move(finding)};
}

SheetMeasured measure(const VibrationResult& result) {
  const auto& [sheet, finding] = result;
  const JudgedPlace& worst = highest(finding);
  Measurement number;
  number.value = worst.rms.value();
  number.u = worst.u.value();
  SheetMeasured out;
  out.number = number;
  out.unit = &velocity_unit(sheet);
  out.as_written = fmt::format("{}: {}", worst.place, velocity_text(sheet, worst.rms));
  out.remarks = remarks(finding);
  return out;
}

std::vector<SheetLine> lines(const VibrationResult& result) {
  const auto& [sheet, finding] = result;
  std::vector<SheetLine> out;
  for (const auto& place : finding.places) {
    const std::string read = velocity_text(sheet, place.rms, place.u);
    const Text zone = place.zone ? zone_text(*place.zone) : Text{};
    out.push_back({same(place.place), {read + ", " + zone.en, read + ", " + zone.es}});
  }
  return out;
}

}  // namespace pumpwright::job::vibrating
