#include <gtest/gtest.h>

#include "engine/reliability/cox.h"
#include "engine/reliability/proportional_hazards.h"
#include "live_lives.h"

namespace pumpwright::testing {
namespace {

using namespace pumpwright::reliability;

void compare(const std::string& data, Ties ties) {
  const std::string word = ties == Ties::efron ? "efron" : "breslow";
  const LiveRows live("cox " + data + " " + word);
  const auto values = live.numbers("readings");
  const auto columns = static_cast<std::size_t>(live.numbers("columns").at(0));
  const auto lives = live.lives();
  const auto fit = fit_cox(lives, {values, columns}, ties);
  ASSERT_TRUE(fit);
  const std::string what = data + ", " + word + ": ";
  for (std::size_t j = 0; j < columns; ++j) {
    live.expect(what + "coefficient " + std::to_string(j), "coefficients", j, fit->coefficients[j].value, 7);
    live.expect(what + "standard error " + std::to_string(j), "errors", j,
                fit->coefficients[j].standard_error, 8);
  }
  live.expect(what + "log-likelihood of no effect", "loglik", 0, fit->log_likelihood_null, 11);
  live.expect(what + "log-likelihood", "loglik", 1, fit->log_likelihood, 11);
  live.expect(what + "score test", "score", 0, fit->score_test.chi_square, 9);
  const auto proportional = proportional_hazards(lives, {values, columns}, ties);
  ASSERT_TRUE(proportional);
  for (std::size_t j = 0; j < columns; ++j)
    live.expect(what + "proportional hazards " + std::to_string(j), "proportional", j,
                proportional->readings[j].chi_square, 7);
  live.expect(what + "proportional hazards, all", "proportional", columns, proportional->all.chi_square, 7);
}

TEST(CoxReference, EfronAgreesWithR) {
  compare("lung", Ties::efron);
  compare("veteran", Ties::efron);
  compare("colon", Ties::efron);
  compare("ovarian", Ties::efron);
}

TEST(CoxReference, BreslowAgreesWithR) {
  compare("lung", Ties::breslow);
  compare("veteran", Ties::breslow);
}

}  // namespace
}  // namespace pumpwright::testing
