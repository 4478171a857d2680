#include "engine/rotor/rotor.h"

#include <fmt/format.h>

#include "engine/assembly/input_check.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::rotor {
namespace {

constexpr double least_span_m = 1e-3;
constexpr std::size_t most_places = 20;

void require_on_shaft(Length at, double shaft_m, const std::string& field) {
  require_between(at.value(), 0, shaft_m, field,
                  fmt::format("a place on the shaft, 0 to {:g} mm from its impeller end", shaft_m * 1e3));
}

void require_supports(const Rotor& rotor, double shaft_m) {
  for (std::size_t i = 0; i < rotor.supports.size(); ++i) {
    const Support& support = rotor.supports[i];
    require_on_shaft(support.at, shaft_m, fmt::format("bearings/{}/at", i));
    if (support.stiffness)
      require_between(support.stiffness->value(), 1e3, 1e12, fmt::format("bearings/{}/stiffness", i),
                      "a stiffness from 1 N/mm to 1e9 N/mm");
  }
  const Length second = rotor.supports[1].at;
  require_that((second - rotor.supports[0].at).value() >= least_span_m, second.value(), "bearings/1/at",
               "a place at least 1 mm farther from the impeller end than the first bearing");
}

void require_disk(const Disk& disk, double shaft_m, const std::string& field) {
  require_on_shaft(disk.at, shaft_m, field + "/at");
  require_between(disk.mass.value(), 0, 2000, field + "/mass", "a mass from 0 to 2000 kg");
  require_between(disk.diametral.value(), 0, 1e4, field + "/diametral_inertia", "0 to 10000 kg·m²");
  require_between(disk.polar.value(), 0, 2 * disk.diametral.value() * (1 + 1e-12), field + "/polar_inertia",
                  "0 to twice the diametral inertia, which no body exceeds");
}

void require_few(std::size_t count, const std::string& field) {
  if (count > most_places)
    throw BadInput({field, "", fmt::format("{}", count), fmt::format("at most {}", most_places)});
}

}  // namespace

Disk solid_disk(Length at, Mass mass, Length diameter, Length width) {
  require_between(diameter.value(), 1e-3, 5, "impeller/outlet_diameter", "a diameter from 1 mm to 5 m");
  require_between(width.value(), 0, 5, "impeller/outlet_width", "a width from 0 to 5 m");
  const double d2 = diameter.value() * diameter.value();
  const double b2 = width.value() * width.value();
  return {at, mass, kilogram_square_metres(mass.value() * d2 / 8),
          kilogram_square_metres(mass.value() * (d2 / 16 + b2 / 12))};
}

void require_valid(const Rotor& rotor) {
  require_valid(rotor.material);
  require_valid(rotor.steps);
  const double shaft_m = length_of(rotor.steps).value();
  require_supports(rotor, shaft_m);
  require_disk(rotor.impeller, shaft_m, "impeller");
  require_few(rotor.others.size(), "others");
  for (std::size_t i = 0; i < rotor.others.size(); ++i)
    require_disk(rotor.others[i], shaft_m, fmt::format("others/{}", i));
  require_few(rotor.stations.size(), "stations");
  for (std::size_t i = 0; i < rotor.stations.size(); ++i)
    require_on_shaft(rotor.stations[i], shaft_m, fmt::format("stations/{}", i));
}

}  // namespace pumpwright::rotor
