// A surface of known harmonics, swept without error: what the sweep tests start from.
#pragma once

#include <cmath>
#include <vector>

#include "engine/metrology/sweep.h"

namespace pumpwright::testing {

struct KnownHarmonic {
  int order;
  double amplitude_m;
  double crest_deg;
};

struct KnownSurface {
  double mean_m = 0;
  std::vector<KnownHarmonic> harmonics{};

  double at(double place_deg) const {
    double sum = mean_m;
    for (const KnownHarmonic& h : harmonics)
      sum += h.amplitude_m * std::cos(h.order * (place_deg - h.crest_deg) * pi / 180);
    return sum;
  }
};

inline std::vector<double> even_places(int count, double first_deg = 0) {
  std::vector<double> places;
  for (int i = 0; i < count; ++i)
    places.push_back(first_deg + 360.0 * i / count);
  return places;
}

inline std::vector<SweepReading> swept(const KnownSurface& surface, const std::vector<double>& places_deg) {
  std::vector<SweepReading> readings;
  for (const double place : places_deg)
    readings.push_back({.angle = degrees(place), .reading = metres(surface.at(place))});
  return readings;
}

inline double um(Length length) {
  return length.value() * 1e6;
}

}  // namespace pumpwright::testing
