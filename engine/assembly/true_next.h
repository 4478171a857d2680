// The one sweep more that would best tell the two likeliest assumptions apart.
//
// Each assumption foretells the candidate's vector as a normal distribution. How well the candidate tells
// them apart is the mean of the two Kullback-Leibler divergences, in nats: the evidence that is to be
// expected, on average, for the right one against the other. Three nats are odds of 20 to 1. Of the
// candidates that reach that, the least work is taken; when none does, the one that tells most.
//
// Source: divergence of two normal distributions, textbook formula (closed form, checked against NumPy).
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "engine/assembly/true_attribution.h"

namespace pumpwright::true_running {

// A sweep that could be taken. Vector and covariance of `station` do not count; its id may be that of a
// station already taken (again, with the indicator set anew).
template <class Chain>
struct Candidate {
  Station<Chain> station;
  int work = 0;  // 0: nothing comes off; more is more work
};

struct Told {
  std::size_t candidate = 0;
  double nats = 0;  // expected evidence
};

struct NextMeasurement {
  Told chosen;
  std::vector<Told> all;  // in the order of the candidates
};

inline constexpr double decisive_nats = 3;

// Absent when there is no candidate, or none tells the two apart by as much as 0.1 nat. `u` [m]: expected
// standard uncertainty of a component of the new vector, > 0. Throws BadInput as require_valid does.
template <class Chain>
std::optional<NextMeasurement> next_measurement(std::span<const Station<Chain>> stations,
                                                const Geometry<Chain>& geometry,
                                                std::span<const Candidate<Chain>> candidates, Length u,
                                                const Beliefs& beliefs = {});

}  // namespace pumpwright::true_running
