#include "job/json_reader.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "engine/quantity/bad_input.h"

namespace pumpwright::job {
namespace {

using nlohmann::json;

// Builds the document while it is being read (as nlohmann's SAX consumer), and refuses repeated keys and too
// deep nesting where they come.
class Builder {
 public:
  Builder(json& root, std::size_t depth_max) : root_(root), depth_max_(depth_max) {}

  bool null() { return put(nullptr); }
  bool boolean(bool value) { return put(value); }
  bool number_integer(json::number_integer_t value) { return put(value); }
  bool number_unsigned(json::number_unsigned_t value) { return put(value); }
  bool number_float(json::number_float_t value, const std::string& /*text*/) { return put(value); }
  bool string(const std::string& value) { return put(value); }
  static bool binary(const json::binary_t& /*value*/) { return false; }  // not in JSON

  bool start_object(std::size_t /*count*/) { return open(json::object()); }
  bool end_object() { return close(); }
  bool start_array(std::size_t /*count*/) { return open(json::array()); }
  bool end_array() { return close(); }

  bool key(const std::string& key) {
    want_depth();
    const auto [at, is_new] = open_.back()->get_ref<json::object_t&>().try_emplace(key);
    if (!is_new)
      throw BadInput({.field = key,
                      .place = "",
                      .value = "the same key twice in one object",
                      .expected = "each key once"});
    at_key_ = &at->second;
    return true;
  }

  template <class Error>
  [[noreturn]] static bool parse_error(std::size_t /*place*/, const std::string& /*token*/,
                                       const Error& error) {
    throw error;
  }

 private:
  void want_depth() const {
    if (open_.size() > depth_max_)
      throw BadInput({.field = "document",
                      .place = "",
                      .value = "",
                      .expected = fmt::format("at most {} levels of nesting", depth_max_)});
  }

  // Where the next value belongs.
  json& place() {
    want_depth();
    if (open_.empty()) return root_;
    return open_.back()->is_array() ? open_.back()->emplace_back() : *at_key_;
  }

  bool put(json value) {
    place() = std::move(value);
    return true;
  }

  bool open(json container) {
    json& at = place();
    at = std::move(container);
    open_.push_back(&at);
    return true;
  }

  bool close() {
    open_.pop_back();
    return true;
  }

  json& root_;
  std::size_t depth_max_;
  std::vector<json*> open_;
  json* at_key_ = nullptr;  // the value of the key read last
};

std::string joined(std::span<const std::string_view> words) {
  std::string out;
  for (const auto w : words)
    out += (out.empty() ? "" : ", ") + std::string(w);
  return out;
}

std::string escaped(std::string_view key) {
  std::string out;
  for (const char c : key)
    out += c == '~' ? "~0" : c == '/' ? "~1" : std::string(1, c);
  return out;
}

}  // namespace

JsonReader JsonReader::parse(std::string_view bytes, const JsonBounds& bounds) {
  if (bytes.size() > bounds.bytes_max)
    throw BadInput({.field = "document",
                    .place = "",
                    .value = fmt::format("{} bytes", bytes.size()),
                    .expected = fmt::format("at most {} bytes", bounds.bytes_max)});
  try {
    auto root = std::make_shared<json>();
    Builder builder(*root, bounds.depth_max);
    json::sax_parse(bytes, &builder);
    const json* value = root.get();
    return {std::move(root), value, ""};
  } catch (const json::parse_error& e) {
    const std::size_t from = e.byte > 20 ? e.byte - 20 : 0;
    throw BadInput({.field = "document",
                    .place = fmt::format(" byte {}", e.byte),
                    .value = from < bytes.size() ? std::string(bytes.substr(from, 40)) : "",
                    .expected = "a complete JSON document"});
  } catch (const json::out_of_range&) {
    throw BadInput(
        {.field = "document", .place = "", .value = "", .expected = "numbers that a double can hold"});
  }
}

bool JsonReader::is_object() const {
  return value_->is_object();
}
bool JsonReader::is_string() const {
  return value_->is_string();
}
bool JsonReader::is_array() const {
  return value_->is_array();
}

std::string JsonReader::field() const {
  const auto slash = pointer_.rfind('/');
  return slash == std::string::npos ? "document" : pointer_.substr(slash + 1);
}

std::string JsonReader::shown() const {
  if (value_->is_string()) return value_->get<std::string>();
  if (value_->is_object()) return "an object";
  if (value_->is_array()) return fmt::format("a list of {}", value_->size());
  return value_->dump();
}

void JsonReader::refuse(const std::string& expected) const {
  throw BadInput({.field = field(), .place = pointer_, .value = shown(), .expected = expected});
}

void JsonReader::want_object() const {
  if (!value_->is_object()) refuse("an object");
}

void JsonReader::allow_only(std::initializer_list<std::string_view> known) const {
  allow_only(std::span(known.begin(), known.size()));
}

void JsonReader::allow_only(std::span<const std::string_view> known) const {
  want_object();
  for (const auto& [key, unused] : value_->items()) {
    if (std::find(known.begin(), known.end(), key) != known.end()) continue;
    throw BadInput({.field = key,
                    .place = pointer_ + "/" + escaped(key),
                    .value = "an unknown key",
                    .expected = "one of " + joined(known)});
  }
}

JsonReader JsonReader::required(std::string_view key) const {
  want_object();
  auto found = optional(key);
  if (!found)
    throw BadInput({.field = std::string(key),
                    .place = pointer_,
                    .value = "nothing",
                    .expected = fmt::format("the key \"{}\"", key)});
  return *found;
}

std::optional<JsonReader> JsonReader::optional(std::string_view key) const {
  want_object();
  const auto at = value_->find(key);
  if (at == value_->end()) return std::nullopt;
  return JsonReader(root_, &*at, pointer_ + "/" + escaped(key));
}

std::vector<JsonReader> JsonReader::items(std::size_t count_max) const {
  if (!value_->is_array()) refuse("a list");
  if (value_->size() > count_max) refuse(fmt::format("a list of at most {}", count_max));
  std::vector<JsonReader> out;
  out.reserve(value_->size());
  for (std::size_t i = 0; i < value_->size(); ++i)
    out.push_back(JsonReader(root_, &(*value_)[i], fmt::format("{}/{}", pointer_, i)));
  return out;
}

std::vector<std::string> JsonReader::keys() const {
  want_object();
  std::vector<std::string> out;
  for (const auto& [key, unused] : value_->items())
    out.push_back(key);
  return out;
}

std::string JsonReader::text(std::size_t bytes_max) const {
  if (!value_->is_string()) refuse("a text in quotes");
  auto out = value_->get<std::string>();
  if (out.size() > bytes_max) refuse(fmt::format("a text of at most {} bytes", bytes_max));
  return out;
}

std::string JsonReader::word(std::initializer_list<std::string_view> choices) const {
  auto out = text();
  if (std::find(choices.begin(), choices.end(), out) == choices.end())
    refuse("one of " + joined(std::span(choices.begin(), choices.size())));
  return out;
}

bool JsonReader::boolean() const {
  if (!value_->is_boolean()) refuse("true or false");
  return value_->get<bool>();
}

double JsonReader::number() const {
  if (!value_->is_number()) refuse("a number");
  const double v = value_->get<double>();
  if (!std::isfinite(v)) refuse("a finite number");
  return v;
}

std::int64_t JsonReader::integer(std::int64_t least, std::int64_t most) const {
  const std::string expected = fmt::format("a whole number from {} to {}", least, most);
  if (!value_->is_number_integer()) refuse(expected);
  if (value_->is_number_unsigned() && value_->get<std::uint64_t>() > static_cast<std::uint64_t>(INT64_MAX))
    refuse(expected);
  const auto v = value_->get<std::int64_t>();
  if (v < least || v > most) refuse(expected);
  return v;
}

}  // namespace pumpwright::job
