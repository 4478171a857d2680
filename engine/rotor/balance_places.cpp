#include "engine/rotor/balance_places.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "engine/assembly/input_check.h"

namespace pumpwright::rotor {
namespace {

using Complex = std::complex<double>;

constexpr double one_place_rad = 1e-9;
constexpr AngleSense as_written;

double wrapped_rad(double angle_rad) {
  const double rest = std::fmod(angle_rad, 2 * pi);
  return rest < 0 ? rest + 2 * pi : rest;
}

std::vector<double> sorted_places(std::span<const Angle> places) {
  require_between(static_cast<double>(places.size()), 1, static_cast<double>(places_max), "places",
                  fmt::format("1 to {} places", places_max));
  std::vector<double> sorted;
  for (const Angle& place : places) {
    require_that(std::isfinite(place.value()), place.value(), "places", "angles");
    sorted.push_back(wrapped_rad(place.value()));
  }
  std::sort(sorted.begin(), sorted.end());
  for (std::size_t i = 0; i < sorted.size(); ++i) {
    const double next = i + 1 < sorted.size() ? sorted[i + 1] : sorted.front() + 2 * pi;
    require_that(sorted.size() == 1 || next - sorted[i] > one_place_rad, degrees_of(radians(sorted[i])),
                 "places", "places that differ");
  }
  return sorted;
}

// The places on either side of an angle [rad]: before <= angle < after, after not wrapped.
struct Neighbours {
  double before;
  double after;
};

Neighbours neighbours_of(double angle_rad, const std::vector<double>& sorted) {
  const auto after = std::upper_bound(sorted.begin(), sorted.end(), angle_rad);
  const double before_rad = after == sorted.begin() ? sorted.back() - 2 * pi : *(after - 1);
  const double after_rad = after == sorted.end() ? sorted.front() + 2 * pi : *after;
  return {before_rad, after_rad};
}

std::vector<double> usable_neighbours(double angle_rad, const std::vector<double>& sorted) {
  if (sorted.size() == 1) return sorted;
  const Neighbours n = neighbours_of(angle_rad, sorted);
  return {n.before, n.after};
}

Complex unit(double angle_rad) {
  return {std::cos(angle_rad), std::sin(angle_rad)};
}

// A handful of weights at one place.
struct Handful {
  double mass_kg = 0;
  std::vector<std::size_t> pieces;  // into the available weights
};

void gather(std::span<const Mass> available, std::size_t from, std::size_t most, const Handful& so_far,
            std::vector<Handful>& all) {
  all.push_back(so_far);
  if (so_far.pieces.size() == most) return;
  for (std::size_t i = from; i < available.size(); ++i) {
    Handful more = so_far;
    more.mass_kg += available[i].value();
    more.pieces.push_back(i);
    gather(available, i, most, more, all);
  }
}

// By mass; of those that weigh the same the one with the fewest pieces.
std::vector<Handful> all_handfuls(std::span<const Mass> available, std::size_t most) {
  std::vector<Handful> all;
  gather(available, 0, most, {}, all);
  std::sort(all.begin(), all.end(), [](const Handful& a, const Handful& b) {
    return a.mass_kg != b.mass_kg ? a.mass_kg < b.mass_kg : a.pieces.size() < b.pieces.size();
  });
  const auto same = [](const Handful& a, const Handful& b) { return a.mass_kg == b.mass_kg; };
  all.erase(std::unique(all.begin(), all.end(), same), all.end());
  return all;
}

// The handfuls next below and above a mass.
std::array<const Handful*, 2> around(const std::vector<Handful>& handfuls, double mass_kg) {
  const auto above = std::lower_bound(handfuls.begin(), handfuls.end(), mass_kg,
                                      [](const Handful& h, double m) { return h.mass_kg < m; });
  const Handful* upper = above == handfuls.end() ? &handfuls.back() : &*above;
  const Handful* lower = above == handfuls.begin() ? upper : &*(above - 1);
  return {lower, upper};
}

struct Best {
  double left_kg_m = std::numeric_limits<double>::infinity();
  std::size_t pieces = 0;
  const Handful* first = nullptr;
  const Handful* second = nullptr;

  void try_pair(double left, const Handful& a, const Handful* b) {
    const std::size_t count = a.pieces.size() + (b == nullptr ? 0 : b->pieces.size());
    const bool nearer = left < left_kg_m * (1 - 1e-12);
    const bool as_near_with_fewer = left <= left_kg_m * (1 + 1e-12) && count < pieces;
    if (nearer || as_near_with_fewer) *this = {left, count, &a, b};
  }
};

Best nearest(Complex wanted, std::span<const double> places_rad, double radius_m,
             const std::vector<Handful>& handfuls) {
  Best best;
  const Complex first = radius_m * unit(places_rad[0]);
  for (const Handful& a : handfuls) {
    const Complex rest = wanted - a.mass_kg * first;
    if (places_rad.size() == 1) {
      best.try_pair(std::abs(rest), a, nullptr);
      continue;
    }
    const Complex direction = unit(places_rad[1]);
    const double along = (rest * std::conj(direction)).real() / radius_m;
    for (const Handful* b : around(handfuls, along))
      best.try_pair(std::abs(rest - b->mass_kg * radius_m * direction), a, b);
  }
  return best;
}

PlaceLoad load_of(const Handful& handful, double place_rad, double radius_m,
                  std::span<const Mass> available) {
  PlaceLoad load{radians(wrapped_rad(place_rad)), kilogram_metres(handful.mass_kg * radius_m)};
  for (const std::size_t i : handful.pieces)
    load.weights.push_back(available[i]);
  return load;
}

void require_valid(Length radius, std::span<const Mass> available, std::size_t most_pieces) {
  require_that(std::isfinite(radius.value()) && radius.value() > 0, radius.value(), "radius",
               "a radius over 0");
  require_between(static_cast<double>(available.size()), 1, static_cast<double>(weights_max), "weights",
                  fmt::format("1 to {} weights", weights_max));
  for (const Mass& m : available)
    require_that(std::isfinite(m.value()) && m.value() > 0, m.value(), "weights", "masses over 0");
  require_between(static_cast<double>(most_pieces), 1, static_cast<double>(pieces_max), "most_per_place",
                  fmt::format("a number from 1 to {}", pieces_max));
}

}  // namespace

std::vector<PlaceLoad> split_between_places(const UnbalanceVector& wanted, std::span<const Angle> places) {
  const std::vector<double> sorted = sorted_places(places);
  const double angle_rad = wrapped_rad(wanted.place.value());
  const Neighbours n = neighbours_of(angle_rad, sorted);
  if (angle_rad - n.before <= one_place_rad) return {{radians(wrapped_rad(n.before)), wanted.amount}};
  if (n.after - angle_rad <= one_place_rad) return {{radians(wrapped_rad(n.after)), wanted.amount}};
  require_that(n.after - n.before < pi - one_place_rad, degrees_of(radians(n.after - n.before)), "places",
               "places on either side of the correction less than 180 degrees apart");
  const double whole = std::sin(n.after - n.before);
  return {{radians(wrapped_rad(n.before)), std::sin(n.after - angle_rad) / whole * wanted.amount},
          {radians(wrapped_rad(n.after)), std::sin(angle_rad - n.before) / whole * wanted.amount}};
}

WeightChoice choose_weights(const UnbalanceVector& wanted, std::span<const Angle> places, Length radius,
                            std::span<const Mass> available, std::size_t most_pieces) {
  require_valid(radius, available, most_pieces);
  const std::vector<double> at_rad =
      usable_neighbours(wrapped_rad(wanted.place.value()), sorted_places(places));
  const std::vector<Handful> handfuls = all_handfuls(available, most_pieces);
  const Complex target = complex_of(wanted, as_written);
  const Best best = nearest(target, at_rad, radius.value(), handfuls);

  WeightChoice choice;
  Complex fitted = 0;
  const std::array<const Handful*, 2> chosen{best.first, best.second};
  for (std::size_t i = 0; i < at_rad.size(); ++i) {
    if (chosen[i]->pieces.empty()) continue;
    choice.loads.push_back(load_of(*chosen[i], at_rad[i], radius.value(), available));
    fitted += complex_of(UnbalanceVector{choice.loads.back().amount, choice.loads.back().place}, as_written);
  }
  choice.left = unbalance_of(target - fitted, as_written);
  return choice;
}

}  // namespace pumpwright::rotor
