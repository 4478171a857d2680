#include "engine/assembly/chain.h"

#include <array>
#include <cmath>
#include <limits>
#include <set>
#include <utility>

#include <boost/math/distributions/normal.hpp>
#include <fmt/format.h>

#include "engine/assembly/input_check.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

constexpr std::size_t most_links = 1000;

constexpr std::array<std::pair<const char*, Spread>, 7> spread_words{{
    {"normal", Spread::normal},
    {"rectangular", Spread::rectangular},
    {"triangular", Spread::triangular},
    {"trapezoidal", Spread::trapezoidal},
    {"arcsine", Spread::arcsine},
    {"curvilinear_trapezoid", Spread::curvilinear_trapezoid},
    {"student_t", Spread::student_t},
}};

double middle_m(const Link& link) {
  return link.nominal.value() + (link.lower_deviation.value() + link.upper_deviation.value()) / 2;
}

double half_tolerance_m(const Link& link) {
  return (link.upper_deviation.value() - link.lower_deviation.value()) / 2;
}

// How far an end of the tolerance can still move outwards.
double end_slack_m(const Link& link) {
  return link.spread == Spread::curvilinear_trapezoid ? link.inexactness.value() : 0.0;
}

void require_valid_shape(const Link& link, const std::string& field) {
  const double width_m = 2 * half_tolerance_m(link);
  switch (link.spread) {
    case Spread::student_t:
      require_that(std::isfinite(link.dof) && link.dof > 0, link.dof, field + "/dof",
                   "degrees of freedom above 0");
      [[fallthrough]];
    case Spread::normal:
      require_between(link.sigmas, 0.5, 12, field + "/sigmas",
                      "how many standard deviations the tolerance is: 0.5 to 12");
      return;
    case Spread::trapezoidal:
      require_between(link.top_ratio, 0, 1, field + "/top_ratio", "a ratio of top to base from 0 to 1");
      return;
    case Spread::curvilinear_trapezoid:
      require_between(link.inexactness.value(), 0, width_m / 2, field + "/inexactness",
                      "0 to half the tolerance");
      return;
    case Spread::rectangular:
    case Spread::triangular:
    case Spread::arcsine:
      return;
  }
}

void require_valid_link(const Link& link, const std::string& field) {
  if (link.name.empty()) throw BadInput({field + "/name", "", "", "a name for the link"});
  require_that(std::isfinite(link.coefficient) && link.coefficient != 0, link.coefficient,
               field + "/coefficient", "+1 for a link that opens the gap, -1 for one that closes it");
  require_that(std::isfinite(link.nominal.value()), link.nominal.value(), field + "/nominal",
               "a finite length");
  require_that(std::isfinite(link.lower_deviation.value()), link.lower_deviation.value(), field + "/lower",
               "a finite length");
  require_that(std::isfinite(link.upper_deviation.value()) && link.upper_deviation >= link.lower_deviation,
               link.upper_deviation.value(), field + "/upper",
               "a finite length not below the lower deviation");
  require_valid_shape(link, field);
}

void require_valid_limits(const Chain& chain) {
  if (chain.lower_limit)
    require_that(std::isfinite(chain.lower_limit->value()), chain.lower_limit->value(), "lower_limit",
                 "a finite length");
  if (chain.upper_limit)
    require_that(std::isfinite(chain.upper_limit->value()), chain.upper_limit->value(), "upper_limit",
                 "a finite length");
  if (chain.lower_limit && chain.upper_limit)
    require_that(*chain.lower_limit <= *chain.upper_limit, chain.upper_limit->value(), "upper_limit",
                 "a length not below the lower limit");
}

struct Sums {
  double nominal_m = 0;
  double middle_m = 0;
  double worst_m = 0;      // half the worst-case range
  double square_m2 = 0;    // of half tolerances
  double variance_m2 = 0;  // NaN when a link has none
  bool all_normal = true;
};

double variance_share_m2(const Link& link) {
  const auto variance = variance_of(distribution_of(link));
  return variance ? link.coefficient * link.coefficient * *variance
                  : std::numeric_limits<double>::quiet_NaN();
}

Sums sums_of(const Chain& chain) {
  Sums s;
  for (const Link& link : chain.links) {
    const double reach_m = std::fabs(link.coefficient) * half_tolerance_m(link);
    s.nominal_m += link.coefficient * link.nominal.value();
    s.middle_m += link.coefficient * middle_m(link);
    s.worst_m += reach_m + std::fabs(link.coefficient) * end_slack_m(link);
    s.square_m2 += reach_m * reach_m;
    s.variance_m2 += variance_share_m2(link);
    s.all_normal = s.all_normal && (link.spread == Spread::normal || is_constant(distribution_of(link)));
  }
  return s;
}

std::optional<double> exact_inside(const Chain& chain, const Sums& s) {
  if (!s.all_normal || (!chain.lower_limit && !chain.upper_limit)) return std::nullopt;
  const double lower_m =
      chain.lower_limit ? chain.lower_limit->value() : -std::numeric_limits<double>::infinity();
  const double upper_m =
      chain.upper_limit ? chain.upper_limit->value() : std::numeric_limits<double>::infinity();
  if (s.variance_m2 == 0) return s.middle_m >= lower_m && s.middle_m <= upper_m ? 1.0 : 0.0;
  const boost::math::normal_distribution<double> y(s.middle_m, std::sqrt(s.variance_m2));
  const double below = std::isinf(lower_m) ? 0.0 : boost::math::cdf(y, lower_m);
  const double above = std::isinf(upper_m) ? 0.0 : boost::math::cdf(boost::math::complement(y, upper_m));
  return 1.0 - below - above;
}

}  // namespace

Spread spread_from(const std::string& word, const std::string& field) {
  if (word == "u_shaped") return Spread::arcsine;
  for (const auto& [known, spread] : spread_words)
    if (word == known) return spread;
  throw BadInput({field, "", word,
                  "one of normal, rectangular, triangular, trapezoidal, arcsine, u_shaped, "
                  "curvilinear_trapezoid, student_t"});
}

const char* word_for(Spread spread) {
  for (const auto& [known, value] : spread_words)
    if (spread == value) return known;
  return "";
}

Link measured_link(const std::string& name, double coefficient, Length value, Length standard_uncertainty,
                   double sigmas) {
  Link link;
  link.name = name;
  link.coefficient = coefficient;
  link.nominal = value;
  link.lower_deviation = -sigmas * standard_uncertainty;
  link.upper_deviation = sigmas * standard_uncertainty;
  link.sigmas = sigmas;
  return link;
}

void require_valid(const Chain& chain) {
  const std::size_t count = chain.links.size();
  if (count == 0 || count > most_links)
    throw BadInput({"links", "", fmt::format("{} links", count), fmt::format("1 to {} links", most_links)});
  std::set<std::string> names;
  for (std::size_t i = 0; i < count; ++i) {
    require_valid_link(chain.links[i], fmt::format("links/{}", i));
    if (!names.insert(chain.links[i].name).second)
      throw BadInput({fmt::format("links/{}/name", i), "", chain.links[i].name,
                      "a name no other link of the chain has"});
  }
  require_valid_limits(chain);
}

Distribution distribution_of(const Link& link) {
  const double lower_m = link.nominal.value() + link.lower_deviation.value();
  const double upper_m = link.nominal.value() + link.upper_deviation.value();
  switch (link.spread) {
    case Spread::normal:
      return Normal{middle_m(link), half_tolerance_m(link) / link.sigmas};
    case Spread::rectangular:
      return Rectangular{lower_m, upper_m};
    case Spread::triangular:
      return Triangular{lower_m, upper_m};
    case Spread::trapezoidal:
      return Trapezoidal{lower_m, upper_m, link.top_ratio};
    case Spread::arcsine:
      return Arcsine{lower_m, upper_m};
    case Spread::curvilinear_trapezoid:
      return CurvilinearTrapezoid{lower_m, upper_m, link.inexactness.value()};
    case Spread::student_t:
      return StudentT{middle_m(link), half_tolerance_m(link) / link.sigmas, link.dof};
  }
  return Rectangular{lower_m, upper_m};
}

ChainAnalysis analyse(const Chain& chain) {
  require_valid(chain);
  const Sums s = sums_of(chain);
  ChainAnalysis a;
  a.nominal = metres(s.nominal_m);
  a.mean = metres(s.middle_m);
  a.worst_min = metres(s.middle_m - s.worst_m);
  a.worst_max = metres(s.middle_m + s.worst_m);
  a.rss_half_width = metres(std::sqrt(s.square_m2));
  a.exact_probability_inside = exact_inside(chain, s);
  if (std::isnan(s.variance_m2)) return a;
  a.sd = metres(std::sqrt(s.variance_m2));
  for (const Link& link : chain.links)
    a.share.push_back({link.name, s.variance_m2 > 0 ? variance_share_m2(link) / s.variance_m2 : 0.0});
  return a;
}

}  // namespace pumpwright
