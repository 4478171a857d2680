// Sweep readings: from how the indicator sat to what may be judged, and what stands in the way of judging it.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/metrology/face_sweep.h"
#include "engine/quantity/bad_input.h"
#include "engine/quantity/format.h"
#include "job/measurement.h"
#include "job/wording.h"

namespace pumpwright::job {
namespace {

std::vector<pumpwright::SweepReading> points_of(const SweepReading& body) {
  std::vector<pumpwright::SweepReading> out;
  out.reserve(body.points.size());
  for (const auto& p : body.points)
    out.push_back({degrees(p.angle_deg), metres(p.reading.si)});
  return out;
}

SweepSetup setup_of(const Check& check, const SweepReading& body) {
  SweepSetup setup;
  setup.axis = check.sweep.face ? Axis::face : Axis::radial;
  setup.mount = body.mount == "shaft"     ? Mount::shaft
                : body.mount == "housing" ? Mount::housing
                                          : Mount::unknown;
  setup.surface = body.inside_surface ? Surface::inside : Surface::outside;
  setup.plunger_in = body.plunger_in_is_plus ? PlungerIn::plus : PlungerIn::minus;
  if (body.turned) {
    setup.written = WrittenAngle::turned;
    setup.turning = {body.turned->indicator_moved ? Moved::indicator : Moved::shaft, body.turned->in_rotation,
                     body.turned->marks_rise_with_rotation, degrees(body.turned->first_place_deg)};
  }
  if (body.stylus_angle_deg) setup.lever.stylus = degrees(*body.stylus_angle_deg);
  if (body.bar_sag && setup.mount == Mount::housing) setup.sag = BarSag{metres(body.bar_sag->si)};
  for (const auto& gap : body.gaps)
    setup.gaps.push_back({degrees(gap.from_deg), degrees(gap.to_deg)});
  return setup;
}

bool moves(const std::string& base) {
  return base == "bench" || base == "resilient-foot" || base == "non-magnetic";
}

// The first thing that keeps this sweep from proving anything, in the order a technician would put it right.
std::optional<Reason> blocked_by(const Check& check, const SweepReading& body, const Instrument& instrument,
                                 const Snapshot& snapshot) {
  if (body.mount.empty()) return Reason::mount_missing;
  const bool on_shaft_wanted = check.turning == Turning::rotating;
  if ((body.mount == "shaft") != on_shaft_wanted) return Reason::wrong_mount;
  if (moves(body.base)) return Reason::base_not_rigid;
  if (!body.zero_return) return Reason::setup_not_proven;
  if (std::fabs(body.zero_return->si) > instrument.graduation.value() / 2 * (1 + 1e-9))
    return Reason::setup_moves;
  if (!on_shaft_wanted && !check.sweep.face && !snapshot.make_up.driver.shaft_up && !body.bar_sag)
    return Reason::bar_sag_not_measured;
  if (check.sweep.face && body.opposite.empty() && !body.held_toward) return Reason::shaft_not_held;
  return std::nullopt;
}

template <class Q>
Measurement from_engine(const pumpwright::Measured<Q>& m) {
  using M = Measurand<Q>;
  Measurement out;
  out.value = M::si(m.value);
  out.u = M::si_step(m.u);
  out.dof = m.dof;
  if (m.graduation) out.graduation = M::si_step(*m.graduation);
  out.u_graduation = M::si_step(m.u_graduation);
  out.u_scatter = M::si_step(m.u_scatter);
  out.never_negative = M::never_negative;
  out.in_date = m.in_date;
  return out;
}

Length dimension_of(const std::string& name, const Reading& reading, const Snapshot& snapshot) {
  const Dimension* d = snapshot.make_up.dimension(name);
  if (d == nullptr)
    throw BadInput(
        {.field = name,
         .place = "reading " + reading.id,
         .value = "",
         .expected = fmt::format("the dimension \"{}\" in the make-up, or a radius with the sweep", name)});
  return d->nominal;
}

FaceGeometry geometry_of(const Check& check, const Reading& reading, const SweepReading& body,
                         const Snapshot& snapshot) {
  const Length radius = body.radius ? metres(body.radius->si)
                                    : dimension_of(check.sweep.radius_dimension, reading, snapshot) / 2.0;
  const Length over = check.sweep.over_dimension.empty()
                          ? radius * 2.0
                          : dimension_of(check.sweep.over_dimension, reading, snapshot);
  return {radius, over};
}

FaceResult face_of(const Check& check, const Reading& reading, const SweepReading& body,
                   const Instrument& instrument, const Snapshot& snapshot) {
  const SweepSetup setup = setup_of(check, body);
  const FaceGeometry geometry = geometry_of(check, reading, body, snapshot);
  if (body.opposite.empty()) {
    const auto held = !body.held_toward               ? HeldToward::not_held
                      : *body.held_toward == "driver" ? HeldToward::driver
                                                      : HeldToward::impeller;
    return evaluate_face_sweep(points_of(body), setup, held, geometry, &instrument);
  }
  std::vector<TwoIndicatorReading> pairs;
  for (std::size_t i = 0; i < body.points.size(); ++i)
    pairs.push_back(
        {degrees(body.points[i].angle_deg), metres(body.points[i].reading.si), metres(body.opposite[i].si)});
  return evaluate_face_sweep(pairs, setup, geometry, &instrument);
}

Measurement squareness_of(const FaceResult& face, const Instrument& instrument) {
  Measurement m;
  m.value = face.tilt->squareness.value();
  m.u = face.tilt->squareness_u ? face.tilt->squareness_u->value() : 0;
  m.dof = face.sweep.vector_uncertainty ? face.sweep.vector_uncertainty->dof : m.dof;
  m.graduation = instrument.graduation.value();
  m.never_negative = true;
  m.in_date = instrument.in_date;
  return m;
}

void add_remarks(const SweepReading& body, const SweepResult& r, const Check& check, const Unit& unit,
                 JudgedReading& shown) {
  for (const auto& suspect : r.suspects)
    shown.remarks.push_back(wording::suspect(body.points[suspect.index].reading.text,
                                             degrees_of(suspect.place), check.turning == Turning::rotating));
  const double graduation = shown.instrument_graduation_si;
  if (r.missed_tir.bound().value() > graduation / 2)
    shown.remarks.push_back(wording::missed_tir(r.places, r.missed_tir.bound(), unit));
  if (r.closure && std::fabs(r.closure->value()) > graduation / 2 * (1 + 1e-9))
    shown.remarks.push_back(wording::closure(*r.closure, unit));
  if (r.residuals_unexplained) shown.remarks.push_back(wording::unexplained_scatter());
  if (!r.high_spot) shown.remarks.push_back(wording::high_spot_unknown());
}

std::string sweep_as_written(const SweepReading& body, const std::string& instrument) {
  const auto by_si = [](const SweepPoint& a, const SweepPoint& b) { return a.reading.si < b.reading.si; };
  const auto [least, most] = std::minmax_element(body.points.begin(), body.points.end(), by_si);
  return fmt::format("{} × {} … {} on {}", body.points.size(), least->reading.text, most->reading.text,
                     instrument);
}

void judge_face(const Check& check, const FaceResult& face, const Instrument& instrument, const Unit& unit,
                MeasuredReading& out) {
  out.shown.sweep = face.sweep;
  if (face.end_float) out.shown.remarks.push_back(wording::end_float(*face.end_float, unit));
  if (check.judged == Judged::squareness && face.tilt) out.numbers = {squareness_of(face, instrument)};
  if (check.judged == Judged::squareness && !face.tilt && !out.blocked) out.blocked = Reason::shaft_not_held;
}

}  // namespace

MeasuredReading measure_sweep(const Check& check, const Reading& reading, const JudgeContext& in) {
  const auto& body = std::get<SweepReading>(reading.body);
  const ShopInstrument& shop = instrument_of(reading, Kind::length, in.snapshot);
  const Instrument instrument = engine_instrument(shop, reading.time);
  const Unit& unit = *unit_of(shop);
  MeasuredReading out;
  out.shown.reading_id = reading.id;
  out.shown.as_written = sweep_as_written(body, shop.id);
  out.shown.unit = &unit;
  out.shown.instrument_graduation_si = instrument.graduation.value();
  out.blocked = blocked_by(check, body, instrument, in.snapshot);
  if (check.sweep.face)
    judge_face(check, face_of(check, reading, body, instrument, in.snapshot), instrument, unit, out);
  else
    out.shown.sweep = evaluate_sweep(points_of(body), setup_of(check, body), &instrument);
  const SweepResult& sweep = *out.shown.sweep;
  if (check.judged == Judged::tir) {
    const auto tir = tir_measured(sweep);
    if (tir) out.numbers = {from_engine(*tir)};
  }
  if (check.judged == Judged::eccentricity) {
    const auto eccentricity = eccentricity_measured(sweep);
    if (eccentricity) out.numbers = {from_engine(*eccentricity)};
  }
  add_remarks(body, sweep, check, unit, out.shown);
  return out;
}

}  // namespace pumpwright::job
