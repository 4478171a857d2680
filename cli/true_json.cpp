// What `pumpwright true --json` prints: everything in SI, directions in degrees from the keyway or in clock
// positions, never both in one object.
#include <cmath>

#include <fmt/format.h>

#include "cli/json_values.h"
#include "cli/true_report.h"

namespace pumpwright {
namespace {

using job::TrueFinding;
using job::TrueQuestion;
using job::TrueWording;
using true_running::ClockPosition;
using true_running::Covariance2;
using true_running::FromKeyway;
using true_running::Rotating;
using true_running::Standing;

void add_direction(OrderedJson& json, FromKeyway at) {
  json["keyway_deg"] = degrees_of(at.angle);
}
void add_direction(OrderedJson& json, ClockPosition at) {
  const long halves = std::lround(degrees_of(at.angle) / 15) % 24;
  json["clock"] = fmt::format("{}:{:02}", halves < 2 ? 12 : halves / 2, halves % 2 * 30);
  json["clock_deg"] = degrees_of(at.angle);
}

OrderedJson covariance_json(const Covariance2& c) {
  return {c[0], c[1], c[2], c[3]};
}

template <class Chain, class Q>
void add_vector(OrderedJson& json, const char* key, const true_running::PlaneVector<Chain, Q>& v) {
  json[key] = json_number(v.size().value());
  add_direction(json, v.direction());
}

template <class Chain>
OrderedJson blame_json(const true_running::Blame<Chain>& b) {
  OrderedJson json = {{"fault", true_running::word_for(b.fault)},
                      {"part", nullptr},
                      {"station", nullptr},
                      {"offset_m", nullptr},
                      {"tilt_rad", nullptr}};
  if (b.part) json["part"] = job::word_for(*b.part);
  if (!b.station.empty()) json["station"] = b.station;
  if (b.offset) add_vector(json, "offset_m", *b.offset);
  if (b.tilt) add_vector(json, "tilt_rad", *b.tilt);
  json["covariance"] = covariance_json(b.covariance);
  return json;
}

template <class Chain>
OrderedJson blames_json(const true_running::Hypothesis<Chain>& h) {
  auto out = OrderedJson::array();
  for (const auto& b : h.blames)
    out.push_back(blame_json(b));
  return out;
}

template <class Chain>
std::string hypothesis_name(const true_running::Hypothesis<Chain>& h) {
  if (h.blames.empty()) return "nothing-wrong";
  std::string out;
  for (const auto& b : h.blames)
    out += (out.empty() ? "" : "+") + std::string(true_running::word_for(b.fault));
  return out;
}

template <class Chain>
OrderedJson hypotheses_json(const true_running::Attribution<Chain>& a) {
  auto out = OrderedJson::array();
  for (const auto& h : a.hypotheses)
    out.push_back({{"name", hypothesis_name(h)},
                   {"probability", json_number(h.probability)},
                   {"reads_like_the_best", h.looks_like_the_best},
                   {"blames", blames_json(h)}});
  return out;
}

template <class Chain>
OrderedJson stations_json(const TrueQuestion<Chain>& q) {
  auto out = OrderedJson::array();
  for (const auto& s : q.stations) {
    OrderedJson json = {
        {"id", s.id}, {"part", job::word_for(s.part)}, {"at_m", s.at.value()}, {"radius_m", nullptr}};
    if (s.surface == true_running::Surface::face) json["radius_m"] = s.radius.value();
    json["tir_m"] = 2 * s.vector.size().value();
    add_direction(json, s.vector.direction());
    json["covariance_m2"] = covariance_json(s.covariance);
    json["limit_m"] = s.limit ? json_number(s.limit->value.value()) : OrderedJson(nullptr);
    out.push_back(std::move(json));
  }
  return out;
}

template <class Chain>
OrderedJson parts_json(const true_running::Attribution<Chain>& a) {
  auto out = OrderedJson::array();
  for (const auto& p : a.parts) {
    OrderedJson offset = OrderedJson::object(), tilt = OrderedJson::object();
    add_vector(offset, "size_m", p.offset);
    offset["covariance_m2"] = covariance_json(p.offset_covariance);
    add_vector(tilt, "size_rad", p.tilt);
    tilt["covariance_rad2"] = covariance_json(p.tilt_covariance);
    out.push_back({{"part", job::word_for(p.part)}, {"offset", offset}, {"tilt", tilt}});
  }
  return out;
}

template <class Chain>
OrderedJson contributions_json(const true_running::Attribution<Chain>& a) {
  auto out = OrderedJson::array();
  for (const auto& c : a.contributions) {
    OrderedJson json = {{"station", c.station}, {"part", job::word_for(c.part)}};
    add_vector(json, "eccentricity_m", c.vector);
    json["covariance_m2"] = covariance_json(c.covariance);
    out.push_back(std::move(json));
  }
  return out;
}

template <class Chain>
OrderedJson next_json(const TrueFinding<Chain>& f, const TrueWording& words) {
  if (!f.next) return nullptr;
  const auto& chosen = f.next->chosen;
  return {{"what", words.candidate(f.candidate_words[chosen.candidate])},
          {"station", f.candidates[chosen.candidate].station.id},
          {"work", f.candidates[chosen.candidate].work},
          {"expected_nats", json_number(chosen.nats)}};
}

OrderedJson setting_json(const true_running::RotatingSetting& s) {
  OrderedJson json = OrderedJson::object();
  if (s.impeller_keyway) json["impeller_keyway"] = *s.impeller_keyway;
  if (s.sleeve_turned) json["sleeve_turned_deg"] = degrees_of(*s.sleeve_turned);
  return json;
}
OrderedJson setting_json(const true_running::StandingSetting& s) {
  OrderedJson json = OrderedJson::object();
  if (s.shift.size().value() > 0) {
    OrderedJson move = OrderedJson::object();
    add_vector(move, "moved_m", s.shift);
    json["move"] = move;
  }
  if (s.shim) {
    OrderedJson shim = {{"thickness_m", s.shim->thickness.value()}};
    add_direction(shim, s.shim->bolt);
    json["shim"] = shim;
  }
  if (s.holes) json["holes"] = *s.holes;
  return json;
}

template <class Chain>
OrderedJson predicted_json(const true_running::Predicted<Chain>& p) {
  OrderedJson json = {
      {"check", p.station}, {"tir_m", json_number(p.tir.value.value())}, {"u_m", p.u.value()}};
  json["limit_m"] = p.limit ? json_number(p.limit->value.value()) : OrderedJson(nullptr);
  add_direction(json, p.vector.direction());
  return json;
}

template <class Chain>
OrderedJson remedies_json(const TrueQuestion<Chain>& q, const TrueFinding<Chain>& f,
                          const TrueWording& words) {
  auto out = OrderedJson::array();
  for (std::size_t i = 0; i < f.remedies.size(); ++i) {
    const auto& r = f.remedies[i];
    auto predicted = OrderedJson::array();
    for (const auto& p : r.predicted)
      predicted.push_back(predicted_json(p));
    out.push_back({{"what", words.doing(r, q)},
                   {"work", r.work},
                   {"recommended", i == f.recommended},
                   {"settings", setting_json(r.setting)},
                   {"worst_tir_over_limit", json_number(r.worst)},
                   {"predicted", predicted}});
  }
  return out;
}

template <class Chain>
OrderedJson after_json(const TrueFinding<Chain>& f) {
  auto out = OrderedJson::array();
  for (const auto& s : f.after)
    out.push_back({{"check", s.predicted.station},
                   {"predicted_tir_m", json_number(s.predicted.tir.value.value())},
                   {"predicted_u_m", json_number(s.predicted.u.value())},
                   {"actual_tir_m", json_number(s.actual_tir.value.value())},
                   {"distance", json_number(s.distance)},
                   {"surprise", s.surprise}});
  return out;
}

template <class Chain>
OrderedJson chain_json(const TrueQuestion<Chain>& q, const TrueFinding<Chain>& f, const TrueWording& words) {
  const auto& a = f.attribution;
  auto unseen = OrderedJson::array();
  for (const auto fault : a.not_looked_at)
    unseen.push_back(true_running::word_for(fault));
  return {{"verdict", f.out_of_limits ? "fail" : "pass"},
          {"culprit", a.decided ? OrderedJson(hypothesis_name(a.best())) : OrderedJson(nullptr)},
          {"decided", a.decided},
          {"alone", a.alone},
          {"probability", json_number(a.probability)},
          {"out_of_limits", f.out_of_limits},
          {"stations", stations_json(q)},
          {"hypotheses", hypotheses_json(a)},
          {"not_looked_at", unseen},
          {"parts", parts_json(a)},
          {"contributions", contributions_json(a)},
          {"next_measurement", next_json(f, words)},
          {"remedies", remedies_json(q, f, words)},
          {"after", after_json(f)}};
}

}  // namespace

std::string true_json(const TrueReport& r) {
  const TrueWording words = r.wording();
  OrderedJson json = {{"file", r.file}, {"name", r.name}, {"rotating", nullptr}, {"standing", nullptr}};
  if (r.rotating) json["rotating"] = chain_json(r.rotating_question, *r.rotating, words);
  if (r.standing) {
    json["standing"] = chain_json(r.standing_question, *r.standing, words);
    json["standing"]["room_m"] = r.standing_question.room_known
                                     ? json_number(r.standing_question.moves.room.value())
                                     : OrderedJson(nullptr);
    json["standing"]["tapping"] = nullptr;
    if (r.tapping)
      json["standing"]["tapping"] = {{"moved_m", json_number(r.tapping->moved.value())},
                                     {"left_m", json_number(r.tapping->left.value())},
                                     {"stop_at_m", json_number(r.tapping->stop_at.value())}};
  }
  json["left_out"] = OrderedJson::array();
  for (const auto& left : r.left_out)
    json["left_out"].push_back(
        {{"check", left.check}, {"what", words.say(left.what)}, {"why", words.say(left.why)}});
  json["assumed"] = OrderedJson::array();
  for (const auto& assumed : r.assumed)
    json["assumed"].push_back(words.say(assumed));
  return json_text(json);
}

}  // namespace pumpwright
