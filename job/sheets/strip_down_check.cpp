#include "job/sheets/strip_down_check.h"

#include <algorithm>

#include <fmt/format.h>

namespace pumpwright::job::stripping {
namespace {

Text same(const std::string& text) {
  return {text, text};
}

// As it was shown when it was picked, else its word.
std::string name_of(const FoundThing& thing) {
  if (!thing.said.empty()) return thing.said;
  std::string words = thing.finding;
  std::replace(words.begin(), words.end(), '-', ' ');
  return words;
}

void put(std::vector<SheetLine>& out, const FoundThing& thing, const Text& seen) {
  Text value = seen;
  for (const auto* more : {&thing.where, &thing.note}) {
    if (more->empty()) continue;
    value.en += ", " + *more;
    value.es += ", " + *more;
  }
  out.push_back({same(name_of(thing)), value});
}

void put_figure(std::vector<SheetLine>& out, const Text& name, const std::optional<Written>& figure) {
  if (figure) out.push_back({name, same(figure->text)});
}

}  // namespace

void try_planned(const JsonReader& whole) {
  (void)decode_strip_down(whole);
}

std::vector<Limit> limits() {
  Limit limit;
  limit.id = "strip-down/written-down";
  limit.rank = Rank::job;
  limit.asks = {"what was found, and what was looked for and is not there, written down",
                "lo hallado, y lo que se buscó y no está, anotado"};
  limit.source = {"pump shop practice: evidence is written down before it is cleaned or thrown away", "", "",
                  Obtained::shop_rule, ""};
  return {std::move(limit)};
}

StripDownResult compute(const JsonReader& whole) {
  return {decode_strip_down(whole)};
}

SheetMeasured measure(const StripDownResult& result) {
  const auto& sheet = result.sheet;
  SheetMeasured out;
  out.kept = true;
  if (sheet.found.empty() && sheet.not_found.empty() && !sheet.track && !sheet.hardness)
    out.blocked = Reason::input_missing;
  out.as_written = fmt::format("{} ✓, {} ✗", sheet.found.size(), sheet.not_found.size());
  return out;
}

std::vector<SheetLine> lines(const StripDownResult& result) {
  const auto& sheet = result.sheet;
  std::vector<SheetLine> out;
  if (!sheet.complaint.empty()) out.push_back({{"complaint", "queja"}, same(sheet.complaint)});
  put_figure(out, {"hours run", "horas de marcha"}, sheet.hours_run);
  for (const auto& thing : sheet.found)
    put(out, thing, {"found", "hallado"});
  for (const auto& thing : sheet.not_found)
    put(out, thing, {"looked for, not there", "buscado, no está"});
  if (sheet.track) {
    put_figure(out, {"width of the track", "ancho de la huella"}, sheet.track->track);
    put_figure(out, {"width of the narrow face", "ancho de la cara estrecha"}, sheet.track->face);
  }
  if (sheet.hardness)
    out.push_back({{"hardness, Shore A", "dureza, Shore A"},
                   {sheet.hardness->found.text + " found, " + sheet.hardness->fresh.text + " new",
                    sheet.hardness->found.text + " hallada, " + sheet.hardness->fresh.text + " nueva"}});
  put_figure(out, {"face worn down by", "cara gastada en"}, sheet.as_found.wear_depth);
  put_figure(out, {"end float as found", "juego axial hallado"}, sheet.as_found.end_float);
  put_figure(out, {"shaft runout as found", "salto del eje hallado"}, sheet.as_found.shaft_runout);
  put_figure(out, {"working length as found", "longitud de trabajo hallada"}, sheet.as_found.working_length);
  return out;
}

}  // namespace pumpwright::job::stripping
