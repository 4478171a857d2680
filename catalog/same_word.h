// Names in tables as hands type them: "m12" asks for "M12". ASCII letters alone, whatever the locale.
#pragma once

#include <algorithm>
#include <string_view>

namespace pumpwright {

// True when the two differ at most in capitals.
inline bool same_word(std::string_view a, std::string_view b) {
  const auto small = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; };
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [&](char x, char y) { return small(x) == small(y); });
}

}  // namespace pumpwright
