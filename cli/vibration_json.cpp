// What `pumpwright vibration --json` prints.
#include "cli/json_values.h"
#include "cli/vibration_question.h"

namespace pumpwright {
namespace {

OrderedJson lines_json(const std::vector<vibration::ExpectedLine>& lines) {
  auto list = OrderedJson::array();
  for (const auto& line : lines)
    list.push_back({{"of", vibration::word_for(line.of)},
                    {"multiple", line.multiple},
                    {"bearing", line.bearing},
                    {"frequency_Hz", json_number(line.at.value())},
                    {"within_Hz", json_number(line.within.value())}});
  return list;
}

OrderedJson places_json(const VibrationAnswer& f) {
  auto list = OrderedJson::array();
  for (const auto& place : f.places)
    list.push_back(
        {{"place", place.place},
         {"rms_m_s", json_number(place.rms.value())},
         {"u_m_s", json_number(place.u.value())},
         {"zone", place.zone ? OrderedJson(vibration::word_for(*place.zone)) : OrderedJson(nullptr)},
         {"by_figures", f.limits ? OrderedJson(code(place.by_figures)) : OrderedJson(nullptr)}});
  return list;
}

OrderedJson limits_json(const std::optional<vibration::ZoneLimits>& limits) {
  if (!limits) return nullptr;
  return {{"a_to_b_m_s", limits->a_to_b.value()},
          {"b_to_c_m_s", limits->b_to_c.value()},
          {"c_to_d_m_s", limits->c_to_d.value()},
          {"source", "ISO 10816-7:2009, tables A.1 and A.2 (remembered)"}};
}

OrderedJson spectrum_json(const VibrationQuestion& q, const VibrationAnswer& f) {
  if (!f.signal) return nullptr;
  return {{"window", vibration::word_for(q.sheet.signal->asked.settings.window)},
          {"segments", f.signal->spectrum.segments},
          {"line_spacing_Hz", f.signal->spectrum.line_spacing.value()},
          {"noise_bandwidth_lines", f.signal->spectrum.noise_bandwidth},
          {"rate_Hz", q.recording->rate.value()},
          {"samples", q.recording->samples.size()}};
}

OrderedJson tones_json(const VibrationQuestion& q, const VibrationAnswer& f) {
  auto list = OrderedJson::array();
  if (!f.signal) return list;
  for (const auto& found : f.signal->tones)
    list.push_back(
        {{"frequency_Hz", json_number(found.tone.at.value())},
         {"rms_si", json_number(found.tone.rms)},
         {"u_si", json_number(found.tone.u)},
         {"measures",
          q.sheet.signal->asked.measures == vibration::Measures::acceleration ? "acceleration" : "velocity"},
         {"velocity_rms_m_s", json_number(found.rms.value())},
         {"may_be", lines_json(found.may_be)}});
  return list;
}

}  // namespace

std::string vibration_json(const VibrationQuestion& q, const VibrationAnswer& f) {
  OrderedJson json = {{"file", q.file}, {"name", q.sheet.name}};
  json["verdict"] = f.verdict.empty() ? OrderedJson(nullptr) : OrderedJson(f.verdict);
  json["reason"] = f.reason.empty() ? OrderedJson(nullptr) : OrderedJson(f.reason);
  json["band_Hz"] = {f.band.least.value(), f.band.most.value()};
  json["limits"] = limits_json(f.limits);
  json["places"] = places_json(f);
  json["expected"] = lines_json(f.expected);
  json["spectrum"] = spectrum_json(q, f);
  json["tones"] = tones_json(q, f);
  return json_text(json);
}

}  // namespace pumpwright
