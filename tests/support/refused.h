// The field a call is refused for, so that a test of bad input is one line.
#pragma once

#include <string>

#include "engine/quantity/bad_input.h"

namespace pumpwright::testing {

// "" when the call is not refused.
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
