#include "engine/rotor/bearing_life.h"

#include <array>
#include <cmath>
#include <limits>
#include <utility>

#include "engine/assembly/input_check.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::rotor {
namespace {

constexpr std::array<std::pair<const char*, BearingKind>, 3> words{{
    {"deep-groove-ball", BearingKind::deep_groove_ball},
    {"angular-contact-ball-40", BearingKind::angular_contact_ball_40},
    {"cylindrical-roller", BearingKind::cylindrical_roller},
}};

struct GrooveRow {
  double thrust_ratio;  // f0 Fa / C0
  double e, y;
};

constexpr std::array groove_rows{
    GrooveRow{0.172, 0.19, 2.30}, GrooveRow{0.345, 0.22, 1.99}, GrooveRow{0.689, 0.26, 1.71},
    GrooveRow{1.03, 0.28, 1.55},  GrooveRow{1.38, 0.30, 1.45},  GrooveRow{2.07, 0.34, 1.31},
    GrooveRow{3.45, 0.38, 1.15},  GrooveRow{5.17, 0.42, 1.04},  GrooveRow{6.89, 0.44, 1.00}};

void require_valid(const RatedBearing& bearing) {
  require_between(bearing.dynamic_rating.value(), 10, 1e7, "dynamic_rating", "a rating from 10 N to 10 MN");
  if (bearing.static_rating)
    require_between(bearing.static_rating->value(), 10, 1e7, "static_rating", "a rating from 10 N to 10 MN");
  if (bearing.f0) require_between(*bearing.f0, 5, 20, "f0", "the sheet's factor f0, 5 to 20");
}

double thrust_ratio_of(const RatedBearing& bearing, Force axial) {
  if (!bearing.static_rating)
    throw BadInput({"static_rating", "", "", "the static rating C0 of a deep-groove bearing under thrust"});
  if (!bearing.f0) throw BadInput({"f0", "", "", "the factor f0 of a deep-groove bearing under thrust"});
  const double ratio = *bearing.f0 * axial.value() / bearing.static_rating->value();
  require_that(ratio <= groove_rows.back().thrust_ratio, axial.value(), "axial_load",
               "a thrust whose f0 Fa / C0 is at most 6.89, where the table of factors ends");
  return ratio;
}

LoadFactors groove_factors(double ratio) {
  if (ratio <= groove_rows.front().thrust_ratio) return {0.56, groove_rows.front().y, groove_rows.front().e};
  std::size_t i = 1;
  while (ratio > groove_rows[i].thrust_ratio)
    ++i;
  const GrooveRow& a = groove_rows[i - 1];
  const GrooveRow& b = groove_rows[i];
  const double part = (ratio - a.thrust_ratio) / (b.thrust_ratio - a.thrust_ratio);
  return {0.56, std::lerp(a.y, b.y, part), std::lerp(a.e, b.e, part)};
}

}  // namespace

BearingKind bearing_kind(const std::string& word, const std::string& field) {
  for (const auto& [known, kind] : words)
    if (word == known) return kind;
  throw BadInput({field, "", word, "one of deep-groove-ball, angular-contact-ball-40, cylindrical-roller"});
}

const char* word_for(BearingKind kind) {
  for (const auto& [known, value] : words)
    if (kind == value) return known;
  return "";
}

LoadFactors load_factors(const RatedBearing& bearing, Force radial, Force axial) {
  require_valid(bearing);
  require_between(radial.value(), 0, 1e7, "radial load", "a load from 0 to 10 MN");
  require_between(axial.value(), 0, 1e7, "axial_load", "a thrust from 0 to 10 MN");
  if (axial.value() == 0) return {};
  LoadFactors factors;
  switch (bearing.kind) {
    case BearingKind::deep_groove_ball:
      factors = groove_factors(thrust_ratio_of(bearing, axial));
      break;
    case BearingKind::angular_contact_ball_40:
      factors = {0.35, 0.57, 1.14};
      break;
    case BearingKind::cylindrical_roller:
      throw BadInput(
          {"axial_load", "", "", "a bearing that carries thrust as the one that locates the shaft"});
  }
  if (axial.value() <= factors.e * radial.value()) return {1, 0, factors.e};
  return factors;
}

Force equivalent_load(const RatedBearing& bearing, Force radial, Force axial) {
  const LoadFactors factors = load_factors(bearing, radial, axial);
  return factors.x * radial + factors.y * axial;
}

Time basic_life(const RatedBearing& bearing, Force equivalent, Speed speed) {
  require_valid(bearing);
  require_that(speed.value() > 0, speed.value(), "speed", "a speed over 0");
  if (equivalent.value() <= 0) return seconds(std::numeric_limits<double>::infinity());
  const double exponent = bearing.kind == BearingKind::cylindrical_roller ? 10.0 / 3 : 3.0;
  const double turns = 1e6 * std::pow(bearing.dynamic_rating.value() / equivalent.value(), exponent);
  return seconds(turns * 2 * pi / speed.value());
}

bool within_life_formula(const RatedBearing& bearing, Force equivalent) {
  return equivalent <= 0.5 * bearing.dynamic_rating;
}

Time system_life(std::span<const Time> lives) {
  double sum = 0;
  for (const Time& life : lives)
    sum += std::pow(life.value(), -system_weibull_slope);
  return seconds(std::pow(sum, -1 / system_weibull_slope));
}

}  // namespace pumpwright::rotor
