// Strict reading of JSON documents that people and other programs hand in.
//
// Every refusal is a BadInput whose place is the JSON pointer of the offending value. Documents are bounded
// in size and depth; repeated keys, unknown keys, comments and non-finite numbers are refused.
#pragma once

#include <cstdint>
#include <initializer_list>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json_fwd.hpp>

namespace pumpwright::job {

struct JsonBounds {
  std::size_t bytes_max = 16'777'216;  // 16 MiB
  std::size_t depth_max = 32;
};

// One value inside a parsed document, together with where it stands. Cheap to copy; keeps the document alive.
class JsonReader {
 public:
  // Parses a whole document. Throws BadInput (place: byte offset) when it is no JSON within the bounds.
  static JsonReader parse(std::string_view bytes, const JsonBounds& bounds = {});

  const std::string& pointer() const { return pointer_; }
  const nlohmann::json& raw() const { return *value_; }

  bool is_object() const;
  bool is_string() const;
  bool is_array() const;

  // Refuses this object when it has a key outside `known`, naming the nearest known one.
  void allow_only(std::initializer_list<std::string_view> known) const;
  void allow_only(std::span<const std::string_view> known) const;

  JsonReader required(std::string_view key) const;
  std::optional<JsonReader> optional(std::string_view key) const;

  std::vector<JsonReader> items(std::size_t count_max = 100000) const;  // of an array
  std::vector<std::string> keys() const;  // of an object, in document order of nlohmann

  std::string text(std::size_t bytes_max = 4096) const;
  std::string word(std::initializer_list<std::string_view> choices) const;  // a text that is one of `choices`
  bool boolean() const;
  double number() const;
  std::int64_t integer(std::int64_t least, std::int64_t most) const;

  // What stands here, shortened, for a message.
  std::string shown() const;

  // Throws BadInput at this place; `field` is the last part of the pointer.
  [[noreturn]] void refuse(const std::string& expected) const;
  std::string field() const;

 private:
  JsonReader(std::shared_ptr<const nlohmann::json> root, const nlohmann::json* value, std::string pointer)
      : root_(std::move(root)), value_(value), pointer_(std::move(pointer)) {}
  void want_object() const;

  std::shared_ptr<const nlohmann::json> root_;
  const nlohmann::json* value_;
  std::string pointer_;
};

}  // namespace pumpwright::job
