#include "engine/assembly/chain.h"

#include <cmath>
#include <limits>

#include <gtest/gtest.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

constexpr double mm = 1e-3;
constexpr double um = 1e-6;

Link link_mm(const std::string& name, double coefficient, double nominal, double lower, double upper,
             Spread spread = Spread::normal) {
  Link link;
  link.name = name;
  link.coefficient = coefficient;
  link.nominal = metres(nominal * mm);
  link.lower_deviation = metres(lower * mm);
  link.upper_deviation = metres(upper * mm);
  link.spread = spread;
  return link;
}

// What BadInput names for a chain that must be refused.
std::string refused_field(const Chain& chain) {
  try {
    analyse(chain);
  } catch (const BadInput& e) {
    return e.what_was_wrong().field;
  }
  return "accepted";
}

TEST(Chain, WorkingLengthOfASealHeadFollowsFromItsLinks) {
  Chain chain;
  chain.links = {link_mm("shoulder to seat", 1, 60, -0.1, 0.1),
                 link_mm("sleeve collar", -1, 22.5, -0.05, 0.05)};
  const ChainAnalysis a = analyse(chain);
  EXPECT_NEAR(a.nominal.value(), 37.5 * mm, 1e-15);
  EXPECT_NEAR(a.worst_min.value(), 37.35 * mm, 1e-15);
  EXPECT_NEAR(a.worst_max.value(), 37.65 * mm, 1e-15);
  EXPECT_NEAR(a.rss_half_width.value(), std::hypot(0.1, 0.05) * mm, 1e-15);
  ASSERT_TRUE(a.sd);
  EXPECT_NEAR(a.sd->value(), std::hypot(0.1, 0.05) / 3 * mm, 1e-15);
}

TEST(Chain, UnevenToleranceMovesTheMeanAndNotTheNominal) {
  Chain chain;
  chain.links = {link_mm("gasket", 1, 1.0, -0.20, 0.10)};
  const ChainAnalysis a = analyse(chain);
  EXPECT_NEAR(a.nominal.value(), 1.0 * mm, 1e-15);
  EXPECT_NEAR(a.mean.value(), 0.95 * mm, 1e-15);
  EXPECT_NEAR(a.worst_min.value(), 0.8 * mm, 1e-15);
  EXPECT_NEAR(a.worst_max.value(), 1.1 * mm, 1e-15);
}

TEST(Chain, SensitivityScalesToleranceInEveryFigure) {
  Chain chain;
  chain.links = {link_mm("lever", -2.5, 10, -0.1, 0.1, Spread::rectangular)};
  const ChainAnalysis a = analyse(chain);
  EXPECT_NEAR(a.worst_max.value() - a.worst_min.value(), 2 * 0.25 * mm, 1e-15);
  EXPECT_NEAR(a.sd->value(), 0.25 * mm / std::sqrt(3.0), 1e-15);
}

TEST(Chain, ShareFollowsVariance) {
  Chain chain;
  chain.links = {link_mm("a", 1, 0, -0.3, 0.3), link_mm("b", -1, 0, -0.4, 0.4)};
  const ChainAnalysis a = analyse(chain);
  ASSERT_EQ(a.share.size(), 2U);
  EXPECT_EQ(a.share[0].name, "a");
  EXPECT_NEAR(a.share[0].fraction, 0.36, 1e-12);
  EXPECT_NEAR(a.share[1].fraction, 0.64, 1e-12);
}

TEST(Chain, FixedChainHasNoShareAndACertainAnswer) {
  Chain chain;
  chain.links = {link_mm("block", 1, 5, 0, 0)};
  chain.lower_limit = metres(4 * mm);
  const ChainAnalysis a = analyse(chain);
  EXPECT_EQ(a.sd->value(), 0);
  EXPECT_EQ(a.share[0].fraction, 0);
  EXPECT_EQ(a.exact_probability_inside, 1.0);
  chain.lower_limit = metres(6 * mm);
  EXPECT_EQ(analyse(chain).exact_probability_inside, 0.0);
}

TEST(Chain, ExactProbabilityIsGivenForNormalLinksOnly) {
  Chain chain;
  chain.links = {link_mm("a", 1, 0, -0.3, 0.3)};
  EXPECT_FALSE(analyse(chain).exact_probability_inside);  // no limit to be inside of
  chain.upper_limit = metres(0);
  EXPECT_NEAR(*analyse(chain).exact_probability_inside, 0.5, 1e-15);
  chain.links.push_back(link_mm("b", 1, 0, -0.3, 0.3, Spread::triangular));
  EXPECT_FALSE(analyse(chain).exact_probability_inside);
}

TEST(Chain, MeasuredLinkKeepsItsStandardUncertainty) {
  Chain chain;
  chain.links = {measured_link("depth", 1, metres(25 * mm), metres(4 * um), 2)};
  const ChainAnalysis a = analyse(chain);
  EXPECT_NEAR(a.sd->value(), 4 * um, 1e-18);
  EXPECT_NEAR(a.worst_max.value(), 25 * mm + 8 * um, 1e-15);
}

TEST(Chain, StudentLinkWithoutVarianceLeavesSdAndShareEmpty) {
  Chain chain;
  chain.links = {link_mm("two readings", 1, 1, -0.1, 0.1, Spread::student_t)};
  chain.links[0].dof = 1;
  const ChainAnalysis a = analyse(chain);
  EXPECT_FALSE(a.sd);
  EXPECT_TRUE(a.share.empty());
  chain.links[0].dof = 3;
  EXPECT_NEAR(analyse(chain).sd->value(), 0.1 * mm / 3 * std::sqrt(3.0), 1e-15);
}

TEST(Chain, InexactEndsWidenTheWorstCase) {
  Chain chain;
  chain.links = {link_mm("ring", 1, 0, -0.1, 0.1, Spread::curvilinear_trapezoid)};
  chain.links[0].inexactness = metres(0.02 * mm);
  EXPECT_NEAR(analyse(chain).worst_max.value(), 0.12 * mm, 1e-15);
}

TEST(Chain, EverySpreadWordIsReadBack) {
  for (const Spread spread : {Spread::normal, Spread::rectangular, Spread::triangular, Spread::trapezoidal,
                              Spread::arcsine, Spread::curvilinear_trapezoid, Spread::student_t})
    EXPECT_EQ(spread_from(word_for(spread), "distribution"), spread);
  EXPECT_EQ(spread_from("u_shaped", "distribution"), Spread::arcsine);
  EXPECT_THROW(spread_from("gaussian-ish", "distribution"), BadInput);
}

TEST(Chain, RefusesWhatItCanNotJudgeAndNamesThePlace) {
  EXPECT_EQ(refused_field({}), "links");
  Chain chain;
  chain.links = {link_mm("a", 1, 1, -0.1, 0.1), link_mm("b", -1, 1, -0.1, 0.1)};
  EXPECT_EQ(refused_field(chain), "accepted");

  Chain bad = chain;
  bad.links[1].name = "a";
  EXPECT_EQ(refused_field(bad), "links/1/name");
  bad = chain;
  bad.links[0].name.clear();
  EXPECT_EQ(refused_field(bad), "links/0/name");
  bad = chain;
  bad.links[0].coefficient = 0;
  EXPECT_EQ(refused_field(bad), "links/0/coefficient");
  bad = chain;
  bad.links[0].nominal = metres(std::numeric_limits<double>::quiet_NaN());
  EXPECT_EQ(refused_field(bad), "links/0/nominal");
  bad = chain;
  bad.links[1].lower_deviation = metres(1);
  EXPECT_EQ(refused_field(bad), "links/1/upper");
  bad = chain;
  bad.links[1].sigmas = 0;
  EXPECT_EQ(refused_field(bad), "links/1/sigmas");
  bad = chain;
  bad.links[1].spread = Spread::trapezoidal;
  bad.links[1].top_ratio = 1.5;
  EXPECT_EQ(refused_field(bad), "links/1/top_ratio");
  bad = chain;
  bad.links[1].spread = Spread::curvilinear_trapezoid;
  bad.links[1].inexactness = metres(0.2 * mm);
  EXPECT_EQ(refused_field(bad), "links/1/inexactness");
  bad = chain;
  bad.links[1].spread = Spread::student_t;
  bad.links[1].dof = 0;
  EXPECT_EQ(refused_field(bad), "links/1/dof");
  bad = chain;
  bad.lower_limit = metres(1);
  bad.upper_limit = metres(0);
  EXPECT_EQ(refused_field(bad), "upper_limit");
  bad = chain;
  bad.lower_limit = metres(std::numeric_limits<double>::infinity());
  EXPECT_EQ(refused_field(bad), "lower_limit");
  bad = chain;
  for (int i = 0; i < 1000; ++i)
    bad.links.push_back(link_mm("more" + std::to_string(i), 1, 1, 0, 0));
  EXPECT_EQ(refused_field(bad), "links");
}

}  // namespace
}  // namespace pumpwright
