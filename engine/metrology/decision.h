// Deciding whether a measured value keeps to a limit: pass, fail or unproven, by how much, with what
// probability, and what would settle it.
//
// Two rules, named by the limit:
//  * Guarded (ISO 14253-1:2017, remembered: default one-sided probability 95 %, k = 1.6449): conformity is
//  proven when
//    the value lies inside the limit by at least g = k·u, non-conformity when it lies outside by at least g;
//    between them nothing is proven. k is the one-sided quantile of Student's t for the degrees of freedom
//    behind u.
//  * Simple acceptance with a stated instrument-to-limit ratio: the value decides as it stands, provided the
//  limit is
//    at least `ratio` times as wide as the instrument's graduation (or as its expanded uncertainty). With a
//    coarser instrument nothing is proven.
// An instrument out of date proves nothing under either rule.
//
// Conformance probability (JCGM 106:2012, clause 7): p_c = Φ((T_U-y)/u) - Φ((T_L-y)/u), with Student's t in
// place of Φ when the degrees of freedom are finite. For quantities that can not be negative (TIR,
// eccentricity) the part of the distribution below zero is cut off and the rest scaled to one.
#pragma once

#include <optional>
#include <string>
#include <variant>

#include "engine/metrology/measured.h"

namespace pumpwright {

enum class Outcome { pass, fail, unproven };

enum class Reason {
  inside_guarded,          // inside the limit by at least the guard band: pass
  outside_guarded,         // outside the limit by at least the guard band: fail
  limit_in_uncertainty,    // the limit lies inside the uncertainty: unproven
  tolerance_too_narrow,    // both limits lie inside the uncertainty; no value could be proven: unproven
  inside_limit,            // simple acceptance: pass
  outside_limit,           // simple acceptance: fail
  instrument_too_coarse,   // simple acceptance: the stated ratio is not met: unproven
  instrument_not_stated,   // simple acceptance: there is no figure to form the ratio with: unproven
  instrument_out_of_date,  // unproven
};

// A code for records and messages, e.g. "limit-in-uncertainty"; stable.
std::string code(Reason reason);
std::string code(Outcome outcome);  // "pass", "fail", "unproven"

struct Guarded {
  double probability = 0.95;  // one-sided conformance probability, 0.5 <= p < 1
};

struct SimpleAcceptance {
  enum class Of { graduation, expanded_uncertainty };  // the latter: U = 2u
  double ratio = 4;  // how many times the instrument's figure must fit into the limit, > 0
  Of of = Of::graduation;
};

using DecisionRule = std::variant<Guarded, SimpleAcceptance>;

// At least one of the two; lower <= upper. Both ends belong to the permitted range.
template <class Q>
struct Limit {
  std::optional<Q> lower{};
  std::optional<Q> upper{};
};

enum class Side { lower, upper };

// What would turn an unproven verdict into a proven one if the same value were found again. Every field alone
// is enough; a field is absent when that way does not lead there.
template <class Step>
struct Settling {
  std::optional<Step> u;           // standard uncertainty at which the same value is proven
  std::optional<Step> graduation;  // graduation of an otherwise equal instrument
  std::optional<int> repeats;      // how many times in all to take the measurement and average (at most 1000)
};

template <class Q>
struct Verdict {
  using Step = typename Measurand<Q>::Step;
  Outcome outcome = Outcome::unproven;
  Reason reason = Reason::limit_in_uncertainty;
  Side nearest = Side::upper;  // the limit that decides
  Step margin{};               // distance from the value to that limit; positive inside, negative outside
  Step guard{};                // g = k·u; 0 under simple acceptance
  double conformance_probability = 0;
  Settling<Step> settling;  // empty unless unproven
};

// The same in SI numbers; decide() below is the typed way in.
namespace decision_si {
struct Input {
  std::optional<double> lower{}, upper{};
  double value = 0, u = 0, dof = 0;
  std::optional<double> graduation{};
  double u_graduation = 0, u_scatter = 0;
  bool in_date = true;
  bool never_negative = false;
};
struct Output {
  Outcome outcome;
  Reason reason;
  Side nearest;
  double margin, guard, conformance_probability;
  Settling<double> settling;
};
Output decide(const Input& input, const DecisionRule& rule);
double conformance_probability(const Input& input);
}  // namespace decision_si

// Judges `measured` by `limit`. The width of the limit for the ratio is upper - lower when both are given,
// otherwise the distance of the one limit from zero. u = 0 is a value known exactly: the guard band vanishes
// and a value on the limit passes. Throws BadInput when no limit is given, lower > upper, u or dof is out of
// range, or a number is not finite.
template <class Q>
Verdict<Q> decide(const Limit<Q>& limit, const Measured<Q>& measured, const DecisionRule& rule);

}  // namespace pumpwright

#include "engine/metrology/decision_typed.h"
