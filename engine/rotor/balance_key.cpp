#include "engine/rotor/balance_key.h"

#include <cmath>
#include <string>

#include "engine/assembly/input_check.h"

namespace pumpwright::rotor {
namespace {

void require_valid(const KeyFitted& key) {
  const auto length = [](Length value, const std::string& field) {
    require_between(value.value(), 0, 2, field, "a length from 0 to 2 m");
  };
  length(key.key_length, "key/length");
  length(key.seat_length, "key/seat_length");
  length(key.hub_length, "key/hub_length");
  require_between(key.density.value(), 500, 25000, "key/density", "a density from 500 to 25000 kg/m3");
  require_that(key.hub != BalancedWith::full_key, 0, "key/hub", "a hub balanced with a half key or none");
}

// First moment of the key per length of it [kg]: the part in the shaft and the part above.
struct Moments {
  double in_shaft_kg;
  double above_kg;
};

Moments moments_of(const KeyFitted& key) {
  const double bottom_m =
      (depth_control(key.section, key.shaft_diameter).seat_bottom_to_far_side - key.shaft_diameter / 2.0)
          .value();
  const double joint_m = bottom_m + key.section.shaft_depth.value();
  const double top_m = bottom_m + key.section.height.value();
  const double half_width = key.density.value() * key.section.width.value() / 2;
  return {half_width * (joint_m * joint_m - bottom_m * bottom_m),
          half_width * (top_m * top_m - joint_m * joint_m)};
}

// Length of the lower and of the upper part that the shaft, or the hub, was balanced with.
double lower_balanced_m(const KeyFitted& key) {
  if (key.shaft == BalancedWith::no_key) return 0;
  return (key.shaft == BalancedWith::full_key ? key.key_length : key.seat_length).value();
}

double upper_balanced_m(const KeyFitted& key) {
  const double with_shaft_m = key.shaft == BalancedWith::full_key ? key.key_length.value() : 0;
  const double with_hub_m = key.hub == BalancedWith::half_key ? key.hub_length.value() : 0;
  return with_shaft_m + with_hub_m;
}

}  // namespace

KeyUnbalance unbalance_of_key(const KeyFitted& key) {
  require_valid(key);
  const Moments m = moments_of(key);
  const double lower_m = lower_balanced_m(key);
  const double upper_m = upper_balanced_m(key);
  const double heavy_kg_m =
      m.in_shaft_kg * (key.key_length.value() - lower_m) + m.above_kg * (key.key_length.value() - upper_m);
  KeyUnbalance out{kilogram_metres(std::abs(heavy_kg_m)), heavy_kg_m >= 0, std::nullopt};
  if (key.shaft != BalancedWith::full_key)
    out.neutral_length =
        metres((m.in_shaft_kg * lower_m + m.above_kg * upper_m) / (m.in_shaft_kg + m.above_kg));
  return out;
}

}  // namespace pumpwright::rotor
