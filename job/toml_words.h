// Texts in every language and words of fixed lists in the project's own TOML files; used only inside job/
// sources.
#pragma once

#include <string>

#include "job/check_words.h"
#include "job/text.h"
#include "job/toml_reader.h"

namespace pumpwright::job {

template <class E, std::size_t N>
E one_of(const TomlReader& at, std::string_view key, const Words<E, N>& words) {
  const std::string word = at.text(key);
  std::string expected = "one of";
  for (const auto& [known, value] : words) {
    if (known == word) return value;
    expected += " " + std::string(known);
  }
  at.refuse(key, word, expected);
}

inline Text toml_text(const TomlReader& at) {
  at.allow_only({"en", "es"});
  return {at.text("en"), at.text("es")};
}

}  // namespace pumpwright::job
