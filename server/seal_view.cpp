#include "server/seal_view.h"

#include <algorithm>

#include <nlohmann/json.hpp>

#include "engine/quantity/format.h"
#include "server/amount_json.h"
#include "server/finding_view.h"

namespace pumpwright::server {
namespace {

using nlohmann::json;

// What rests on estimates is not shown finer than this.
constexpr int digits = 3;

json figure(const AnyQuantity& value, const ShownUnits& units) {
  return {{"si", value.si()},
          {"kind", info(value.kind()).name},
          {"inch", format_significant(value, *units.inch, digits)},
          {"metric", format_significant(value, *units.metric, digits)}};
}

json figure(const AnyQuantity& value) {
  return figure(value, {&suitable_unit(value.kind(), value.si(), System::inch),
                        &suitable_unit(value.kind(), value.si(), System::metric)});
}

// A film is some thousandths of a thou.
ShownUnits film_units() {
  return {&unit_with_symbol("µin", Kind::length), &unit_with_symbol("µm", Kind::length)};
}

// A seal's heat is small for horsepower, and nobody asks for it in anything but watts.
ShownUnits heat_units() {
  const Unit& watt = si_unit(Kind::power);
  return {&watt, &watt};
}

// A drop an hour is small for the units of a flow.
ShownUnits leak_units() {
  const Unit& millilitres_an_hour = unit_with_symbol("mL/h", Kind::volume_flow);
  return {&millilitres_an_hour, &millilitres_an_hour};
}

// A figure of `part`, or null when the part is not there.
template <class Part, class Read>
json amount_of(const std::optional<Part>& part, Read read) {
  return part ? figure(AnyQuantity(read(*part))) : json(nullptr);
}

template <class Part, class Read>
json number_of(const std::optional<Part>& part, Read read) {
  return part ? json(read(*part)) : json(nullptr);
}

std::optional<seal::FilmSolution> solved_film(const job::SealService& s) {
  return s.film && s.film->converged ? s.film : std::nullopt;
}

json written_amount(const std::optional<Written>& written) {
  if (!written) return nullptr;
  return amount_json(written->quantity(), units_beside(*written->unit, written->quantity()), 0);
}

// What the sheet is computed with.
json conditions_view(const job::SealQuestion& question, const job::SealService& s) {
  const job::Service& service = question.snapshot.make_up.service;
  return {{"temperature", written_amount(service.temperature)},
          {"suction", written_amount(service.suction_pressure)},
          {"head", written_amount(service.head_pressure)},
          {"speed", written_amount(question.snapshot.make_up.speed)},
          {"altitude", written_amount(service.altitude)},
          {"length", s.length ? amount_json(AnyQuantity(s.length->length.value)) : json(nullptr)},
          {"length_measured", s.length && s.length->measured}};
}

// How far a turning head's bellows flexes once a turn on a seat out of square; a standing head has its check.
json turning_stroke(const job::SealService& s) {
  if (!s.tracking || s.tracking->required.value() > 0) return nullptr;
  return figure(AnyQuantity(s.tracking->stroke), film_units());
}

json numbers_view(const job::SealService& s) {
  const auto film = solved_film(s);
  return {{"chamber", amount_of(s.chamber, [](const auto& v) { return v.expected; })},
          {"chamber_low", amount_of(s.chamber, [](const auto& v) { return v.low; })},
          {"chamber_high", amount_of(s.chamber, [](const auto& v) { return v.high; })},
          {"vapour", amount_of(s.margin, [](const auto& v) { return v.vapour; })},
          {"boiling", amount_of(s.margin, [](const auto& v) { return v.boiling; })},
          {"judged_at", amount_of(s.judged_at, [](const auto& v) { return v; })},
          {"judged_at_face", s.judged_at_face},
          {"balance_ratio", number_of(s.faces, [](const auto& v) { return seal::balance_ratio(v); })},
          {"face_pressure", amount_of(s.load, [](const auto& v) { return v.net_pressure; })},
          {"spring_force", amount_of(s.spring, [](const auto& v) { return v.force.value; })},
          {"friction_torque", amount_of(film, [](const auto& v) { return v.friction; })},
          {"heat", film ? figure(AnyQuantity(film->heat), heat_units()) : json(nullptr)},
          {"film", film ? figure(AnyQuantity(film->mean_film), film_units()) : json(nullptr)},
          {"leakage", film ? figure(AnyQuantity(film->leakage), leak_units()) : json(nullptr)},
          {"pv", amount_of(s.load, [](const auto& v) { return v.pv; })},
          {"circulation", amount_of(s.circulation, [](const auto& v) { return v; })},
          {"growth_low", amount_of(s.growth, [](const auto& v) { return v.low; })},
          {"growth_high", amount_of(s.growth, [](const auto& v) { return v.high; })},
          {"bellows_stroke", turning_stroke(s)},
          {"track_width", amount_of(s.overlap, [](const auto& v) { return v.track_width; })},
          {"contact_share", number_of(film, [](const auto& v) { return v.contact_share; })}};
}

// Both ends in the units of the larger.
template <class Read>
json curve(const char* name, const std::vector<seal::FilmPoint>& profile, Read read) {
  json numbers = json::array();
  std::vector<AnyQuantity> values;
  for (const auto& point : profile) {
    values.emplace_back(read(point));
    numbers.push_back(values.back().si());
  }
  const auto [least, most] = std::minmax_element(
      values.begin(), values.end(), [](const auto& a, const auto& b) { return a.si() < b.si(); });
  const ShownUnits units = most->kind() == Kind::length
                               ? film_units()
                               : ShownUnits{&suitable_unit(most->kind(), most->si(), System::inch),
                                            &suitable_unit(most->kind(), most->si(), System::metric)};
  return {{"name", name},
          {"values", numbers},
          {"lowest", figure(*least, units)},
          {"highest", figure(*most, units)}};
}

// Along the radius from inside to outside; null without a film.
json face_view(const job::SealService& s) {
  const auto film = solved_film(s);
  if (!film || film->profile.size() < 2) return nullptr;
  const auto& profile = film->profile;
  json radii = json::array();
  json boils = json::array();
  for (const auto& point : profile) {
    radii.push_back(point.radius.value());
    boils.push_back(point.boils);
  }
  return {
      {"radius_m", radii},
      {"inside", amount_json(AnyQuantity(s.faces->inner_diameter))},
      {"outside", amount_json(AnyQuantity(s.faces->outer_diameter))},
      {"pressed_outside", s.faces->pressure == seal::PressureSide::outside},
      {"boils", boils},
      {"curves", json::array({curve("film", profile, [](const auto& p) { return p.film; }),
                              curve("pressure", profile, [](const auto& p) { return p.pressure; }),
                              curve("temperature", profile, [](const auto& p) { return p.temperature; })})}};
}

json texts(const std::vector<job::Text>& list) {
  json out = json::array();
  for (const auto& text : list)
    out.push_back(text_json(text));
  return out;
}

json checks_view(const job::SealQuestion& question, const job::JobState& state,
                 const job::SealFinding& found) {
  json out = json::array();
  for (const auto& finding : found.checks)
    out.push_back({{"check", finding.check},
                   {"finding", finding_view(*question.snapshot.plan.find(finding.check), finding, state)}});
  return out;
}

json deciding_view(const job::SealFinding& found) {
  json out = json::array();
  for (const auto check : job::deciding_checks())
    if (found.find(check) != nullptr) out.push_back(check);
  return out;
}

// Below the air's pressure no suction is an advice; the check's remark says so.
std::optional<GaugePressure> suction_to_name(const job::SealService& service) {
  if (!service.least_suction || service.least_suction->value < pascals(0)) return std::nullopt;
  return service.least_suction;
}

}  // namespace

json seal_view(const job::SealQuestion& question, const job::JobState& state) {
  const job::SealFinding found = job::find_of_seal(question, state);
  return {{"tried", question.tried},
          {"in_service", job::word_of(found.in_service)},
          {"as_set", job::word_of(found.as_set)},
          {"decides", deciding_view(found)},
          {"checks", checks_view(question, state, found)},
          {"suction_that_does", amount_of(suction_to_name(found.service), [](const auto& v) { return v; })},
          {"conditions", conditions_view(question, found.service)},
          {"numbers", numbers_view(found.service)},
          {"face", face_view(found.service)},
          {"assumed", texts(found.service.assumed)},
          {"missing", texts(found.service.missing)}};
}

}  // namespace pumpwright::server
