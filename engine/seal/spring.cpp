#include "engine/seal/spring.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "engine/assembly/input_check.h"

namespace pumpwright::seal {
namespace {

constexpr double coverage = 2;

void require_doubt(double u_si, const std::string& field) {
  require_that(std::isfinite(u_si) && u_si >= 0, u_si, field, "a standard uncertainty of 0 or more");
}

void require_length(const Measured<Length>& length, const std::string& field) {
  require_between(length.value.value(), 1e-4, 2, field, "a length from 0.1 mm to 2 m");
  require_doubt(length.u.value(), field + "/u");
}

void require_force(const Measured<Force>& force, const std::string& field) {
  require_between(force.value.value(), 0, 1e6, field, "a force from 0 to 1 MN");
  require_doubt(force.u.value(), field + "/u");
}

void require_valid(const Spring& spring) {
  require_length(spring.known_length, "spring/length");
  require_force(spring.known_force, "spring/force");
  require_between(spring.rate.value.value(), 1, 1e8, "spring/rate", "a rate from 0.001 N/mm to 100000 N/mm");
  require_doubt(spring.rate.u.value(), "spring/rate/u");
  if (!spring.solid_length) return;
  const double unloaded_m =
      spring.known_length.value.value() + spring.known_force.value.value() / spring.rate.value.value();
  require_that(spring.solid_length->value() > 0 && spring.solid_length->value() < unloaded_m,
               spring.solid_length->value(), "spring/solid_length",
               "a length over 0 and below the spring's length without load");
}

}  // namespace

Spring spring_of_free_length(const Measured<Length>& free_length, const Measured<SpringRate>& rate) {
  return {free_length, {newtons(0), newtons(0)}, rate, std::nullopt};
}

Spring spring_of_nominal(const Measured<Length>& length, const Measured<Force>& force,
                         const Measured<SpringRate>& rate) {
  return {length, force, rate, std::nullopt};
}

Spring spring_of_two_points(const Measured<Length>& free_length, const Measured<Length>& length,
                            const Measured<Force>& force) {
  require_length(free_length, "spring/free_length");
  require_length(length, "spring/length");
  require_force(force, "spring/force");
  const double travel_m = (free_length.value - length.value).value();
  require_that(travel_m > 0, length.value.value(), "spring/length", "a length shorter than the free length");
  const double rate_n_m = force.value.value() / travel_m;
  const double u_travel_m = std::hypot(free_length.u.value(), length.u.value());
  const double u_rate_n_m = std::hypot(force.u.value() / travel_m, rate_n_m * u_travel_m / travel_m);
  return {length, force, {newtons_per_metre(rate_n_m), newtons_per_metre(u_rate_n_m)}, std::nullopt};
}

SpringForce force_at(const Spring& spring, const Measured<Length>& length) {
  require_valid(spring);
  require_length(length, "spring length");
  const double k_n_m = spring.rate.value.value();
  const double travel_m = (spring.known_length.value - length.value).value();
  const double force_n = spring.known_force.value.value() + k_n_m * travel_m;
  const double u_n = std::hypot(std::hypot(spring.known_force.u.value(), travel_m * spring.rate.u.value()),
                                k_n_m * std::hypot(spring.known_length.u.value(), length.u.value()));
  SpringForce f;
  f.force = {newtons(std::max(0.0, force_n)), newtons(u_n)};
  f.low = newtons(std::max(0.0, force_n - coverage * u_n));
  f.high = newtons(std::max(0.0, force_n + coverage * u_n));
  f.compression = length_without_load(spring) - length.value;
  f.may_be_slack = f.low.value() <= 0;
  if (force_n <= 0) f.state = SpringState::slack;
  if (spring.solid_length) {
    if (length.value <= *spring.solid_length) f.state = SpringState::coil_bound;
    f.may_be_coil_bound = length.value - coverage * length.u <= *spring.solid_length;
  }
  return f;
}

Length length_without_load(const Spring& spring) {
  require_valid(spring);
  return spring.known_length.value + metres(spring.known_force.value.value() / spring.rate.value.value());
}

}  // namespace pumpwright::seal
