// What `pumpwright seal --json` prints: everything in SI; what could not be computed is null.
#include "cli/json_values.h"
#include "cli/seal_report.h"

namespace pumpwright {
namespace {

using job::Language;

OrderedJson texts(const std::vector<job::Text>& list, Language language) {
  auto out = OrderedJson::array();
  for (const auto& text : list)
    out.push_back(text.in(language));
  return out;
}

OrderedJson verdict_json(const job::Check& check, const job::CheckFinding& finding, Language language) {
  OrderedJson json = {{"check", check.id},
                      {"title", check.title.in(language)},
                      {"verdict", job::word_of(finding.verdict)},
                      {"reason", job::word_of(finding.reason)},
                      {"value_si", nullptr},
                      {"source", nullptr}};
  if (!check.limits.empty()) json["source"] = citation(check.limits.front().source);
  json["remarks"] = OrderedJson::array();
  if (finding.readings.empty()) return json;
  const auto& reading = finding.readings.front();
  if (reading.value) json["value_si"] = json_number(reading.value->si());
  json["remarks"] = texts(reading.remarks, language);
  return json;
}

OrderedJson profile_json(const seal::FilmSolution& film) {
  auto out = OrderedJson::array();
  for (const auto& p : film.profile)
    out.push_back({{"radius_m", p.radius.value()},
                   {"film_m", p.film.value()},
                   {"pressure_Pa", p.pressure.value.value()},
                   {"contact_pressure_Pa", p.contact.value()},
                   {"temperature_K", kelvin_of(p.temperature)},
                   {"boils", p.boils}});
  return out;
}

// A number of `part`, or null when the part is not there.
template <class Part, class Read>
OrderedJson of(const std::optional<Part>& part, Read read) {
  return part ? json_number(read(*part)) : OrderedJson(nullptr);
}

void add_pressures(OrderedJson& json, const job::SealService& s) {
  const auto absolute = [&](GaugePressure p) { return p.value.value() + s.state->atmosphere.value.value(); };
  json["temperature_K"] = of(s.state, [](const auto& v) { return kelvin_of(v.temperature); });
  json["atmosphere_Pa"] = of(s.state, [](const auto& v) { return v.atmosphere.value.value(); });
  json["chamber_pressure_Pa"] = of(s.chamber, [&](const auto& v) { return absolute(v.expected); });
  json["chamber_pressure_low_Pa"] = of(s.chamber, [&](const auto& v) { return absolute(v.low); });
  json["chamber_pressure_high_Pa"] = of(s.chamber, [&](const auto& v) { return absolute(v.high); });
  json["vapour_pressure_Pa"] = of(s.margin, [](const auto& v) { return v.vapour.value.value(); });
  json["margin_Pa"] = of(s.margin, [](const auto& v) { return v.difference.value(); });
  json["margin_ratio"] = of(s.margin, [](const auto& v) { return v.ratio; });
  json["boiling_K"] = of(s.margin, [](const auto& v) { return kelvin_of(v.boiling); });
  json["least_suction_gauge_Pa"] = of(s.least_suction, [](const auto& v) { return v.value.value(); });
}

void add_faces(OrderedJson& json, const job::SealService& s) {
  json["balance_ratio"] = of(s.faces, [](const auto& v) { return seal::balance_ratio(v); });
  json["face_pressure_Pa"] = of(s.load, [](const auto& v) { return v.net_pressure.value(); });
  json["pv_W_m2"] = of(s.load, [](const auto& v) { return v.pv.value(); });
  json["pv_low_W_m2"] = s.load ? json_number(s.pv_low.value()) : OrderedJson(nullptr);
  json["pv_high_W_m2"] = s.load ? json_number(s.pv_high.value()) : OrderedJson(nullptr);
  json["circulation_m3_s"] = of(s.circulation, [](const auto& v) { return v.value(); });
  json["growth_low_m"] = of(s.growth, [](const auto& v) { return v.low.value(); });
  json["growth_high_m"] = of(s.growth, [](const auto& v) { return v.high.value(); });
  json["working_length_m"] = of(s.length, [](const auto& v) { return v.length.value.value(); });
  json["working_length_measured"] = s.length && s.length->measured;
  json["spring_force_N"] = of(s.spring, [](const auto& v) { return v.force.value.value(); });
  json["spring_force_low_N"] = of(s.spring, [](const auto& v) { return v.low.value(); });
  json["spring_force_shortest_N"] =
      of(s.spring_shortest, [](const auto& v) { return v.force.value.value(); });
  json["spring_force_longest_N"] = of(s.spring_longest, [](const auto& v) { return v.force.value.value(); });
  json["dry_run_s"] = of(s.dry_run, [](const auto& v) { return v.earliest.value(); });
  json["seat_tilt_rad"] = of(s.tracking, [](const auto& v) { return v.tilt.value(); });
  json["bellows_stroke_m"] = of(s.tracking, [](const auto& v) { return v.stroke.value(); });
  json["tracking_required_N"] = of(s.tracking, [](const auto& v) { return v.required.value(); });
  json["tracking_available_N"] = of(s.tracking, [](const auto& v) { return v.available.value(); });
  json["face_margin_outer_m"] = of(s.overlap, [](const auto& v) { return v.outer_margin.value(); });
  json["face_margin_inner_m"] = of(s.overlap, [](const auto& v) { return v.inner_margin.value(); });
  json["track_width_m"] = of(s.overlap, [](const auto& v) { return v.track_width.value(); });
  json["sliding_m_s"] = of(s.load, [](const auto& v) { return v.sliding.value(); });
  json["spring_force_high_N"] = of(s.spring, [](const auto& v) { return v.high.value(); });
}

// The film's figures, or the hand formulas' where no film was found.
void add_film(OrderedJson& json, const job::SealService& s) {
  const bool solved = s.film && s.film->converged;
  const std::optional<seal::FilmSolution> film = solved ? s.film : std::nullopt;
  json["film_solved"] = solved;
  json["friction_torque_Nm"] = solved ? json_number(film->friction.value())
                                      : of(s.load, [](const auto& v) { return v.running.value(); });
  json["heat_W"] =
      solved ? json_number(film->heat.value()) : of(s.load, [](const auto& v) { return v.heat.value(); });
  json["face_temperature_K"] = of(film, [](const auto& v) { return kelvin_of(v.face_hottest); });
  json["film_m"] = of(film, [](const auto& v) { return v.mean_film.value(); });
  json["leakage_m3_s"] = of(film, [](const auto& v) { return v.leakage.value(); });
  json["contact_share"] = of(film, [](const auto& v) { return v.contact_share; });
  json["gradient_factor"] = of(film, [](const auto& v) { return v.gradient_factor; });
  json["boiling_share"] = of(film, [](const auto& v) { return v.boiling_share; });
  json["energy_residual"] = of(film, [](const auto& v) { return v.energy_residual; });
  json["profile"] = film ? profile_json(*film) : OrderedJson::array();
}

}  // namespace

std::string seal_json(const JobSession& session, const job::SealQuestion& question,
                      const job::SealFinding& finding, Language language) {
  OrderedJson json = {{"format", "pumpwright-seal"},
                      {"version", 1},
                      {"job", session.file.header.number},
                      {"verdict", job::word_of(finding.verdict)},
                      {"conditions_tried", question.tried}};
  add_pressures(json, finding.service);
  add_faces(json, finding.service);
  add_film(json, finding.service);
  json["verdicts"] = OrderedJson::array();
  for (const auto& check : finding.checks)
    json["verdicts"].push_back(verdict_json(*question.snapshot.plan.find(check.check), check, language));
  json["assumed"] = texts(finding.service.assumed, language);
  json["missing"] = texts(finding.service.missing, language);
  return json_text(json);
}

}  // namespace pumpwright
