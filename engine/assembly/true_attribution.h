// Which part is out, and which way: the assumption that explains a chain's sweeps best, how sure that is,
// what it looks like it could also be, and what each part then adds to each sweep.
//
// Assumptions: nothing is wrong; one error is at fault; two are. Their evidence is exact (true_model.h).
// Beliefs about sizes are stated here and nowhere else. Where the readings can not decide, the result says
// so: `decided` is false, or `look_alikes` names what would read the same at every station.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "engine/assembly/true_station.h"

namespace pumpwright::true_running {

// What is believed before anything is read. Standard deviations are of one component of a vector; common
// practice of the trade, no source: a thou of TIR is ordinary for one part, a fault reads some five or six. A
// fault of 50 µm is the same thing seen 25 mm out from a short seat (2 mrad) and 100 mm out from a long or
// broad one (0.5 mrad).
struct Beliefs {
  Length ordinary_offset = metres(5e-6);
  Angle ordinary_tilt = radians(1e-4);
  Length large_offset = metres(50e-6);
  Angle large_tilt = radians(2e-3);
  Angle large_tilt_broad = radians(5e-4);
  double nothing = 0.5, one = 0.4, two = 0.1;  // probability that so many errors are at fault; sum 1
  double loose_weight = 0.5;         // of a loose indicator at one station, beside FaultInfo::weight
  double decided_at = 0.95;          // probability from which a culprit is named without "or"
  double nothing_decided_at = 0.75;  // and from which nothing is said to be wrong
};

// One error at fault.
template <class Chain>
struct Blame {
  Fault fault = Fault::indicator_loose;
  std::optional<typename Chain::Part> part;  // absent for indicator_loose
  std::string station;                       // of indicator_loose
  // Its size under this assumption; the one that fits the fault (the indicator's error is an offset).
  std::optional<Offset<Chain>> offset;
  std::optional<Tilt<Chain>> tilt;
  Covariance2 covariance{};  // of it, in the square of its SI unit

  // Whether `v` [m or rad] lies inside the stated 95 % region.
  bool region_contains(std::complex<double> v) const;
};

template <class Chain>
struct Hypothesis {
  std::vector<Blame<Chain>> blames{};  // none: nothing is wrong
  double probability = 0;
  bool looks_like_the_best = false;  // would read the same as the best at every station
};

// Everything a part is off by, ordinary errors included, under the best assumption.
template <class Chain>
struct PartState {
  typename Chain::Part part{};
  Offset<Chain> offset{};  // at the place the part sits
  Covariance2 offset_covariance{};
  Tilt<Chain> tilt{};
  Covariance2 tilt_covariance{};
};

// What a part adds to a station's vector under the best assumption.
template <class Chain>
struct Contribution {
  std::string station;
  typename Chain::Part part{};
  Offset<Chain> vector{};
  Covariance2 covariance{};
};

// What the readings say of all errors under the best assumption, for predicting (true_prediction.h): two
// numbers for each of faults_of, [m] or [rad].
struct ErrorBelief {
  std::vector<double> mean;
  std::vector<double> covariance;  // row by row
};

template <class Chain>
struct Attribution {
  std::vector<Hypothesis<Chain>>
      hypotheses;  // most probable first; those below 1e-4 left out, the best always there
  // That the errors of the best, or what reads like them, are at fault, whether another is at fault besides
  // or not; of nothing wrong: its own.
  double probability = 0;
  bool decided = false;              // that is at least what Beliefs asks
  bool alone = false;                // decided, and nothing else looks like the best
  std::vector<Fault> not_looked_at;  // errors that no station sees
  std::vector<PartState<Chain>> parts;
  std::vector<Contribution<Chain>> contributions;
  ErrorBelief errors;

  const Hypothesis<Chain>& best() const { return hypotheses.front(); }
};

// Throws BadInput as require_valid does.
template <class Chain>
Attribution<Chain> attribute(std::span<const Station<Chain>> stations, const Geometry<Chain>& geometry,
                             const Beliefs& beliefs = {});

// Whether two sets of errors (each at most two; `indicator_loose` stands with its station) read the same at
// every one of these stations. Both empty: true.
template <class Chain>
struct NamedError {
  Fault fault;
  std::string station;  // of indicator_loose
};
template <class Chain>
bool read_alike(std::span<const Station<Chain>> stations, const Geometry<Chain>& geometry,
                std::span<const NamedError<Chain>> a, std::span<const NamedError<Chain>> b);

}  // namespace pumpwright::true_running
