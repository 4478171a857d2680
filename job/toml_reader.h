// Strict reading of the project's own data files in TOML; used only inside job/ sources.
#pragma once

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/format.h>
#include <toml++/toml.h>

#include "catalog/catalog.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::job {

// The whole file. Throws BadInput naming file and line when it is no TOML.
toml::table parse_toml(const NamedBytes& file);

// A table of a TOML file, together with the file's name for messages.
class TomlReader {
 public:
  TomlReader(const toml::table& table, std::string file) : table_(&table), file_(std::move(file)) {}

  void allow_only(std::initializer_list<std::string_view> known) const;
  bool has(std::string_view key) const { return table_->contains(key); }

  std::string text(std::string_view key) const;  // required
  std::string text_or(std::string_view key, std::string otherwise) const;
  double number_or(std::string_view key, double otherwise) const;
  bool flag_or(std::string_view key, bool otherwise) const;
  std::vector<std::string> texts(std::string_view key) const;  // empty when absent
  TomlReader table(std::string_view key) const;                // required
  std::optional<TomlReader> optional_table(std::string_view key) const;
  std::vector<TomlReader> tables(std::string_view key) const;  // an array of tables; empty when absent

  [[noreturn]] void refuse(std::string_view key, const std::string& value, const std::string& expected) const;

 private:
  std::string place_of(const toml::node& node) const;

  const toml::table* table_;
  std::string file_;
};

}  // namespace pumpwright::job
