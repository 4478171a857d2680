#include "job/toml_reader.h"

#include <algorithm>

namespace pumpwright::job {

toml::table parse_toml(const NamedBytes& file) {
  const std::string name(file.name);
  try {
    return toml::parse(file.bytes, name);
  } catch (const toml::parse_error& e) {
    throw BadInput({.field = "document",
                    .place = fmt::format("{}:{}", name, e.source().begin.line),
                    .value = std::string(e.description()),
                    .expected = "a TOML document"});
  }
}

std::string TomlReader::place_of(const toml::node& node) const {
  return fmt::format("{}:{}", file_, node.source().begin.line);
}

void TomlReader::refuse(std::string_view key, const std::string& value, const std::string& expected) const {
  const toml::node* node = table_->get(key);
  throw BadInput({.field = std::string(key),
                  .place = place_of(node == nullptr ? static_cast<const toml::node&>(*table_) : *node),
                  .value = value,
                  .expected = expected});
}

void TomlReader::allow_only(std::initializer_list<std::string_view> known) const {
  for (const auto& [key, node] : *table_) {
    if (std::find(known.begin(), known.end(), key.str()) != known.end()) continue;
    std::string expected = "one of";
    for (const auto word : known)
      expected += " " + std::string(word);
    refuse(key.str(), "an unknown key", expected);
  }
}

std::string TomlReader::text(std::string_view key) const {
  const auto value = (*table_)[key].value_exact<std::string>();
  if (!value || value->empty()) refuse(key, has(key) ? "not a text" : "nothing", "a text");
  return *value;
}

std::string TomlReader::text_or(std::string_view key, std::string otherwise) const {
  return has(key) ? text(key) : std::move(otherwise);
}

double TomlReader::number_or(std::string_view key, double otherwise) const {
  if (!has(key)) return otherwise;
  const auto value = (*table_)[key].value<double>();
  if (!value || !(*value == *value)) refuse(key, "not a number", "a number");
  return *value;
}

bool TomlReader::flag_or(std::string_view key, bool otherwise) const {
  if (!has(key)) return otherwise;
  const auto value = (*table_)[key].value_exact<bool>();
  if (!value) refuse(key, "not a flag", "true or false");
  return *value;
}

std::vector<std::string> TomlReader::texts(std::string_view key) const {
  std::vector<std::string> out;
  if (!has(key)) return out;
  const toml::array* list = table_->get_as<toml::array>(key);
  if (list == nullptr) refuse(key, "not a list", "a list of texts");
  for (const auto& item : *list) {
    const auto value = item.value_exact<std::string>();
    if (!value) refuse(key, "an item that is not a text", "a list of texts");
    out.push_back(*value);
  }
  return out;
}

std::optional<TomlReader> TomlReader::optional_table(std::string_view key) const {
  if (!has(key)) return std::nullopt;
  const toml::table* inner = table_->get_as<toml::table>(key);
  if (inner == nullptr) refuse(key, "not a table", "a table");
  return TomlReader(*inner, file_);
}

TomlReader TomlReader::table(std::string_view key) const {
  const auto inner = optional_table(key);
  if (!inner) refuse(key, "nothing", "a table");
  return *inner;
}

std::vector<TomlReader> TomlReader::tables(std::string_view key) const {
  std::vector<TomlReader> out;
  if (!has(key)) return out;
  const toml::array* list = table_->get_as<toml::array>(key);
  if (list == nullptr) refuse(key, "not a list", "a list of tables");
  for (const auto& item : *list) {
    const toml::table* inner = item.as_table();
    if (inner == nullptr) refuse(key, "an item that is not a table", "a list of tables");
    out.emplace_back(*inner, file_);
  }
  return out;
}

}  // namespace pumpwright::job
