#include "report/sweep_points.h"

#include <cmath>

#include "engine/metrology/sweep_places.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::report {

SweepSetup sweep_setup_of(const job::Check& check, const job::SweepReading& written) {
  SweepSetup setup;
  setup.axis = check.sweep.face ? Axis::face : Axis::radial;
  if (written.mount == "shaft") setup.mount = Mount::shaft;
  if (written.mount == "housing") setup.mount = Mount::housing;
  setup.surface = written.inside_surface ? Surface::inside : Surface::outside;
  setup.plunger_in = written.plunger_in_is_plus ? PlungerIn::plus : PlungerIn::minus;
  if (written.turned) {
    const job::TurnedAngles& turned = *written.turned;
    setup.written = WrittenAngle::turned;
    setup.turning.moved = turned.indicator_moved ? Moved::indicator : Moved::shaft;
    setup.turning.in_rotation = turned.in_rotation;
    setup.turning.marks_rise_with_rotation = turned.marks_rise_with_rotation;
    setup.turning.first_place = degrees(turned.first_place_deg);
  }
  if (written.stylus_angle_deg) setup.lever.stylus = degrees(*written.stylus_angle_deg);
  if (written.bar_sag && setup.mount == Mount::housing) {
    BarSag sag;
    sag.at_bottom = metres(written.bar_sag->si);
    setup.sag = sag;
  }
  for (const job::KeywayGap& gap : written.gaps)
    setup.gaps.push_back({degrees(gap.from_deg), degrees(gap.to_deg)});
  return setup;
}

std::vector<SurfaceReading> surface_readings(const job::Check& check, const job::SweepReading& written) {
  std::vector<pumpwright::SweepReading> readings;
  const bool two = written.opposite.size() == written.points.size();
  for (std::size_t i = 0; i < written.points.size(); ++i) {
    const double own_m = written.points[i].reading.si;
    const double shown_m = two ? (own_m - written.opposite[i].si) / 2 : own_m;
    readings.push_back({degrees(written.points[i].angle_deg), metres(shown_m)});
  }
  std::vector<SurfaceReading> out;
  if (readings.empty()) return out;
  try {
    const auto placed = sweep_detail::place_readings(readings, sweep_setup_of(check, written));
    for (const auto& p : placed.points)
      out.push_back({degrees_of(radians(sweep_detail::wrapped_rad(std::atan2(p.sin_1, p.cos_1)))),
                     p.deviation_m, p.index});
  } catch (const BadInput&) {
    // What can not be evaluated has no picture; the judgement says what is wrong with it.
    out.clear();
  }
  return out;
}

}  // namespace pumpwright::report
