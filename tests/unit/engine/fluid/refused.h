// What a call is refused with, for tests that look at the words.
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

}  // namespace pumpwright::testing
