// Runs one property over many cases, the same ones on every run unless RC_PARAMS asks for others.
#pragma once

#include <cstdlib>
#include <sstream>
#include <string>

#include <gtest/gtest.h>
#include <rapidcheck.h>

namespace pumpwright::testing {

// Fails the running test with RapidCheck's counterexample when `property` does not hold in one of `cases`
// cases.
template <class Property>
void hold(const std::string& what, Property property, int cases = 4000) {
  rc::detail::TestParams params = rc::detail::configuration().testParams;
  if (std::getenv("RC_PARAMS") == nullptr) {
    params.seed = 20;
    params.maxSuccess = cases;
  }
  rc::detail::TestMetadata metadata;
  metadata.id = what;
  metadata.description = what;
  const auto result = rc::detail::checkTestable(property, metadata, params);
  if (result.template is<rc::detail::SuccessResult>()) return;
  std::ostringstream message;
  rc::detail::printResultMessage(result, message);
  ADD_FAILURE() << what << ": " << message.str();
}

}  // namespace pumpwright::testing
