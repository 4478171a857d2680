#include "job/true_running.h"

#include <algorithm>
#include <array>
#include <complex>
#include <optional>
#include <type_traits>

#include <fmt/format.h>

namespace pumpwright::job {

template <>
const TrueQuestion<true_running::Rotating>& question_of(const JobTrueRunning& in) {
  return in.rotating;
}

template <>
const TrueQuestion<true_running::Standing>& question_of(const JobTrueRunning& in) {
  return in.standing;
}

namespace {

using true_running::Offset;
using true_running::Rotating;
using true_running::Standing;
using true_running::Station;
using true_running::Surface;

// A size the make-up does not give.
struct SizeMissing {
  std::string name;
};

Text not_given(const SizeMissing& missing) {
  return {fmt::format("the make-up does not give {}", missing.name),
          fmt::format("la configuración no da {}", missing.name)};
}

class Sizes {
 public:
  explicit Sizes(const MakeUp& make_up) : make_up_(make_up) {}

  Length operator()(std::string_view name) const {
    const Dimension* d = make_up_.dimension(name);
    if (d == nullptr) throw SizeMissing{std::string(name)};
    return d->nominal;
  }
  std::optional<Length> known(std::string_view name) const {
    const Dimension* d = make_up_.dimension(name);
    return d == nullptr ? std::nullopt : std::optional<Length>(d->nominal);
  }
  Length hub_back() const {
    return make_up_.sleeve ? (*this)("shaft_shoulder") + (*this)("sleeve_length") : (*this)("shaft_shoulder");
  }
  const MakeUp& make_up() const { return make_up_; }

 private:
  const MakeUp& make_up_;
};

// Where the checks' places lie [m] from the mounting face. NEMA sweeps a shaft at its end, IEC midway (the
// plan says so); the impeller is swept near its rim.
Length axial_place(const std::string& place, const Sizes& size) {
  if (place == "shaft-end")
    return size.make_up().driver.standard == "iec" ? size("shaft_length") * 0.5 : size("shaft_length");
  if (place == "sleeve") return size("shaft_shoulder") + size("sleeve_length") * 0.5;
  if (place == "impeller-eye") return size.hub_back() + size("impeller_width");
  if (place == "bracket-register")
    return size("seat_depth") + size.known("seat_thickness").value_or(metres(0)) * 0.5;
  if (place == "seat-face") return size("seat_depth");
  return metres(0);  // register and mounting face
}

template <class Part>
struct PlaceOfPart {
  std::string_view place;
  Part part;
};

constexpr std::array<PlaceOfPart<Rotating::Part>, 3> rotating_places{{
    {"shaft-end", Rotating::Part::shaft},
    {"sleeve", Rotating::Part::sleeve},
    {"impeller-eye", Rotating::Part::impeller},
}};
constexpr std::array<PlaceOfPart<Standing::Part>, 4> standing_places{{
    {"register", Standing::Part::motor},
    {"mounting-face", Standing::Part::motor},
    {"bracket-register", Standing::Part::bracket},
    {"seat-face", Standing::Part::seat},
}};

template <class Part, std::size_t n>
const PlaceOfPart<Part>* part_at(const std::array<PlaceOfPart<Part>, n>& places, const std::string& place) {
  const auto found =
      std::find_if(places.begin(), places.end(), [&](const auto& p) { return p.place == place; });
  return found == places.end() ? nullptr : &*found;
}

// Why a judged sweep can name no direction on the machine; empty when it can.
Text no_direction(const JudgedReading& reading) {
  switch (reading.reason) {
    case Reason::mount_missing:
    case Reason::wrong_mount:
    case Reason::base_not_rigid:
    case Reason::shaft_not_held:
    case Reason::bar_sag_not_measured:
      return title_of(reading.reason);
    default:
      break;
  }
  if (!reading.sweep) return {"no sweep in it", "no contiene un barrido"};
  if (!reading.sweep->vector_uncertainty)
    return {"too few places to say how sure it is", "muy pocos lugares para decir cuán seguro es"};
  return {};
}

// The last remedy any standing sweep of a chain names.
struct Remedied {
  std::optional<UtcTime> time;
  SweepRemedy what;
};

bool moves(const SweepRemedy& remedy, Rotating::Part part) {
  if (part == Rotating::Part::shaft) return false;
  return part == Rotating::Part::impeller || remedy.sleeve_turned_deg.has_value();
}
bool moves(const SweepRemedy& /*remedy*/, Standing::Part part) {
  return part != Standing::Part::motor;
}

// As the chain's own setting.
template <class Chain>
typename true_running::SettingOf<Chain>::type setting_of(const SweepRemedy& remedy);
template <>
true_running::RotatingSetting setting_of<Rotating>(const SweepRemedy& remedy) {
  true_running::RotatingSetting out;
  out.impeller_keyway = remedy.impeller_keyway;
  if (remedy.sleeve_turned_deg) out.sleeve_turned = degrees(*remedy.sleeve_turned_deg);
  return out;
}
template <>
true_running::StandingSetting setting_of<Standing>(const SweepRemedy& remedy) {
  true_running::StandingSetting out;
  if (remedy.moved)
    out.shift = Offset<Standing>::from_si(std::polar(remedy.moved->si, degrees(remedy.toward_deg).value()));
  out.holes = remedy.holes;
  return out;
}

// Whether a check sweeps a part of the chain.
template <class Chain>
bool is_of(const Check& check) {
  if constexpr (std::is_same_v<Chain, Rotating>)
    return part_at(rotating_places, check.place) != nullptr;
  else
    return part_at(standing_places, check.place) != nullptr;
}

std::vector<const Check*> sweep_checks(const Plan& plan) {
  std::vector<const Check*> out;
  for (const auto& step : plan.steps)
    for (const auto& check : step.checks)
      if (check.kind == CheckKind::sweep && check.from.empty()) out.push_back(&check);
  return out;
}

template <class Chain>
Remedied last_remedy(const Snapshot& snapshot, const JobState& state) {
  Remedied out;
  for (const Check* check : sweep_checks(snapshot.plan)) {
    const auto standing = state.standing.find(check->id);
    if (standing == state.standing.end() || !is_of<Chain>(*check)) continue;
    for (const Reading& reading : standing->second) {
      const auto& remedy = std::get<SweepReading>(reading.body).remedy;
      if (remedy && (!out.time || *out.time < reading.time)) out = {reading.time, *remedy};
    }
  }
  return out;
}

// The sweeps as they stood before that moment.
JobState state_before(const Snapshot& snapshot, const JobState& state, UtcTime moment) {
  JobState out;
  const auto keep = [&](const Reading& reading) {
    if (reading.time < moment) out.standing[reading.check].push_back(reading);
  };
  for (const Reading& reading : state.replaced)
    if (state.before_remedy.count(reading.id) != 0) keep(reading);
  for (const Check* check : sweep_checks(snapshot.plan))
    if (const auto at = state.standing.find(check->id); at != state.standing.end())
      std::for_each(at->second.begin(), at->second.end(), keep);
  return out;
}

Judgement judged_sweeps(const Snapshot& snapshot, const JobState& state) {
  Judgement out;
  for (const Check* check : sweep_checks(snapshot.plan))
    out.findings.push_back(judge(snapshot, state, *check));
  return out;
}

// The last reading taken of a check, and how it was judged.
struct LastSweep {
  UtcTime time;
  const SweepReading* body = nullptr;
  const JudgedReading* judged = nullptr;
};

std::optional<LastSweep> last_sweep(const Check& check, const JobState& state, const Judgement& judgement) {
  const auto standing = state.standing.find(check.id);
  const CheckFinding* finding = judgement.find(check.id);
  if (standing == state.standing.end() || standing->second.empty() || finding == nullptr) return std::nullopt;
  const auto last = std::max_element(standing->second.begin(), standing->second.end(),
                                     [](const Reading& a, const Reading& b) { return a.time < b.time; });
  for (const auto& r : finding->readings)
    if (r.reading_id == last->id) return LastSweep{last->time, &std::get<SweepReading>(last->body), &r};
  return std::nullopt;
}

Length swept_radius(const Check& check, const SweepReading& body, const Sizes& size) {
  return body.radius ? metres(body.radius->si) : size(check.sweep.radius_dimension) * 0.5;
}

// The deciding limit as a TIR where it was swept: squareness is stated over another diameter, eccentricity is
// half.
std::optional<Tir> limit_of(const Check& check, Length radius, const Sizes& size) {
  if (check.limits.empty() || !check.limits.front().upper) return std::nullopt;
  const Length upper = metres(check.limits.front().upper->si);
  if (check.judged != Judged::squareness || check.sweep.over_dimension.empty()) return Tir{upper};
  return Tir{upper * (2.0 * radius / size(check.sweep.over_dimension)).value()};
}

template <class Chain>
Station<Chain> station_of(const Check& check, typename Chain::Part part, const LastSweep& sweep,
                          const Sizes& size) {
  const SweepResult& result = *sweep.judged->sweep;
  Station<Chain> s{.id = check.id, .part = part, .at = axial_place(check.place, size)};
  if (check.sweep.face) {
    s.surface = Surface::face;
    s.radius = swept_radius(check, *sweep.body, size);
  }
  s.vector = {result.vector[0], result.vector[1]};
  s.covariance = result.vector_uncertainty->covariance;
  s.limit = limit_of(check, s.radius, size);
  return s;
}

class Collecting {
 public:
  Collecting(const Snapshot& snapshot, const JobState& state, const Judgement& judgement)
      : size_(snapshot.make_up),
        snapshot_(snapshot),
        state_(state),
        judgement_(judgement),
        rotating_remedy_(last_remedy<Rotating>(snapshot, state)),
        standing_remedy_(last_remedy<Standing>(snapshot, state)) {}

  JobTrueRunning run() {
    for (const Check* check : sweep_checks(snapshot_.plan))
      add(*check);
    set_rotating();
    set_standing();
    return std::move(out_);
  }

 private:
  void add(const Check& check) {
    const auto sweep = last_sweep(check, state_, judgement_);
    if (!sweep) return;
    if (out_.unit == nullptr) out_.unit = sweep->judged->unit;
    if (const auto why = no_direction(*sweep->judged); !why.empty()) {
      out_.left_out.push_back({check.id, check.title, why});
      return;
    }
    out_.titles.emplace(check.id, check.title);
    try {
      if (const auto* p = part_at(rotating_places, check.place))
        add_to(out_.rotating, rotating_remedy_, check, p->part, *sweep);
      else if (const auto* q = part_at(standing_places, check.place))
        add_to(out_.standing, standing_remedy_, check, q->part, *sweep);
    } catch (const SizeMissing& missing) {
      out_.left_out.push_back({check.id, check.title, not_given(missing)});
    }
  }

  template <class Chain>
  void add_to(TrueQuestion<Chain>& question, const Remedied& last, const Check& check,
              typename Chain::Part part, const LastSweep& sweep) {
    if (last.time && sweep.time < *last.time && moves(last.what, part)) {
      out_.left_out.push_back(
          {check.id,
           check.title,
           {"its part was moved after it was swept", "su pieza se movió después del barrido"}});
      return;
    }
    question.stations.push_back(station_of<Chain>(check, part, sweep, size_));
    const auto& s = question.stations.back();
    if (sweep.judged->verdict == Verdict::fail && s.limit && s.vector.size() * 2.0 <= s.limit->value)
      out_.assumed.push_back({fmt::format("{} fails by the surface's own form (oval, burr), which no moving "
                                          "cures: what it reads once a turn "
                                          "keeps to the limit.",
                                          check.title.en),
                              fmt::format("{} no pasa por la forma de la propia superficie (óvalo, rebaba), "
                                          "que no se cura moviendo: lo que lee "
                                          "una vez por vuelta cumple el límite.",
                                          check.title.es)});
  }

  void set_rotating() {
    auto& q = out_.rotating;
    q.moves = {.sleeve_turns = size_.make_up().sleeve, .impeller_keyways = size_.make_up().keyways};
    const auto radius = size_.known("impeller_diameter");
    if (radius) q.face_radius = *radius * 0.5;
    try {
      if (size_.make_up().sleeve) q.geometry.sleeve_seat = size_("shaft_shoulder");
      q.geometry.impeller_seat = size_.hub_back();
    } catch (const SizeMissing& missing) {
      const auto needs = [](const auto& s) { return s.part != Rotating::Part::shaft; };
      std::erase_if(q.stations, needs);
      out_.left_out.push_back({"", {"sleeve and impeller", "manguito e impulsor"}, not_given(missing)});
    }
    if (q.stations.empty()) return;
    out_.assumed.push_back({"A bent shaft is taken to leave its axis at the mounting face.",
                            "Se supone que un eje doblado deja su eje en la cara de montaje."});
    if (q.geometry.sleeve_seat)
      out_.assumed.push_back(
          {"The sleeve is taken to fit at any angle (no key, no pin).",
           "Se supone que el manguito entra en cualquier ángulo (sin chaveta ni pasador)."});
  }

  void set_standing() {
    auto& q = out_.standing;
    q.room_known = false;
    double reach_m = 0;
    for (const auto& s : q.stations)
      reach_m = std::max(reach_m, 2 * s.vector.size().value());
    q.moves.room = metres(reach_m);
    q.geometry.seat = size_.known("seat_depth").value_or(metres(0));
    if (q.stations.empty()) return;
    out_.assumed.push_back(
        {"How far the bracket can go on its register is not in the job: taken to be as far as it must.",
         "Cuánto puede correrse el soporte en su encaje no está en el trabajo: se toma lo que haga falta."});
  }

  Sizes size_;
  const Snapshot& snapshot_;
  const JobState& state_;
  const Judgement& judgement_;
  Remedied rotating_remedy_, standing_remedy_;
  JobTrueRunning out_;
};

// The question as it stood before the last remedy, with the sweeps taken since. Nothing while no sweep names
// a remedy, or nothing that was swept before was swept since.
template <class Chain>
std::optional<TrueQuestion<Chain>> before_remedy(const Snapshot& snapshot, const JobState& state,
                                                 const JobTrueRunning& now) {
  const Remedied last = last_remedy<Chain>(snapshot, state);
  if (!last.time) return std::nullopt;
  const JobState earlier = state_before(snapshot, state, *last.time);
  const Judgement judgement = judged_sweeps(snapshot, earlier);
  TrueQuestion<Chain> out = question_of<Chain>(Collecting(snapshot, earlier, judgement).run());
  TrueAfter<Chain> after{.setting = setting_of<Chain>(last.what), .stations = {}};
  for (const Station<Chain>& s : question_of<Chain>(now).stations) {
    const auto& taken = state.standing.at(s.id);
    const bool since = std::any_of(taken.begin(), taken.end(),
                                   [&](const Reading& reading) { return !(reading.time < *last.time); });
    const bool known = std::any_of(out.stations.begin(), out.stations.end(),
                                   [&](const Station<Chain>& earlier_one) { return earlier_one.id == s.id; });
    if (since && known) after.stations.push_back(s);
  }
  if (after.stations.empty()) return std::nullopt;
  out.after = std::move(after);
  return out;
}

template <class Chain>
TrueFinding<Chain> with_outcome(const TrueQuestion<Chain>& now,
                                const std::optional<TrueQuestion<Chain>>& before) {
  TrueFinding<Chain> found = answer(now);
  if (before) found.after = answer(*before).after;
  return found;
}

}  // namespace

JobTrueRunning true_running_of(const Snapshot& snapshot, const JobState& state, const Judgement& judgement) {
  JobTrueRunning now = Collecting(snapshot, state, judgement).run();
  now.rotating_before = before_remedy<Rotating>(snapshot, state, now);
  now.standing_before = before_remedy<Standing>(snapshot, state, now);
  return now;
}

template <>
TrueFinding<Rotating> finding_of(const JobTrueRunning& in) {
  return with_outcome(in.rotating, in.rotating_before);
}

template <>
TrueFinding<Standing> finding_of(const JobTrueRunning& in) {
  return with_outcome(in.standing, in.standing_before);
}

}  // namespace pumpwright::job
