// Where a seal may be run: over the liquid's temperature and the suction pressure, which conditions keep the
// liquid far enough from boiling, and the least suction pressure that does at each temperature.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "engine/executor.h"
#include "engine/fluid/liquid.h"
#include "engine/quantity/quantity.h"
#include "engine/seal/film.h"
#include "engine/seal/film_liquid.h"
#include "engine/seal/vapour_margin.h"

namespace pumpwright::seal {

// Temperature at which the margin is asked for.
enum class JudgedAt {
  chamber,  // as the standard words it; no film is solved then
  face,     // at the hottest place of the faces, found by the film: the stricter
};

struct MapRequest {
  FilmCase seal;  // its chamber pressure, atmosphere and chamber temperature are replaced; the rest stays
  Temperature coldest, hottest;    // inside the liquid's range, coldest < hottest
  std::size_t temperatures = 200;  // 2 to 2000
  GaugePressure lowest, highest;   // suction, lowest < highest, within vacuum to 50 MPa
  std::size_t pressures = 200;     // 2 to 2000
  Pressure rise;                   // of the pump, 0 to 50 MPa
  double share = 0;                // of the rise that stands in the chamber, 0 to 1
  Length altitude;                 // of the site
  MarginRule rule;
  JudgedAt judged = JudgedAt::face;
  int cells = 24;  // of a film solve, 4 to 512
};

enum class Condition : unsigned char {
  chamber_boils,  // already in the chamber
  face_boils,     // at the faces, or hotter there than the liquid's data reach
  too_small,      // no boiling, but less margin than asked for
  by_ratio,       // margin by the ratio
  by_difference,  // margin by the difference
  opens,          // the liquid pushes the faces apart
  unsolved,       // the film's equations found no solution: nothing is claimed
};

const char* word_for(Condition condition);

struct MapColumn {
  Temperature temperature;
  std::vector<Condition> conditions;  // by suction pressure, lowest first, evenly spaced with both ends
  std::optional<GaugePressure>
      least_suction;  // from which on it is enough, to a thousandth of a step; the lowest
                      // when all is enough; empty when nothing in the range is. More
                      // pressure also heats the faces: read the column, not this alone.
};

// Columns are computed in blocks of fixed size that do not depend on each other, so that a caller can draw
// what is there while the rest is being computed, and any executor gives the same bits.
class ConditionsMap {
 public:
  static constexpr std::size_t columns_a_block = 4;

  // Throws BadInput "map/..." or what solve_film says of the seal.
  ConditionsMap(const fluid::Liquid& liquid, const MapRequest& request);

  std::size_t blocks() const;

  // Columns 4 i to 4 i + 3 (fewer at the end). i < blocks(). May be called from several threads at once.
  std::vector<MapColumn> block(std::size_t i) const;

  // All columns from coldest to hottest.
  std::vector<MapColumn> all(Executor& executor) const;

 private:
  MapColumn column(std::size_t i) const;

  MapRequest request_;
  FilmLiquid liquid_;
  double atmosphere_pa_;
};

}  // namespace pumpwright::seal
