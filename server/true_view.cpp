#include "server/true_view.h"

#include <algorithm>
#include <cmath>

#include <nlohmann/json.hpp>

#include "engine/quantity/format.h"
#include "job/true_picture.h"
#include "job/true_running.h"
#include "job/true_wording.h"
#include "server/amount_json.h"

namespace pumpwright::server {
namespace {

using job::Text;
using job::TrueFinding;
using job::TrueQuestion;
using job::TrueWording;
using nlohmann::json;

// A runout is shown as an indicator shows it.
constexpr double shown_step_m = 2.54e-6;

double whole_degrees(Angle angle) {
  const double turn = std::fmod(degrees_of(angle), 360);
  return std::round(turn < 0 ? turn + 360 : turn);
}

// What is said of one chain, in both languages.
template <class Chain>
class ChainView {
 public:
  ChainView(const job::JobTrueRunning& in, const job::MakeUp& make_up)
      : unit_(in.unit != nullptr ? *in.unit : unit_with_symbol("mm", Kind::length)),
        english_(unit_, job::Language::english, in.titles),
        spanish_(unit_, job::Language::spanish, in.titles),
        q_(job::question_of<Chain>(in)),
        f_(job::finding_of<Chain>(in)),
        make_up_(make_up) {}

  json view() const {
    return {{"verdict", f_.out_of_limits ? "fail" : "pass"},
            {"found", both([&](const TrueWording& w) { return w.found(q_, f_); })},
            {"advice", advice()},
            {"look_alikes", both([&](const TrueWording& w) { return w.look_alikes(f_); })},
            {"next", both([&](const TrueWording& w) { return w.next(f_); })},
            {"stations", stations()},
            {"remedies", remedies()},
            {"after", after()},
            {"picture", picture()}};
  }

 private:
  // Null where there is nothing to say.
  template <class Say>
  json both(Say say) const {
    const Text text{say(english_), say(spanish_)};
    return text.empty() ? json(nullptr) : text_json(text);
  }

  json length(Length l) const {
    return amount_json(AnyQuantity(l), units_beside(unit_, AnyQuantity(l)), shown_step_m);
  }

  json name(typename Chain::Part part) const {
    return both([&](const TrueWording& w) { return w.name(part); });
  }

  json title(const std::string& station) const {
    return both([&](const TrueWording& w) { return w.station(station); });
  }

  // Of what is blamed, where a sweep is beyond its limit and the readings decide.
  json advice() const {
    json out = json::array();
    if (!f_.attribution.decided || !f_.out_of_limits) return out;
    for (const auto& blame : f_.attribution.best().blames)
      out.push_back(both([&](const TrueWording& w) { return w.advice(blame); }));
    return out;
  }

  json shares_of(const std::string& station) const {
    json out = json::array();
    for (const auto& c : f_.attribution.contributions)
      if (c.station == station)
        out.push_back({{"part", name(c.part)}, {"tir", length(c.vector.size() * 2.0)}});
    return out;
  }

  json stations() const {
    json out = json::array();
    for (const auto& s : q_.stations) {
      const bool points =
          true_running::squared_distance(s.vector.si(), s.covariance) > true_running::region_95;
      const Length tir = s.vector.size() * 2.0;
      out.push_back(
          {{"check", s.id},
           {"title", title(s.id)},
           {"tir", length(tir)},
           {"high_spot", points ? both([&](const TrueWording& w) { return w.place(s.vector.direction()); })
                                : json(nullptr)},
           {"limit", s.limit ? length(s.limit->value) : json(nullptr)},
           {"beyond", s.limit && tir > s.limit->value},
           {"shares", shares_of(s.id)}});
    }
    return out;
  }

  // As the reading of a sweep names what was done before it.
  json done(const true_running::RotatingSetting& setting) const {
    json out{{"impeller_keyway", setting.impeller_keyway.value_or(0)}};
    if (setting.sleeve_turned) out["sleeve_turned_deg"] = whole_degrees(*setting.sleeve_turned);
    return out;
  }
  json done(const true_running::StandingSetting& setting) const {
    json out = json::object();
    if (setting.holes) out["holes"] = *setting.holes;
    if (setting.shift.size().value() > 0) {
      out["moved"] = english_.length(setting.shift.size());
      out["toward_deg"] = whole_degrees(setting.shift.direction().angle);
    }
    return out;
  }

  json predicted_of(const true_running::Remedy<Chain>& remedy) const {
    json out = json::array();
    for (const auto& p : remedy.predicted)
      if (p.limit)
        out.push_back({{"title", title(p.station)},
                       {"tir", length(p.tir.value)},
                       {"doubt", length(p.u * 2.0)},
                       {"limit", length(p.limit->value)}});
    return out;
  }

  // Least work first; none while every sweep keeps to its limit.
  json remedies() const {
    json out = json::array();
    if (!f_.out_of_limits) return out;
    for (std::size_t i = 0; i < f_.remedies.size(); ++i) {
      const auto& remedy = f_.remedies[i];
      if (remedy.work == 0) continue;
      out.push_back(
          {{"doing", both([&](const TrueWording& w) { return job::as_sentence(w.doing(remedy, q_)) + "."; })},
           {"recommended", i == f_.recommended},
           {"done", done(remedy.setting)},
           {"reaches", remedy.worst <= 1},
           {"predicted", predicted_of(remedy)}});
    }
    return out;
  }

  // How the last remedy came out, where it was swept again.
  json after() const {
    json out = json::array();
    for (const auto& swept : f_.after)
      out.push_back({{"title", title(swept.predicted.station)},
                     {"said", both([&](const TrueWording& w) { return w.outcome(swept); })},
                     {"surprise", swept.surprise}});
    return out;
  }

  json picture() const {
    const auto drawn = job::picture_of(q_, f_, make_up_);
    if (drawn.parts.empty()) return nullptr;
    json parts = json::array();
    for (const auto& p : drawn.parts)
      parts.push_back({{"part", job::word_for(p.part)},
                       {"name", name(p.part)},
                       {"from_m", p.from.value()},
                       {"to_m", p.to.value()},
                       {"radius_m", p.radius.value()},
                       {"off_from_m", p.off_from.value()},
                       {"off_to_m", p.off_to.value()}});
    return {{"parts", parts},
            {"up", both([&](const TrueWording& w) { return w.place(drawn.up); })},
            {"magnification", drawn.magnification}};
  }

  const Unit& unit_;
  TrueWording english_, spanish_;
  const TrueQuestion<Chain>& q_;
  TrueFinding<Chain> f_;
  const job::MakeUp& make_up_;
};

template <class Chain>
json chain_view(const job::JobTrueRunning& in, const job::MakeUp& make_up) {
  if (job::question_of<Chain>(in).stations.empty()) return nullptr;
  return ChainView<Chain>(in, make_up).view();
}

}  // namespace

json true_view(const job::Snapshot& snapshot, const job::JobState& state, const job::Judgement& judgement) {
  const job::JobTrueRunning in = job::true_running_of(snapshot, state, judgement);
  json left_out = json::array(), assumed = json::array();
  for (const auto& left : in.left_out)
    left_out.push_back({{"what", text_json(left.what)}, {"why", text_json(left.why)}});
  for (const auto& text : in.assumed)
    assumed.push_back(text_json(text));
  return {{"rotating", chain_view<true_running::Rotating>(in, snapshot.make_up)},
          {"standing", chain_view<true_running::Standing>(in, snapshot.make_up)},
          {"left_out", left_out},
          {"assumed", assumed}};
}

}  // namespace pumpwright::server
