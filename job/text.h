// Words shown to people, in every language the program speaks. Data files carry them; code never holds a
// sentence twice.
#pragma once

#include <string>

namespace pumpwright::job {

enum class Language { english, spanish };

// The same words in each language. Both are always there: a step without one of them is refused when it is
// loaded.
struct Text {
  std::string en;
  std::string es;

  const std::string& in(Language language) const { return language == Language::spanish ? es : en; }
  bool empty() const { return en.empty(); }
  bool operator==(const Text&) const = default;
};

}  // namespace pumpwright::job
