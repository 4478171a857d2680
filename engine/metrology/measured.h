// A measured value together with the doubt about it, in the type of what was measured.
//
// TIR and eccentricity are both lengths with opposite factors of two behind them; a value of one can not be
// judged by a limit on the other because the types differ. Steps (uncertainties, margins) have the type of a
// difference.
#pragma once

#include <limits>
#include <optional>

#include "engine/quantity/quantity.h"

namespace pumpwright {

// How a quantity is turned into SI, what the difference of two such values is called, and whether it can be
// negative.
template <class Q>
struct Measurand {
  using Step = Q;
  static constexpr bool never_negative = false;
  static double si(Q q) { return q.value(); }
  static double si_step(Step s) { return s.value(); }
  static Step step(double v) { return Step::from_value(v); }
};
template <>
struct Measurand<Tir> {
  using Step = Length;
  static constexpr bool never_negative = true;
  static double si(Tir q) { return q.value.value(); }
  static double si_step(Step s) { return s.value(); }
  static Step step(double v) { return metres(v); }
};
template <>
struct Measurand<Eccentricity> {
  using Step = Length;
  static constexpr bool never_negative = true;
  static double si(Eccentricity q) { return q.value.value(); }
  static double si_step(Step s) { return s.value(); }
  static Step step(double v) { return metres(v); }
};
template <>
struct Measurand<GaugePressure> {
  using Step = Pressure;
  static constexpr bool never_negative = false;
  static double si(GaugePressure q) { return q.value.value(); }
  static double si_step(Step s) { return s.value(); }
  static Step step(double v) { return pascals(v); }
};
template <>
struct Measurand<Temperature> {
  using Step = TemperatureDifference;
  static constexpr bool never_negative = false;
  static double si(Temperature q) { return kelvin_of(q); }
  static double si_step(Step s) { return s.value(); }
  static Step step(double v) { return kelvin_step(v); }
};

template <class Q>
struct Measured {
  using Step = typename Measurand<Q>::Step;

  Q value{};
  Step u{};                                              // standard uncertainty, >= 0
  double dof = std::numeric_limits<double>::infinity();  // behind u, > 0

  // Parts of u, where known; they only serve to say what would settle an unproven verdict. u² holds at least
  // u_graduation² + u_scatter².
  std::optional<Step> graduation{};  // of the instrument
  Step u_graduation{};               // what the graduation contributes to u
  Step u_scatter{};                  // what repeating the whole measurement and averaging would shrink

  bool in_date = true;  // whether the instrument was in date at the reading's time
};

}  // namespace pumpwright
