#include "engine/seal/face_load.h"

#include <algorithm>

#include "engine/assembly/input_check.h"

namespace pumpwright::seal {
namespace {

void require_valid(const FaceLoadCase& seal) {
  require_valid(seal.faces, "faces");
  require_between(seal.across.value(), 0, 50e6, "pressure across", "a pressure from 0 to 50 MPa");
  require_between(seal.spring.value(), 0, 1e5, "spring force", "a force from 0 to 100 kN");
  require_between(seal.gradient_factor, 0, 1, "gradient factor", "K from 0 to 1");
  require_between(seal.friction, 0, 1, "friction", "a coefficient of friction from 0 to 1");
  require_between(seal.speed.value(), 0, 1e4, "speed", "a speed from 0 to 10 000 rad/s");
}

}  // namespace

FaceLoad face_load(const FaceLoadCase& seal) {
  require_valid(seal);
  const Area area = face_area(seal.faces);
  const double mean_radius_m = mean_diameter(seal.faces).value() / 2;
  FaceLoad load;
  load.closing = balance_ratio(seal.faces) * area * seal.across + seal.spring;
  load.opening = seal.gradient_factor * area * seal.across;
  load.net = load.closing - load.opening;
  load.spring_pressure = seal.spring / area;
  load.closing_pressure = load.closing / area;
  load.net_pressure = load.net / area;
  load.sliding = metres_per_second(seal.speed.value() * mean_radius_m);
  load.running = newton_metres(std::max(0.0, load.net.value()) * seal.friction * mean_radius_m);
  load.starting_low = 3.0 * load.running;
  load.starting_high = 5.0 * load.running;
  load.heat = watts(load.running.value() * seal.speed.value());
  load.pv = std::max(pascals(0), load.net_pressure) * load.sliding;
  load.pv_of_across = seal.across * load.sliding;
  return load;
}

VolumeFlow circulation_for(Power heat, TemperatureDifference rise, const fluid::Liquid& liquid, Temperature t,
                           AbsolutePressure p) {
  require_between(heat.value(), 0, 1e6, "heat", "a heat from 0 to 1 MW");
  require_that(rise.value() > 0 && rise.value() <= 200, rise.value(), "rise", "a rise over 0 to 200 K");
  const double per_volume_j_m3k = liquid.density(t, p).value() * liquid.heat_capacity(t, p).value();
  return cubic_metres_per_second(heat.value() / (per_volume_j_m3k * rise.value()));
}

}  // namespace pumpwright::seal
