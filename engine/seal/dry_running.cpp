#include "engine/seal/dry_running.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "engine/assembly/input_check.h"

namespace pumpwright::seal {
namespace {

constexpr double hottest_told_k = 1e5;

void require_over_zero(double value, const std::string& field) {
  require_that(std::isfinite(value) && value > 0, value, field, "a value over 0");
}

void require_valid(const RingMaterial& material, const std::string& place) {
  require_over_zero(material.conductivity.value(), place + "/conductivity");
  require_over_zero(material.density.value(), place + "/density");
  require_over_zero(material.heat_capacity.value(), place + "/heat_capacity");
}

void require_valid(const DryRun& run) {
  require_over_zero(run.heat.value(), "dry run/heat");
  require_over_zero(run.heated.value(), "dry run/heated");
  require_over_zero(run.heat_capacity.value(), "dry run/heat_capacity");
  require_over_zero(run.face.value(), "dry run/face");
  require_between(run.loss.value(), 0, 1e5, "dry run/loss", "a conductance from 0 to 100 000 W/K");
  require_between(kelvin_of(run.start), 150, 2000, "dry run/start", "a temperature from 150 K to 2000 K");
  require_that(std::isfinite(kelvin_of(run.damage)) && kelvin_of(run.damage) > kelvin_of(run.start),
               kelvin_of(run.damage), "dry run/damage", "a temperature above the start");
  require_valid(run.first, "dry run/first");
  require_valid(run.second, "dry run/second");
}

double effusivity(const RingMaterial& m) {
  return std::sqrt(m.conductivity.value() * m.density.value() * m.heat_capacity.value());
}

double capacity_j_k(const DryRun& run) {
  return run.heated.value() * run.heat_capacity.value();
}

}  // namespace

Power dry_heat(const Faces& faces, Force spring, double friction, Speed speed) {
  require_between(spring.value(), 0, 1e5, "spring force", "a force from 0 to 100 kN");
  require_between(friction, 0, 2, "dry friction", "a coefficient of friction from 0 to 2");
  require_between(speed.value(), 0, 1e4, "speed", "a speed from 0 to 10 000 rad/s");
  return watts(friction * spring.value() * mean_diameter(faces).value() / 2 * speed.value());
}

DryRunTime time_to_damage(const DryRun& run) {
  require_valid(run);
  const double rise_k = (run.damage - run.start).value();
  const double heat_w = run.heat.value();
  const double flux_w_m2 = heat_w / run.face.value();
  const double skin_root = (effusivity(run.first) + effusivity(run.second)) * rise_k / flux_w_m2;
  DryRunTime t;
  t.skin = seconds(pi / 4 * skin_root * skin_root);
  t.adiabatic = seconds(capacity_j_k(run) * rise_k / heat_w);
  const double loss_w_k = run.loss.value();
  const double settles_k = heat_w > hottest_told_k * loss_w_k ? hottest_told_k : heat_w / loss_w_k;
  t.settles = run.start + kelvin_step(settles_k);
  if (loss_w_k == 0)
    t.lump = t.adiabatic;
  else if (loss_w_k * rise_k < heat_w)
    t.lump = seconds(-capacity_j_k(run) / loss_w_k * std::log1p(-loss_w_k * rise_k / heat_w));
  t.earliest = std::min(t.skin, t.adiabatic);
  return t;
}

Temperature lump_temperature(const DryRun& run, Time t) {
  require_valid(run);
  require_that(std::isfinite(t.value()) && t.value() >= 0, t.value(), "time", "a time of 0 or more");
  const double loss_w_k = run.loss.value();
  const double rise_k =
      loss_w_k == 0 ? run.heat.value() * t.value() / capacity_j_k(run)
                    : -run.heat.value() / loss_w_k * std::expm1(-t.value() * loss_w_k / capacity_j_k(run));
  return run.start + kelvin_step(rise_k);
}

}  // namespace pumpwright::seal
