#include "engine/rotor/balance_removal.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "engine/assembly/input_check.h"

namespace pumpwright::rotor {
namespace {

constexpr double density_least = 500;
constexpr double density_most = 25000;

void require_positive(Length value, const std::string& field) {
  require_that(std::isfinite(value.value()) && value.value() > 0, value.value(), field, "a length over 0");
}

void require_density(Density density, const std::string& field) {
  require_between(density.value(), density_least, density_most, field, "a density from 500 to 25000 kg/m3");
}

void require_amount(Unbalance wanted) {
  require_that(std::isfinite(wanted.value()) && wanted.value() >= 0, wanted.value(), "unbalance",
               "an unbalance of 0 or more");
}

void require_valid(const Drill& drill) {
  require_positive(drill.radius, "drill/radius");
  require_positive(drill.diameter, "drill/diameter");
  require_positive(drill.most_depth, "drill/most_depth");
  require_between(degrees_of(drill.point), 60 - 1e-9, 180 + 1e-9, "drill/point",
                  "an angle from 60 to 180 degrees");
  require_density(drill.density, "drill/density");
  require_that(drill.direction == DrillDirection::axial || drill.most_depth < drill.radius,
               drill.most_depth.value(), "drill/most_depth", "a depth that does not reach the axis");
}

// A hole in parts [m].
struct Shape {
  double cylinder_m;  // depth of the full diameter
  double cone_m;      // height of the cone below it
  double slope;       // radius of the cone per height
};

Shape shape_of(const Drill& drill, double to_tip_m) {
  const double half_rad = std::min(drill.point.value() / 2, pi / 2);
  const double full_cone_m = drill.diameter.value() / 2 * std::cos(half_rad) / std::sin(half_rad);
  const double cone_m = std::min(to_tip_m, full_cone_m);
  const double slope = full_cone_m > 0 ? drill.diameter.value() / 2 / full_cone_m : 0;
  return {to_tip_m - cone_m, cone_m, slope};
}

struct Parts {
  double cylinder_m3;
  double cone_m3;
};

Parts volumes(const Drill& drill, const Shape& s) {
  const double area_m2 = pi / 4 * drill.diameter.value() * drill.diameter.value();
  const double cone_radius_m = s.cone_m * s.slope;
  return {area_m2 * s.cylinder_m, pi / 3 * cone_radius_m * cone_radius_m * s.cone_m};
}

double taken_kg_m(const Drill& drill, double to_tip_m) {
  const Shape s = shape_of(drill, to_tip_m);
  const Parts v = volumes(drill, s);
  const double r_m = drill.radius.value();
  if (drill.direction == DrillDirection::axial)
    return drill.density.value() * (v.cylinder_m3 + v.cone_m3) * r_m;
  return drill.density.value() *
         (v.cylinder_m3 * (r_m - s.cylinder_m / 2) + v.cone_m3 * (r_m - s.cylinder_m - s.cone_m / 4));
}

// The moment grows with the depth all the way, so halving the interval finds it to the last digits.
double depth_for(const Drill& drill, double wanted_kg_m) {
  double low = 0;
  double high = drill.most_depth.value();
  for (int i = 0; i < 100 && low < high; ++i) {
    const double middle = low + (high - low) / 2;
    (taken_kg_m(drill, middle) < wanted_kg_m ? low : high) = middle;
  }
  return high;
}

}  // namespace

Unbalance drilled_out(const Drill& drill, Length to_tip) {
  require_valid(drill);
  require_between(to_tip.value(), 0, drill.most_depth.value(), "drill/depth",
                  "a depth from 0 to the one permitted");
  return kilogram_metres(taken_kg_m(drill, to_tip.value()));
}

std::optional<Hole> hole_for(const Drill& drill, Unbalance wanted) {
  require_valid(drill);
  require_amount(wanted);
  if (taken_kg_m(drill, drill.most_depth.value()) < wanted.value()) return std::nullopt;
  const double depth_m = wanted.value() > 0 ? depth_for(drill, wanted.value()) : 0;
  const Shape s = shape_of(drill, depth_m);
  const Parts v = volumes(drill, s);
  return Hole{metres(depth_m), metres(s.cylinder_m),
              (v.cylinder_m3 + v.cone_m3) * cubic_metres(1) * drill.density};
}

std::optional<Holes> holes_for(const Drill& drill, Unbalance wanted, Angle spacing) {
  require_between(degrees_of(spacing), 0, 30 + 1e-9, "drill/spacing", "an angle from 0 to 30 degrees");
  const std::size_t most = spacing.value() > 0 ? holes_max : 1;
  for (std::size_t n = 1; n <= most; ++n) {
    double together = 0;
    for (std::size_t i = 0; i < n; ++i)
      together += std::cos((static_cast<double>(i) - static_cast<double>(n - 1) / 2) * spacing.value());
    if (together <= 0) break;
    if (const auto hole = hole_for(drill, wanted / together)) return Holes{n, *hole};
  }
  return std::nullopt;
}

GroundPad pad_for(const Grind& grind, Unbalance wanted) {
  require_positive(grind.radius, "grind/radius");
  require_positive(grind.length, "grind/length");
  require_positive(grind.width, "grind/width");
  require_positive(grind.most_depth, "grind/most_depth");
  require_density(grind.density, "grind/density");
  require_amount(wanted);
  require_that(grind.width.value() / 2 < grind.radius.value(), grind.width.value(), "grind/width",
               "a width that does not reach the axis");
  const double arc_rad = (grind.length / grind.radius).value();
  require_that(arc_rad <= pi, grind.length.value(), "grind/length", "a length of half a turn at most");
  const double outer_m = (grind.radius + grind.width / 2.0).value();
  const double inner_m = (grind.radius - grind.width / 2.0).value();
  // Per depth: ∫∫ r cos θ · r dr dθ and ∫∫ r dr dθ.
  const double moment_m3 = 2 * std::sin(arc_rad / 2) * (std::pow(outer_m, 3) - std::pow(inner_m, 3)) / 3;
  const double area_m2 = arc_rad * (outer_m * outer_m - inner_m * inner_m) / 2;
  const double depth_m = wanted.value() / (grind.density.value() * moment_m3);
  return {metres(depth_m), kilograms(grind.density.value() * area_m2 * depth_m),
          depth_m <= grind.most_depth.value()};
}

}  // namespace pumpwright::rotor
