#include "engine/seal/film.h"

#include "engine/assembly/input_check.h"
#include "engine/seal/film_newton.h"

namespace pumpwright::seal {
namespace {

void require_valid(const Coning& coning) {
  require_between(coning.lapped.value(), -0.1, 0.1, "coning/lapped", "an angle within 0.1 rad");
  require_between(coning.by_pressure.value(), -1e-6, 1e-6, "coning/by_pressure", "within 1 rad/MPa");
  require_between(coning.by_heat.value(), -1e-2, 1e-2, "coning/by_heat", "within 0.01 rad/K");
}

void require_valid(const HeatPath& heat) {
  require_between(heat.to_chamber.value(), 1e-6, 1e5, "heat path/to_chamber",
                  "a conductance from 0.000001 to 100 000 W/K");
  require_between(heat.along_the_face.value(), 0, 1e3, "heat path/along_the_face",
                  "a conductance from 0 to 1000 W/K");
}

void require_settles(const FilmCase& seal) {
  const bool parallel = seal.coning.lapped.value() == 0 && seal.coning.by_pressure.value() == 0 &&
                        seal.coning.by_heat.value() == 0;
  require_that(seal.asperities || seal.held_film || !parallel, 0, "held film",
               "a film to hold, since smooth parallel faces have none of their own");
  if (seal.held_film)
    require_between(seal.held_film->value(), 1e-8, 1e-3, "held film", "a film from 0.01 µm to 1 mm");
}

void require_valid(const FilmCase& seal, const FilmLiquid& liquid) {
  require_valid(seal.faces, "faces");
  if (seal.asperities) require_valid(*seal.asperities);
  require_between(seal.spring.value(), 0, 1e5, "spring force", "a force from 0 to 100 kN");
  const double t_k = kelvin_of(seal.chamber_temperature);
  require_between(t_k, liquid.lowest_k(), liquid.highest_k(), "chamber temperature",
                  "a temperature inside the liquid's range");
  require_between(seal.chamber.value.value(), liquid.saturation_pa(t_k), 50e6, "chamber pressure",
                  "an absolute pressure from the liquid's vapour pressure in the chamber to 50 MPa");
  require_between(seal.atmosphere.value.value(), 1e3, 50e6, "atmosphere",
                  "an absolute pressure from 1 kPa to 50 MPa");
  require_between(seal.speed.value(), 0, 1e4, "speed", "a speed from 0 to 10 000 rad/s");
  require_valid(seal.coning);
  require_valid(seal.heat);
  require_settles(seal);
}

void require_valid(const FilmSettings& settings) {
  require_between(settings.cells, 4, 4096, "film settings/cells", "4 to 4096 cells");
  require_between(settings.most_iterations, 1, 10'000, "film settings/most_iterations", "1 to 10 000");
}

}  // namespace

FilmSolution solve_film(const FilmCase& seal, const FilmLiquid& liquid, const FilmSettings& settings) {
  require_valid(seal, liquid);
  require_valid(settings);
  FilmNewton newton(seal, liquid, settings.cells);
  newton.solve(settings.most_iterations);
  return newton.solution();
}

FilmSolution solve_film(const FilmCase& seal, const fluid::Liquid& liquid, const FilmSettings& settings) {
  return solve_film(seal, FilmLiquid(liquid, seal.chamber), settings);
}

}  // namespace pumpwright::seal
