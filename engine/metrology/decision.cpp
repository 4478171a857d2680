#include "engine/metrology/decision.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/metrology/quantiles.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright {

std::string code(Outcome outcome) {
  switch (outcome) {
    case Outcome::pass:
      return "pass";
    case Outcome::fail:
      return "fail";
    case Outcome::unproven:
      return "unproven";
  }
  return {};
}

std::string code(Reason reason) {
  switch (reason) {
    case Reason::inside_guarded:
      return "inside-guarded";
    case Reason::outside_guarded:
      return "outside-guarded";
    case Reason::limit_in_uncertainty:
      return "limit-in-uncertainty";
    case Reason::tolerance_too_narrow:
      return "tolerance-too-narrow";
    case Reason::inside_limit:
      return "inside-limit";
    case Reason::outside_limit:
      return "outside-limit";
    case Reason::instrument_too_coarse:
      return "instrument-too-coarse";
    case Reason::instrument_not_stated:
      return "instrument-not-stated";
    case Reason::instrument_out_of_date:
      return "instrument-out-of-date";
  }
  return {};
}

namespace decision_si {
namespace {

constexpr int repeats_max = 1000;

[[noreturn]] void refuse(const char* field, double value, const char* expected) {
  throw BadInput({.field = field, .place = "", .value = fmt::format("{:.9g}", value), .expected = expected});
}

void validate(const Input& in) {
  if (!in.lower && !in.upper)
    throw BadInput({.field = "limit", .place = "", .value = "", .expected = "a lower or an upper limit"});
  if (in.lower && !std::isfinite(*in.lower)) refuse("lower limit", *in.lower, "a finite number");
  if (in.upper && !std::isfinite(*in.upper)) refuse("upper limit", *in.upper, "a finite number");
  if (in.lower && in.upper && *in.lower > *in.upper)
    refuse("lower limit", *in.lower, "not above the upper limit");
  if (!std::isfinite(in.value)) refuse("measured value", in.value, "a finite number");
  if (in.never_negative && in.value < 0) refuse("measured value", in.value, "zero or more");
  if (!(std::isfinite(in.u) && in.u >= 0))
    refuse("standard uncertainty", in.u, "a finite number of zero or more");
  if (!(in.dof > 0)) refuse("degrees of freedom", in.dof, "a number above zero");
  if (in.graduation && !(std::isfinite(*in.graduation) && *in.graduation > 0))
    refuse("graduation", *in.graduation, "a finite number above zero");
}

struct Nearest {
  Side side;
  double margin;  // positive inside
};

Nearest nearest_limit(const Input& in) {
  if (!in.lower) return {Side::upper, *in.upper - in.value};
  if (!in.upper) return {Side::lower, in.value - *in.lower};
  const double below = *in.upper - in.value;
  const double above = in.value - *in.lower;
  return below <= above ? Nearest{Side::upper, below} : Nearest{Side::lower, above};
}

double width_of(const Input& in) {
  if (in.lower && in.upper) return *in.upper - *in.lower;
  return std::fabs(in.upper ? *in.upper : *in.lower);
}

// Ways to bring u down to `u_needed` with the value as it is.
Settling<double> settling_u(const Input& in, double u_needed) {
  Settling<double> ways;
  if (!(u_needed > 0)) return ways;
  ways.u = u_needed;
  const double room = u_needed * u_needed - (in.u * in.u - in.u_graduation * in.u_graduation);
  if (in.graduation && in.u_graduation > 0 && room > 0)
    ways.graduation = *in.graduation * std::sqrt(room) / in.u_graduation;
  const double fixed = in.u * in.u - in.u_scatter * in.u_scatter;
  const double left = u_needed * u_needed - fixed;
  if (in.u_scatter > 0 && left > 0) {
    const double repeats = std::ceil(in.u_scatter * in.u_scatter / left * (1 - 1e-12));
    if (repeats <= repeats_max) ways.repeats = static_cast<int>(repeats);
  }
  return ways;
}

Output guarded(const Input& in, const Guarded& rule) {
  if (!(rule.probability >= 0.5 && rule.probability < 1))
    refuse("conformance probability of the rule", rule.probability, "0.5 or more and below 1");
  const double k = rule.probability == 0.5 ? 0 : student_quantile(rule.probability, in.dof);
  const auto [side, margin] = nearest_limit(in);
  Output out{.outcome = Outcome::unproven,
             .reason = Reason::limit_in_uncertainty,
             .nearest = side,
             .margin = margin,
             .guard = k * in.u,
             .conformance_probability = conformance_probability(in),
             .settling = {}};
  if (margin >= out.guard) {
    out.outcome = Outcome::pass;
    out.reason = Reason::inside_guarded;
  } else if (-margin >= out.guard) {
    out.outcome = Outcome::fail;
    out.reason = Reason::outside_guarded;
  } else {
    if (in.lower && in.upper && 2 * out.guard > width_of(in)) out.reason = Reason::tolerance_too_narrow;
    out.settling = settling_u(in, std::fabs(margin) / k);
  }
  return out;
}

Output simple(const Input& in, const SimpleAcceptance& rule) {
  if (!(std::isfinite(rule.ratio) && rule.ratio > 0))
    refuse("instrument-to-limit ratio", rule.ratio, "a finite number above zero");
  const auto [side, margin] = nearest_limit(in);
  Output out{.outcome = Outcome::unproven,
             .reason = Reason::instrument_not_stated,
             .nearest = side,
             .margin = margin,
             .guard = 0,
             .conformance_probability = conformance_probability(in),
             .settling = {}};
  const bool by_graduation = rule.of == SimpleAcceptance::Of::graduation;
  if (by_graduation && !in.graduation) return out;
  const double figure = by_graduation ? *in.graduation : 2 * in.u;
  const double largest = width_of(in) / rule.ratio;
  // A ratio met exactly must not fail over the rounding of a unit conversion.
  if (figure > largest * (1 + 1e-9)) {
    out.reason = Reason::instrument_too_coarse;
    if (by_graduation && largest > 0) out.settling.graduation = largest;
    if (!by_graduation) out.settling = settling_u(in, 0.5 * largest);
    return out;
  }
  out.outcome = margin >= 0 ? Outcome::pass : Outcome::fail;
  out.reason = margin >= 0 ? Reason::inside_limit : Reason::outside_limit;
  return out;
}

}  // namespace

double conformance_probability(const Input& in) {
  const double above_zero_from = in.never_negative ? 0 : -HUGE_VAL;
  const double lower = std::max(in.lower.value_or(-HUGE_VAL), above_zero_from);
  const double upper = in.upper.value_or(HUGE_VAL);
  if (in.u == 0) return in.value >= lower && in.value <= upper ? 1 : 0;
  if (upper < lower) return 0;  // nothing that can occur is permitted
  const auto below = [&](double limit) {
    return std::isinf(limit) ? (limit > 0 ? 1.0 : 0.0) : student_cdf((limit - in.value) / in.u, in.dof);
  };
  const double possible = in.never_negative ? 1 - below(0) : 1;
  return std::clamp((below(upper) - below(lower)) / possible, 0.0, 1.0);
}

Output decide(const Input& in, const DecisionRule& rule) {
  validate(in);
  Output out = std::holds_alternative<Guarded>(rule) ? guarded(in, std::get<Guarded>(rule))
                                                     : simple(in, std::get<SimpleAcceptance>(rule));
  if (!in.in_date) {
    out.outcome = Outcome::unproven;
    out.reason = Reason::instrument_out_of_date;
    out.settling = {};
  }
  return out;
}

}  // namespace decision_si
}  // namespace pumpwright
