#include "job/true_finding.h"

#include <algorithm>
#include <cmath>

#include "engine/quantity/bad_input.h"

namespace pumpwright::job {
namespace {

using true_running::Candidate;
using true_running::Rotating;
using true_running::Standing;
using true_running::Station;
using true_running::Surface;

constexpr std::size_t sleeve = 1, impeller = 2, bracket = 1;
constexpr double a_third = 2 * pi / 3;
constexpr double same_place_m = 2e-3;

Text set_anew() {
  return {"{} again, with the indicator set anew", "{} otra vez, con el comparador puesto de nuevo"};
}

// What a new sweep is expected to be as sure as: the middle one of those taken.
template <class Chain>
Length usual_u(const std::vector<Station<Chain>>& stations) {
  std::vector<double> u;
  u.reserve(stations.size());
  for (const auto& s : stations)
    u.push_back(std::sqrt((s.covariance[0] + s.covariance[3]) / 2));
  std::nth_element(u.begin(), u.begin() + static_cast<std::ptrdiff_t>(u.size() / 2), u.end());
  return metres(u[u.size() / 2]);
}

template <class Chain>
class Candidates {
 public:
  Candidates(const TrueQuestion<Chain>& question, TrueFinding<Chain>& finding) : q_(question), f_(finding) {}

  void add(Station<Chain> station, int work, Text what, std::string again = {}) {
    f_.candidates.push_back({std::move(station), work});
    f_.candidate_words.push_back({std::move(what), std::move(again)});
  }
  void add_again(const Station<Chain>& station, int work, Text what) {
    add(station, work, std::move(what), station.id);
  }
  // A place nobody has swept yet.
  void add_new(Station<Chain> station, int work, Text what) {
    const auto same = [&](const Station<Chain>& s) {
      return s.part == station.part && s.surface == station.surface &&
             (s.surface == Surface::face || std::abs((s.at - station.at).value()) < same_place_m);
    };
    if (std::none_of(q_.stations.begin(), q_.stations.end(), same))
      add(std::move(station), work, std::move(what));
  }
  const Station<Chain>* outermost(typename Chain::Part part, Surface surface) const {
    const Station<Chain>* found = nullptr;
    for (const auto& s : q_.stations)
      if (s.part == part && s.surface == surface && (found == nullptr || s.at > found->at)) found = &s;
    return found;
  }

 private:
  const TrueQuestion<Chain>& q_;
  TrueFinding<Chain>& f_;
};

void add_candidates(const TrueQuestion<Rotating>& q, TrueFinding<Rotating>& f) {
  using Part = Rotating::Part;
  Candidates<Rotating> c(q, f);
  const auto& g = q.geometry;
  const bool sleeved = g.sleeve_seat.has_value();
  for (const auto& s : q.stations) {
    const int work = s.part == Part::impeller ? 0 : s.part == Part::sleeve || !sleeved ? 1 : 2;
    c.add_again(s, work, set_anew());
  }
  const Length first = sleeved ? *g.sleeve_seat : g.impeller_seat;
  c.add_new({.id = "bare shaft near the bearing", .part = Part::shaft, .at = first * 0.25}, sleeved ? 2 : 1,
            {"the bare shaft near the bearing", "el eje desnudo cerca del rodamiento"});
  c.add_new({.id = "bare shaft under the impeller", .part = Part::shaft, .at = g.impeller_seat},
            sleeved ? 2 : 1,
            {"the bare shaft where the impeller sits", "el eje desnudo donde va el impulsor"});
  if (sleeved)
    c.add_new({.id = "sleeve near its shoulder", .part = Part::sleeve, .at = *g.sleeve_seat + metres(5e-3)},
              1, {"the sleeve close to its shoulder", "el manguito cerca de su hombro"});
  c.add_new({.id = "impeller hub", .part = Part::impeller, .at = g.impeller_seat + metres(5e-3)}, 0,
            {"the impeller's hub, close to the sleeve", "el cubo del impulsor, cerca del manguito"});
  if (q.face_radius)
    c.add_new({.id = "front shroud face",
               .part = Part::impeller,
               .surface = Surface::face,
               .at = g.impeller_seat,
               .radius = *q.face_radius},
              0,
              {"the impeller's front face near its rim, shaft held to one side",
               "la cara delantera del impulsor cerca del borde, eje sujeto hacia un lado"});
  if (const auto* s = c.outermost(Part::impeller, Surface::radial)) {
    auto again = *s;
    again.refitted[impeller] = radians(0);
    c.add_again(again, 1,
                {"{} again, once the impeller was drawn, cleaned and fitted as it was",
                 "{} otra vez, tras sacar, limpiar y montar el impulsor como estaba"});
  }
  if (const auto* s = c.outermost(Part::sleeve, Surface::radial)) {
    auto again = *s;
    again.refitted[sleeve] = radians(a_third);
    c.add_again(again, 2,
                {"{} again, once the sleeve was drawn, cleaned and turned by a third",
                 "{} otra vez, tras sacar, limpiar y girar un tercio el manguito"});
  }
}

void add_candidates(const TrueQuestion<Standing>& q, TrueFinding<Standing>& f) {
  using Part = Standing::Part;
  Candidates<Standing> c(q, f);
  for (const auto& s : q.stations)
    c.add_again(s, s.part == Part::motor ? 2 : 0, set_anew());
  c.add_new({.id = "motor register", .part = Part::motor}, 2,
            {"the motor's register, bracket off", "el encaje del motor, sin soporte"});
  if (const auto* bore = c.outermost(Part::bracket, Surface::radial))
    c.add_new({.id = "bracket bore, close to the motor", .part = Part::bracket, .at = bore->at * 0.5}, 0,
              {"the bracket's bore half as far out", "el alojamiento del soporte a media distancia"});
  if (q.face_radius)
    c.add_new({.id = "bracket face",
               .part = Part::bracket,
               .surface = Surface::face,
               .at = q.geometry.seat,
               .radius = *q.face_radius},
              0,
              {"the bracket's own machined face, shaft held to one side",
               "la cara mecanizada del soporte, eje sujeto hacia un lado"});
  for (const auto surface : {Surface::radial, Surface::face})
    for (const auto part : {Part::bracket, Part::seat})
      if (const auto* s = c.outermost(part, surface)) {
        auto again = *s;
        again.refitted[bracket] = radians(0);
        c.add_again(again, 1,
                    {"{} again, once the bracket was off, the faces cleaned, and bolted on as it was",
                     "{} otra vez, tras quitar el soporte, limpiar las caras y atornillarlo como estaba"});
      }
}

template <class Chain>
std::vector<true_running::AfterSweep<Chain>> after_of(const TrueQuestion<Chain>& q,
                                                      const true_running::ErrorBelief& errors) {
  std::vector<true_running::AfterSweep<Chain>> out;
  const auto foretold =
      true_running::predict_with(std::span(q.stations), q.geometry, errors, q.moves, q.after->setting);
  for (const auto& actual : q.after->stations) {
    const auto found =
        std::find_if(foretold.begin(), foretold.end(), [&](const auto& p) { return p.station == actual.id; });
    if (found == foretold.end())
      throw BadInput({"id", "after", actual.id, "the id of a station swept before"});
    out.push_back(true_running::compare(*found, actual));
  }
  return out;
}

template <class Chain>
bool beyond(const Station<Chain>& s) {
  return s.limit && s.vector.size() * 2.0 > s.limit->value;
}

template <class Chain>
TrueFinding<Chain> answer_of(const TrueQuestion<Chain>& q) {
  TrueFinding<Chain> f;
  const std::span<const Station<Chain>> stations(q.stations);
  f.attribution = true_running::attribute<Chain>(stations, q.geometry);
  add_candidates(q, f);
  f.next = true_running::next_measurement<Chain>(
      stations, q.geometry, std::span<const Candidate<Chain>>(f.candidates), usual_u(q.stations));
  f.remedies = true_running::remedies(stations, q.geometry, f.attribution.errors, q.moves);
  f.recommended = true_running::recommended<Chain>(f.remedies);
  if (q.after) f.after = after_of(q, f.attribution.errors);
  f.out_of_limits = std::any_of(q.stations.begin(), q.stations.end(), beyond<Chain>);
  return f;
}

}  // namespace

TrueFinding<Rotating> answer(const TrueQuestion<Rotating>& question) {
  return answer_of(question);
}

TrueFinding<Standing> answer(const TrueQuestion<Standing>& question) {
  return answer_of(question);
}

}  // namespace pumpwright::job
