#include <gtest/gtest.h>

#include "engine/seal/film.h"
#include "tests/support/given_liquid.h"
#include "tests/support/given_seal.h"
#include "tests/support/refused.h"

namespace pumpwright::seal {
namespace {

template <class Change>
std::string field_after(Change change) {
  FilmCase c = testing::given_film();
  change(c);
  return testing::refused_field([&] { solve_film(c, testing::ThinningLiquid()); });
}

TEST(FilmBadInput, TheGivenSealIsNotRefused) {
  EXPECT_EQ(field_after([](auto&) {}), "");
}

TEST(FilmBadInput, EveryImpossibleNumberIsNamed) {
  EXPECT_EQ(field_after([](auto& c) { c.faces.outer_diameter = metres(0); }), "faces/outer_diameter");
  EXPECT_EQ(field_after([](auto& c) { c.asperities->roughness = metres(0); }), "asperities/roughness");
  EXPECT_EQ(field_after([](auto& c) { c.spring = newtons(-1); }), "spring force");
  EXPECT_EQ(field_after([](auto& c) { c.atmosphere = {pascals(0)}; }), "atmosphere");
  EXPECT_EQ(field_after([](auto& c) { c.chamber_temperature = kelvin(900); }), "chamber temperature");
  EXPECT_EQ(field_after([](auto& c) { c.speed = radians_per_second(-1); }), "speed");
  EXPECT_EQ(field_after([](auto& c) { c.coning.lapped = radians(1); }), "coning/lapped");
  EXPECT_EQ(field_after([](auto& c) { c.coning.by_pressure = ConingPerPressure::from_value(1); }),
            "coning/by_pressure");
  EXPECT_EQ(field_after([](auto& c) { c.coning.by_heat = ConingPerKelvin::from_value(1); }),
            "coning/by_heat");
  EXPECT_EQ(field_after([](auto& c) { c.heat.to_chamber = HeatConductance::from_value(0); }),
            "heat path/to_chamber");
  EXPECT_EQ(field_after([](auto& c) { c.heat.along_the_face = HeatConductance::from_value(-1); }),
            "heat path/along_the_face");
  EXPECT_EQ(field_after([](auto& c) { c.held_film = metres(0); }), "held film");
}

TEST(FilmBadInput, AChamberThatBoilsIsNoFilm) {
  EXPECT_EQ(field_after([](auto& c) { c.chamber_temperature = kelvin(453.15); }), "chamber pressure");
}

TEST(FilmBadInput, SmoothParallelFacesHaveNoFilmOfTheirOwn) {
  EXPECT_EQ(field_after([](auto& c) {
              c.asperities.reset();
              c.coning = {};
            }),
            "held film");
}

TEST(FilmBadInput, SettingsHaveTheirLimits) {
  const auto field = [](FilmSettings settings) {
    return testing::refused_field(
        [&] { solve_film(testing::given_film(), testing::ThinningLiquid(), settings); });
  };
  EXPECT_EQ(field({2, 100}), "film settings/cells");
  EXPECT_EQ(field({64, 0}), "film settings/most_iterations");
}

}  // namespace
}  // namespace pumpwright::seal
