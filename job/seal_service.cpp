#include "job/seal_service.h"

#include <algorithm>
#include <cmath>

#include "engine/fluid/liquid_by_name.h"
#include "engine/seal/atmosphere.h"
#include "job/service_wording.h"

namespace pumpwright::job {
namespace {

// Axial length of a face's part when neither sheet nor make-up gives one.
constexpr double usual_part_length_m = 8e-3;
// Doubt of a spring by its sheet (standard uncertainty as a share). Common practice, no source.
constexpr double spring_doubt = 0.05;
// Of carbon on a hard face without liquid; 0.1 to 0.4 (remembered).
constexpr double usual_dry_friction = 0.25;
// Of the absolute suction pressure: more than rounding to three digits takes away.
constexpr double suction_reserve = 0.006;
constexpr int suction_tries = 24;
// Where parts are measured (ISO 1).
constexpr double bench_k = 293.15;
// Of the liquid in a seal's chamber by the faces' heat: API 682 recommends at most 5.6 K (read second hand).
constexpr double chamber_rise_k = 5.6;
// How far the map reaches around the service's own point.
constexpr double map_colder_k = 40, map_hotter_k = 40;
constexpr double least_map_pressure_pa = 1e5;

class Computation {
 public:
  Computation(const JudgeContext& in, Asked asked, std::optional<Length> length)
      : in_(in), make_up_(in.snapshot.make_up) {
    using Part = void (Computation::*)();
    take_length(length);
    for (const Part part : {&Computation::find_liquid, &Computation::take_state, &Computation::take_chamber,
                            &Computation::take_faces, &Computation::take_spring})
      compute(part);
    if (asked == Asked::forces) return;
    for (const Part part : {&Computation::take_load, &Computation::take_tracking, &Computation::take_overlap})
      compute(part);
    if (asked == Asked::loads) return;
    for (const Part part : {&Computation::take_rings, &Computation::take_film, &Computation::take_margin,
                            &Computation::take_circulation, &Computation::take_dry_run})
      compute(part);
  }

  SealService result() && { return std::move(out_); }

 private:
  // What the make-up or a reading says may lie beyond what can be computed: then this part is missing, and
  // why.
  void compute(void (Computation::*part)()) {
    try {
      (this->*part)();
    } catch (const BadInput& e) {
      lacks(wording::beyond_computing(e));
    }
  }

  void lacks(Text what) { out_.missing.push_back(std::move(what)); }
  void rests_on(Text what) { out_.assumed.push_back(std::move(what)); }

  std::optional<double> concentration() const {
    if (!make_up_.service.concentration) return std::nullopt;
    return make_up_.service.concentration->si;
  }

  void find_liquid() {
    const Service& service = make_up_.service;
    if (service.liquid) {
      out_.liquid = liquid_of(*service.liquid, service.fluid);
    } else if (service.fluid == "water") {
      out_.liquid = fluid::liquid_by_name({"water", {}, {}});
    } else if (service.fluid == "sea-water") {
      if (!service.concentration) rests_on(wording::usual_salt());
      out_.liquid = fluid::liquid_by_name({"sea-water", {}, concentration()});
    } else if (service.fluid == "water-glycol" && service.concentration && !service.glycol.empty()) {
      out_.liquid = fluid::liquid_by_name({service.glycol + "-glycol", concentration(), {}});
    } else if (service.fluid == "water-glycol") {
      // A mixture's vapour pressure is taken as water's, so the margin is known without its strength.
      boiling_only_ = fluid::liquid_by_name({"water", {}, {}});
      lacks(wording::glycol_strength_missing());
    } else {
      lacks(wording::liquid_unknown(service.fluid));
    }
  }

  const fluid::Liquid* boiling_liquid() const {
    return out_.liquid ? out_.liquid.get() : boiling_only_.get();
  }

  void take_state() {
    const Service& service = make_up_.service;
    if (!service.temperature) lacks(wording::service_temperature_missing());
    if (!service.suction_pressure) lacks(wording::suction_missing());
    if (!service.temperature || !service.suction_pressure) return;
    ServiceState state{kelvin(service.temperature->si), GaugePressure{pascals(service.suction_pressure->si)},
                       pascals(0), metres(0), AbsolutePressure{}};
    if (service.altitude)
      state.altitude = metres(service.altitude->si);
    else
      rests_on(wording::sea_level());
    if (service.head_pressure) state.rise = pascals(service.head_pressure->si);
    state.atmosphere = seal::standard_atmosphere(state.altitude);
    out_.state = state;
  }

  void take_chamber() {
    if (!out_.state) return;
    seal::ChamberShare share;  // nothing above suction, the least there can be
    if (make_up_.impeller_back && make_up_.service.head_pressure)
      share = seal::chamber_share(*make_up_.impeller_back);
    else
      rests_on(wording::chamber_at_suction());
    const auto chamber = seal::chamber_pressure(out_.state->suction, out_.state->rise, share);
    out_.chamber_low = absolute(chamber.low);
    out_.chamber_expected = absolute(chamber.expected);
    out_.chamber_high = absolute(chamber.high);
    out_.chamber = chamber;
  }

  void take_faces() {
    const auto& sheet = make_up_.seal.sheet;
    out_.film_wanted = sheet.has_value();
    if (!sheet) return lacks(wording::sheet_missing());
    out_.faces = faces_of(*sheet);
  }

  std::optional<Measured<Length>> measured_length() const {
    const Check* check = in_.snapshot.plan.find("working-length");
    if (check == nullptr) return std::nullopt;
    const ChainMeasured chain = measure_chain(*check, in_);
    if (chain.measured.numbers.empty()) return std::nullopt;
    const Measurement& sum = chain.measured.numbers.front();
    return Measured<Length>{metres(sum.value), metres(sum.u)};
  }

  void take_length(std::optional<Length> asked) {
    const Dimension* nominal = make_up_.dimension("seal_working_length");
    if (asked) {
      out_.length = LengthState{{*asked, metres(0)}, true};
    } else if (const auto measured = measured_length()) {
      out_.length = LengthState{*measured, true};
    } else if (nominal != nullptr) {
      out_.length = LengthState{{nominal->nominal, metres(0)}, false};
      rests_on(wording::nominal_length());
    } else {
      lacks(wording::working_length_missing());
    }
  }

  void take_spring() {
    const auto& sheet = make_up_.seal.sheet;
    const Dimension* nominal = make_up_.dimension("seal_working_length");
    if (!sheet || !out_.length) return;
    if (!sheet->spring_force || !sheet->spring_rate || nominal == nullptr)
      return lacks(wording::spring_missing());
    const Force force = newtons(sheet->spring_force->si);
    const SpringRate rate = newtons_per_metre(sheet->spring_rate->si);
    const auto spring = seal::spring_of_nominal({nominal->nominal, metres(0)}, {force, force * spring_doubt},
                                                {rate, rate * spring_doubt});
    out_.spring = seal::force_at(spring, out_.length->length);
    take_growth();
    take_motion(spring);
  }

  // The lengths that make up the working length, each as measured or as the make-up has it.
  std::vector<seal::WarmingPart> warming_parts(const Check& stack) const {
    std::vector<seal::WarmingPart> parts;
    for (const auto& part : stack.chain) {
      const Check* check = in_.snapshot.plan.find(part.check);
      const auto mean = check == nullptr ? std::nullopt : mean_of(*check, in_);
      const Dimension* size = make_up_.dimension(part.dimension);
      if (!mean && size == nullptr) return {};
      parts.push_back({.coefficient = part.coefficient,
                       .length = mean ? metres(mean->value_si) : size->nominal,
                       .expansion = {},
                       .warming_low = kelvin_step(0),
                       .warming_high = kelvin_step(0)});
    }
    return parts;
  }

  // Which part is of which metal, and how far it warms, nobody says: any of them, anything up to the liquid.
  void take_growth() {
    const Check* stack = in_.snapshot.plan.find("working-length");
    if (stack == nullptr || !out_.state || in_.snapshot.expansions.empty()) return;
    auto parts = warming_parts(*stack);
    if (parts.empty()) return;
    const auto most =
        std::max_element(in_.snapshot.expansions.begin(), in_.snapshot.expansions.end(),
                         [](const auto& a, const auto& b) { return a.second.value() < b.second.value(); });
    const double warming_k = kelvin_of(out_.state->temperature) - bench_k;
    for (auto& part : parts) {
      part.expansion = most->second;
      part.warming_low = kelvin_step(std::min(0.0, warming_k));
      part.warming_high = kelvin_step(std::max(0.0, warming_k));
    }
    out_.growth = seal::growth_of(parts);
  }

  // The shaft may lie anywhere in its float when the stack was measured.
  void take_motion(const seal::Spring& spring) {
    const Check* check = in_.snapshot.plan.find("end-float");
    const auto end_float = check == nullptr ? std::nullopt : mean_of(*check, in_);
    if (!end_float) return;
    const Measured<Length>& length = out_.length->length;
    const Length room = metres(end_float->value_si);
    const seal::GrowthRange growth = out_.growth.value_or(seal::GrowthRange{metres(0), metres(0)});
    out_.spring_shortest = seal::force_at(spring, {length.value - room + growth.low, length.u});
    out_.spring_longest = seal::force_at(spring, {length.value + room + growth.high, length.u});
  }

  AbsolutePressure absolute(GaugePressure gauge) const {
    return seal::absolute_at(gauge, out_.state->altitude);
  }

  // Zero when the chamber stands below the atmosphere: the hand formulas know the other way round only.
  Pressure across(AbsolutePressure chamber) const {
    return std::max(pascals(0), chamber.value - out_.state->atmosphere.value);
  }

  void take_load() {
    if (!out_.faces || !out_.chamber || !out_.spring) return;
    seal::FaceLoadCase load;
    load.faces = *out_.faces;
    load.across = across(out_.chamber_expected);
    load.spring = out_.spring->force.value;
    load.speed = speed();
    const auto& figures = in_.snapshot.seal;
    if (figures && figures->friction)
      load.friction = *figures->friction;
    else
      rests_on(wording::usual_friction(load.friction));
    out_.load = seal::face_load(load);
    out_.pv_low = pv_of(load, out_.chamber_low, out_.spring->low);
    out_.pv_high = pv_of(load, out_.chamber_high, out_.spring->high);
  }

  PressureVelocity pv_of(seal::FaceLoadCase load, AbsolutePressure chamber, Force spring) const {
    load.across = across(chamber);
    load.spring = spring;
    return seal::face_load(load).pv;
  }

  Speed speed() const { return radians_per_second(make_up_.speed.si); }

  Length part_length(const std::optional<Written>& of_sheet, const Dimension* of_make_up) {
    if (of_sheet) return metres(of_sheet->si);
    if (of_make_up != nullptr) return of_make_up->nominal;
    rests_on(wording::usual_part_length(metres(usual_part_length_m)));
    return metres(usual_part_length_m);
  }

  seal::Ring ring_of(const FaceMaterial& material, Length outside, Length length) const {
    return {out_.faces->inner_diameter, outside,          length,
            material.conductivity,      material.modulus, material.expansion};
  }

  static Pressure pair_modulus(const SealFigures& f) {
    const auto compliance = [](const FaceMaterial& m) {
      return (1 - m.poisson * m.poisson) / m.modulus.value();
    };
    return pascals(1 / (compliance(f.ring) + compliance(f.seat)));
  }

  void take_rings() {
    if (!in_.snapshot.seal) return lacks(wording::face_materials_missing());
    if (!out_.faces) return;
    const SealFigures& figures = *in_.snapshot.seal;
    const SealSheet& sheet = *make_up_.seal.sheet;
    const Dimension* seat_outside = make_up_.dimension("seat_outside_diameter");
    const Length outer = out_.faces->outer_diameter;
    rings_ = {ring_of(figures.ring, outer, part_length(sheet.ring_length, nullptr)),
              ring_of(figures.seat, seat_outside == nullptr ? outer : std::max(outer, seat_outside->nominal),
                      part_length(sheet.seat_length, make_up_.dimension("seat_thickness")))};
  }

  seal::FilmCase film_case(AbsolutePressure chamber) const {
    const auto& [ring, seat] = *rings_;
    const SealFigures& figures = *in_.snapshot.seal;
    const auto side = out_.faces->pressure;
    seal::FilmCase film;
    film.faces = *out_.faces;
    film.spring = out_.spring->force.value;
    film.chamber = chamber;
    film.atmosphere = out_.state->atmosphere;
    film.chamber_temperature = out_.state->temperature;
    film.speed = speed();
    film.asperities->modulus = pair_modulus(figures);
    const auto cooling = seal::turning_ring_cooling(*out_.liquid, out_.state->temperature, film.chamber,
                                                    out_.faces->outer_diameter, speed());
    film.coning.by_heat =
        seal::thermal_coning(ring, cooling, side) + seal::thermal_coning(seat, cooling, side);
    film.coning.by_pressure = seal::pressure_coning(ring, ring.length, side);
    film.heat.to_chamber =
        seal::heat_conductance(ring, cooling, side) + seal::heat_conductance(seat, cooling, side);
    film.heat.along_the_face =
        (figures.ring.conductivity + figures.seat.conductivity) * seal::face_width(*out_.faces);
    return film;
  }

  // Tabulated once, for the film as it is and for those of the suction that is looked for.
  const seal::FilmLiquid& film_liquid() {
    if (!film_liquid_) film_liquid_.emplace(*out_.liquid, out_.chamber_expected);
    return *film_liquid_;
  }

  void take_film() {
    if (!out_.load || !out_.liquid || !rings_) return;
    const Pressure boiling = out_.liquid->saturation_pressure(out_.state->temperature).value;
    if (out_.chamber_expected.value <= boiling) return;  // no film where the chamber boils
    out_.film_case = film_case(out_.chamber_expected);
    out_.film = seal::solve_film(*out_.film_case, film_liquid());
    rests_on(wording::film_figures());
    if (!out_.film->converged) lacks(wording::film_unsolved(*out_.film));
  }

  // The ratio of chamber to vapour pressure that the plan asks for.
  seal::MarginRule margin_rule() const {
    seal::MarginRule rule;
    rule.least_difference = pascals(1e7);  // out of reach: the ratio decides, as in the check
    const Check* check = in_.snapshot.plan.find("vapour-margin");
    if (check != nullptr && !check->limits.empty() && check->limits.front().lower)
      rule.least_ratio = check->limits.front().lower->si;
    return rule;
  }

  // Hottest place of the faces with that pressure in the chamber; nothing when no film is found.
  std::optional<Temperature> face_at(AbsolutePressure chamber) {
    const auto solved = seal::solve_film(film_case(chamber), film_liquid());
    return solved.converged ? std::optional(solved.face_hottest) : std::nullopt;
  }

  static GaugePressure a_little_over(GaugePressure suction, AbsolutePressure atmosphere) {
    return {suction.value + suction_reserve * (suction.value + atmosphere.value)};
  }

  std::optional<GaugePressure> suction_that_does(const fluid::Liquid& liquid) {
    const seal::SuctionRequest asked{out_.state->rise, out_.chamber->share.low, out_.state->altitude};
    const auto suction_at = [&](Temperature t) {
      return seal::least_suction(seal::least_chamber_pressure(liquid, t, out_.rule), asked);
    };
    const AbsolutePressure air = out_.state->atmosphere;
    const bool chamber_boils =
        out_.chamber_expected.value <= liquid.saturation_pressure(out_.state->temperature).value;
    if (!out_.film_wanted) return a_little_over(suction_at(*out_.judged_at), air);
    // Faces that find no film as they stand are not helped by a figure that leaves them out.
    if (!out_.load || !out_.liquid || !rings_ || (out_.film_in_doubt() && !chamber_boils))
      return std::nullopt;
    GaugePressure suction = suction_at(out_.state->temperature);
    for (int i = 0; i < suction_tries; ++i) {
      const AbsolutePressure chamber = absolute({suction.value + asked.share * asked.rise});
      const auto face = face_at(chamber);
      const GaugePressure wanted = face ? suction_at(*face) : a_little_over(suction, air);
      if (face && wanted.value <= suction.value) return a_little_over(suction, air);
      suction = std::max(wanted, a_little_over(suction, air),
                         [](GaugePressure a, GaugePressure b) { return a.value < b.value; });
    }
    return std::nullopt;
  }

  void take_margin() {
    const fluid::Liquid* liquid = boiling_liquid();
    if (liquid == nullptr || !out_.chamber) return;
    const bool face_known = out_.film && out_.film->converged;
    out_.judged_at = face_known ? out_.film->face_hottest : out_.state->temperature;
    out_.judged_at_face = face_known;
    const double vapour_pa = liquid->saturation_pressure(*out_.judged_at).value.value();
    out_.rule = margin_rule();
    out_.margin = seal::vapour_margin(*liquid, out_.chamber_expected, *out_.judged_at);
    out_.ratio_low = out_.chamber_low.value.value() / vapour_pa;
    out_.ratio_high = out_.chamber_high.value.value() / vapour_pa;
    out_.least_suction = suction_that_does(*liquid);
  }

  void take_circulation() {
    if (!out_.liquid || !out_.load) return;
    const bool solved = out_.film && out_.film->converged;
    out_.circulation =
        seal::circulation_for(solved ? out_.film->heat : out_.load->heat, kelvin_step(chamber_rise_k),
                              *out_.liquid, out_.state->temperature, out_.chamber_expected);
  }

  static Mass mass_of(const seal::Ring& ring, Density density) {
    const Area section =
        pi / 4 * (ring.outer_diameter * ring.outer_diameter - ring.inner_diameter * ring.inner_diameter);
    return section * ring.length * density;
  }

  // Both parts of the faces heated by dry friction, nothing lost.
  void take_dry_run() {
    if (!rings_ || !out_.spring || !out_.state || !in_.snapshot.seal->elastomer_limit) return;
    const SealFigures& f = *in_.snapshot.seal;
    if (kelvin_of(out_.state->temperature) >= kelvin_of(*f.elastomer_limit)) return;
    const Mass ring = mass_of(rings_->first, f.ring.density), seat = mass_of(rings_->second, f.seat.density);
    seal::DryRun run;
    run.heat = seal::dry_heat(*out_.faces, out_.spring->force.value, usual_dry_friction, speed());
    run.heated = ring + seat;
    run.heat_capacity = (ring * f.ring.heat_capacity + seat * f.seat.heat_capacity) / run.heated;
    run.start = out_.state->temperature;
    run.damage = *f.elastomer_limit;
    run.face = seal::face_area(*out_.faces);
    run.first = {f.ring.conductivity, f.ring.density, f.ring.heat_capacity};
    run.second = {f.seat.conductivity, f.seat.density, f.seat.heat_capacity};
    out_.dry_run = seal::time_to_damage(run);
  }

  // A number of a sweep that stands, whatever its check judges.
  std::optional<Measurement> swept(const Check& check, Judged judged) const {
    const auto readings = in_.state.standing.find(check.id);
    if (readings == in_.state.standing.end() || readings->second.empty()) return std::nullopt;
    Check asked = check;
    asked.judged = judged;
    const MeasuredReading measured = measure(asked, readings->second.back(), in_);
    if (measured.blocked || measured.numbers.empty()) return std::nullopt;
    return measured.numbers.front();
  }

  // What a seat out of square asks of the head. A turning head's ring is not tipped, so its mass plays no
  // part.
  void take_tracking() {
    const Check* check = in_.snapshot.plan.find("seat-squareness");
    const Dimension* seat = make_up_.dimension("seat_outside_diameter");
    if (check == nullptr || seat == nullptr || !out_.faces || !out_.spring) return;
    const auto squareness = swept(*check, Judged::squareness);
    if (!squareness) return;
    const SealSheet& sheet = *make_up_.seal.sheet;
    seal::TrackingCase asked;
    asked.style = sheet.head;
    asked.seat = {Tir{metres(squareness->value)}, metres(squareness->u)};
    asked.swept_diameter = seat->nominal;
    asked.faces = *out_.faces;
    asked.speed = speed();
    asked.spring = out_.spring->low;
    if (sheet.ring_mass) asked.ring = kilograms(sheet.ring_mass->si);
    out_.tracking = seal::tracking(asked);
  }

  // How far what carries a face runs out of true.
  std::optional<Eccentricity> eccentricity_of(std::string_view check_id) const {
    const Check* check = in_.snapshot.plan.find(check_id);
    if (check == nullptr) return std::nullopt;
    const auto found = swept(*check, Judged::eccentricity);
    return found ? std::optional(Eccentricity{metres(found->value)}) : std::nullopt;
  }

  void take_overlap() {
    const auto& sheet = make_up_.seal.sheet;
    if (!sheet || !sheet->seat_face_outer || !out_.faces) return;
    const auto ring = eccentricity_of(make_up_.sleeve ? "sleeve-runout" : "shaft-runout");
    const auto seat = eccentricity_of("bracket-bore-runout");
    if (!ring || !seat) return lacks(wording::sweeps_of_faces_missing());
    out_.overlap = seal::overlap(
        {*out_.faces, metres(sheet->seat_face_outer->si), metres(sheet->seat_face_inner->si), *ring, *seat});
  }

  const JudgeContext& in_;
  const MakeUp& make_up_;
  std::shared_ptr<const fluid::Liquid> boiling_only_;
  std::optional<seal::FilmLiquid> film_liquid_;
  std::optional<std::pair<seal::Ring, seal::Ring>> rings_;  // turning face and seat
  SealService out_;
};

}  // namespace

SealService seal_service(const JudgeContext& in, Asked asked, std::optional<Length> length) {
  return Computation(in, asked, length).result();
}

std::optional<seal::MapRequest> map_around(const SealService& service) {
  if (!service.film_case || !service.liquid) return std::nullopt;
  const double here_k = kelvin_of(service.state->temperature);
  seal::MapRequest map;
  map.seal = *service.film_case;
  map.coldest = kelvin(std::max(kelvin_of(service.liquid->lowest_temperature()), here_k - map_colder_k));
  map.hottest = kelvin(std::min(kelvin_of(service.liquid->highest_temperature()), here_k + map_hotter_k));
  map.lowest = GaugePressure{-0.9 * service.state->atmosphere.value};
  const double wanted_pa = service.least_suction ? 2 * service.least_suction->value.value() : 0;
  map.highest = GaugePressure{
      pascals(std::max({least_map_pressure_pa, wanted_pa, 2 * service.state->suction.value.value()}))};
  map.rise = service.state->rise;
  map.share = service.chamber->share.low;
  map.altitude = service.state->altitude;
  map.rule = service.rule;
  return map;
}

}  // namespace pumpwright::job
