// What a call is refused with, so that a test of bad input is one line.
#pragma once

#include <string>

#include <gtest/gtest.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright::testing {

// The BadInput that `call` throws; fails the running test when it throws none.
template <class Call>
BadInput::What refused(Call call) {
  try {
    call();
  } catch (const BadInput& e) {
    return e.what_was_wrong();
  }
  ADD_FAILURE() << "nothing was refused";
  return {};
}

// Its field; "" when the call is not refused.
template <class Call>
std::string refused_field(Call call) {
  try {
    call();
  } catch (const BadInput& error) {
    return error.what_was_wrong().field;
  }
  return "";
}

}  // namespace pumpwright::testing
