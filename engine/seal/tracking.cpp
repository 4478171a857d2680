#include "engine/seal/tracking.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/assembly/input_check.h"

namespace pumpwright::seal {
namespace {

constexpr double fastest_turning_head_m_s = 23;

void require_valid(const TrackingCase& seal) {
  require_valid(seal.faces, "faces");
  require_between(seal.swept_diameter.value(), 0.005, 1, "swept diameter", "a diameter from 5 mm to 1 m");
  require_between(seal.seat.value.value.value(), 0, seal.swept_diameter.value() / 10, "seat reading",
                  "a full reading from 0 to a tenth of the swept diameter");
  require_between(seal.seat.u.value(), 0, 0.1, "seat reading/u", "a standard uncertainty of 0 or more");
  require_between(seal.speed.value(), 0, 1e4, "speed", "a speed from 0 to 10 000 rad/s");
  require_between(seal.ring.value(), 0, 50, "ring mass", "a mass from 0 to 50 kg");
  require_between(seal.spring.value(), 0, 1e5, "spring force", "a force from 0 to 100 kN");
  require_between(seal.seal_drag.value(), 0, 1e5, "seal drag", "a force from 0 to 100 kN");
}

double reserve_of(double available_n, double required_n) {
  if (required_n > 0) return available_n / required_n;
  return available_n > 0 ? std::numeric_limits<double>::infinity() : 0;
}

}  // namespace

Tracking tracking(const TrackingCase& seal) {
  require_valid(seal);
  const double radius_m = mean_diameter(seal.faces).value() / 2;
  const double w_rad_s = seal.speed.value();
  const double tilt = seal.seat.value.value / seal.swept_diameter;
  Tracking t;
  t.tilt = radians(tilt);
  t.tilt_u = radians(seal.seat.u / seal.swept_diameter);
  t.stroke = metres(radius_m * tilt);
  t.peak_velocity = metres_per_second(w_rad_s * radius_m * tilt);
  t.acceleration = Acceleration::from_value(w_rad_s * w_rad_s * radius_m * tilt);
  const bool tipped = seal.style == HeadStyle::stationary;
  t.required = newtons(tipped ? seal.ring.value() * t.acceleration.value() : 0);
  t.available = std::max(newtons(0), seal.spring - seal.seal_drag);
  t.reserve = reserve_of(t.available.value(), t.required.value());
  t.follows = t.reserve >= 1;
  t.sliding = metres_per_second(w_rad_s * radius_m);
  t.fast_for_turning_head = !tipped && t.sliding.value() > fastest_turning_head_m_s;
  return t;
}

Overlap overlap(const OverlapCase& seal) {
  require_valid(seal.faces, "faces");
  require_that(seal.seat_outer_diameter >= seal.faces.outer_diameter && seal.seat_outer_diameter.value() < 1,
               seal.seat_outer_diameter.value(), "seat/outer_diameter",
               "a diameter not below that of the contact and below 1 m");
  require_that(seal.seat_inner_diameter.value() > 0 && seal.seat_inner_diameter <= seal.faces.inner_diameter,
               seal.seat_inner_diameter.value(), "seat/inner_diameter",
               "a diameter over 0 and not above that of the contact");
  for (const Eccentricity& e : {seal.ring, seal.seat})
    require_between(e.value.value(), 0, 0.05, "eccentricity", "an eccentricity from 0 to 50 mm");
  const Length off = seal.ring.value + seal.seat.value;
  Overlap o;
  o.outer_margin = (seal.seat_outer_diameter - seal.faces.outer_diameter) / 2.0 - off;
  o.inner_margin = (seal.faces.inner_diameter - seal.seat_inner_diameter) / 2.0 - off;
  o.track_width = face_width(seal.faces) + 2.0 * off;
  o.covers = o.outer_margin.value() >= 0 && o.inner_margin.value() >= 0;
  return o;
}

}  // namespace pumpwright::seal
