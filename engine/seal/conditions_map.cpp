#include "engine/seal/conditions_map.h"

#include <algorithm>
#include <utility>

#include "engine/assembly/input_check.h"
#include "engine/seal/atmosphere.h"
#include "engine/seal/film_newton.h"

namespace pumpwright::seal {
namespace {

constexpr int most_iterations = 120;
constexpr int halvings = 10;  // of a step of the map, for the least suction pressure

void require_count(std::size_t count, const char* field) {
  require_between(static_cast<double>(count), 2, 2000, field, "2 to 2000 points");
}

void require_valid(const MapRequest& r, const fluid::Liquid& liquid) {
  require_between(kelvin_of(r.coldest), kelvin_of(liquid.lowest_temperature()),
                  kelvin_of(liquid.highest_temperature()), "map/coldest",
                  "a temperature inside the liquid's range");
  require_that(kelvin_of(r.hottest) > kelvin_of(r.coldest) &&
                   kelvin_of(r.hottest) <= kelvin_of(liquid.highest_temperature()),
               kelvin_of(r.hottest), "map/hottest",
               "a temperature above the coldest and inside the liquid's range");
  require_between(r.lowest.value.value(), -101325, 50e6, "map/lowest",
                  "a gauge pressure from vacuum to 50 MPa");
  require_that(r.highest.value > r.lowest.value && r.highest.value.value() <= 50e6, r.highest.value.value(),
               "map/highest", "a gauge pressure above the lowest, to 50 MPa");
  require_count(r.temperatures, "map/temperatures");
  require_count(r.pressures, "map/pressures");
  require_between(r.rise.value(), 0, 50e6, "map/rise", "a pressure from 0 to 50 MPa");
  require_between(r.share, 0, 1, "map/share", "a share from 0 to 1");
  require_between(r.cells, 4, 512, "map/cells", "4 to 512 cells");
  require_between(r.rule.least_difference.value(), 0, 1e7, "map/rule/difference",
                  "a pressure from 0 to 10 MPa");
  require_between(r.rule.least_ratio, 1, 10, "map/rule/ratio", "a ratio from 1 to 10");
}

// i of n points from a to b, both ends exactly.
double point(double a, double b, std::size_t i, std::size_t n) {
  if (i + 1 == n) return b;
  return a + (b - a) * static_cast<double>(i) / static_cast<double>(n - 1);
}

Condition condition_of(MarginClass margin) {
  switch (margin) {
    case MarginClass::boils:
      return Condition::face_boils;
    case MarginClass::too_small:
      return Condition::too_small;
    case MarginClass::by_ratio:
      return Condition::by_ratio;
    case MarginClass::by_difference:
      return Condition::by_difference;
  }
  return Condition::unsolved;
}

bool is_enough(Condition condition, const MarginRule& rule) {
  return condition == Condition::by_difference || (rule.ratio_suffices && condition == Condition::by_ratio);
}

// One temperature: the film's solution at one pressure starts the next.
class Column {
 public:
  Column(const FilmCase& seal, const FilmLiquid& liquid, const MapRequest& request)
      : request_(request),
        liquid_(liquid),
        chamber_k_(kelvin_of(seal.chamber_temperature)),
        vapour_pa_(liquid.saturation_pa(chamber_k_)),
        film_(seal, liquid, request.cells) {}

  Condition at(double chamber_pa) {
    if (chamber_pa <= vapour_pa_) return Condition::chamber_boils;
    if (request_.judged == JudgedAt::chamber)
      return condition_of(margin_class(chamber_pa, vapour_pa_, request_.rule));
    film_.set_chamber(chamber_pa);
    if (!film_.solve(most_iterations, true)) return film_.opened() ? Condition::opens : Condition::unsolved;
    if (film_.beyond_liquid()) return Condition::face_boils;
    return condition_of(margin_class(chamber_pa, liquid_.saturation_pa(film_.hottest_k()), request_.rule));
  }

 private:
  const MapRequest& request_;
  const FilmLiquid& liquid_;
  double chamber_k_, vapour_pa_;
  FilmNewton film_;
};

}  // namespace

const char* word_for(Condition condition) {
  switch (condition) {
    case Condition::chamber_boils:
      return "chamber_boils";
    case Condition::face_boils:
      return "face_boils";
    case Condition::too_small:
      return "too_small";
    case Condition::by_ratio:
      return "by_ratio";
    case Condition::by_difference:
      return "by_difference";
    case Condition::opens:
      return "opens";
    case Condition::unsolved:
      return "unsolved";
  }
  return "";
}

ConditionsMap::ConditionsMap(const fluid::Liquid& liquid, const MapRequest& request)
    : request_(request),
      liquid_((require_valid(request, liquid), liquid),
              AbsolutePressure{standard_atmosphere(request.altitude).value + request.lowest.value / 2.0 +
                               request.highest.value / 2.0 + request.share * request.rise}),
      atmosphere_pa_(standard_atmosphere(request.altitude).value.value()) {
  request_.seal.atmosphere = standard_atmosphere(request.altitude);
  FilmCase middle = request_.seal;  // looks at everything in the seal that no column changes
  middle.chamber_temperature = request_.coldest;
  middle.chamber = {pascals(std::max(atmosphere_pa_, liquid_.saturation_pa(kelvin_of(request_.coldest))))};
  solve_film(middle, liquid_, {request_.cells, 1});
}

std::size_t ConditionsMap::blocks() const {
  return (request_.temperatures + columns_a_block - 1) / columns_a_block;
}

MapColumn ConditionsMap::column(std::size_t i) const {
  FilmCase seal = request_.seal;
  seal.chamber_temperature =
      kelvin(point(kelvin_of(request_.coldest), kelvin_of(request_.hottest), i, request_.temperatures));
  seal.chamber = seal.atmosphere;
  Column column(seal, liquid_, request_);
  const double added_pa = atmosphere_pa_ + request_.share * request_.rise.value();
  const auto suction_pa = [&](std::size_t j) {
    return point(request_.lowest.value.value(), request_.highest.value.value(), j, request_.pressures);
  };
  MapColumn c{seal.chamber_temperature, {}, std::nullopt};
  for (std::size_t j = 0; j < request_.pressures; ++j)
    c.conditions.push_back(column.at(suction_pa(j) + added_pa));

  const auto first = std::find_if(c.conditions.begin(), c.conditions.end(),
                                  [&](Condition k) { return is_enough(k, request_.rule); });
  if (first == c.conditions.end()) return c;
  const auto j = static_cast<std::size_t>(first - c.conditions.begin());
  double enough_pa = suction_pa(j);
  double less_pa = j > 0 ? suction_pa(j - 1) : enough_pa;
  for (int k = 0; j > 0 && k < halvings; ++k) {
    const double half_pa = (less_pa + enough_pa) / 2;
    (is_enough(column.at(half_pa + added_pa), request_.rule) ? enough_pa : less_pa) = half_pa;
  }
  c.least_suction = GaugePressure{pascals(enough_pa)};
  return c;
}

std::vector<MapColumn> ConditionsMap::block(std::size_t i) const {
  std::vector<MapColumn> columns;
  const std::size_t end = std::min((i + 1) * columns_a_block, request_.temperatures);
  for (std::size_t k = i * columns_a_block; k < end; ++k)
    columns.push_back(column(k));
  return columns;
}

std::vector<MapColumn> ConditionsMap::all(Executor& executor) const {
  std::vector<std::vector<MapColumn>> parts(blocks());
  executor.run(parts.size(), [&](std::size_t i) { parts[i] = block(i); });
  std::vector<MapColumn> columns;
  for (auto& part : parts)
    for (MapColumn& c : part)
      columns.push_back(std::move(c));
  return columns;
}

}  // namespace pumpwright::seal
