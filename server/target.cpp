#include "server/target.h"

#include <algorithm>

namespace pumpwright::server {
namespace {

int hex_digit(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

std::size_t bytes_of_character(unsigned char first) {
  if (first < 0x80) return 1;
  if (first >= 0xC2 && first <= 0xDF) return 2;
  if (first >= 0xE0 && first <= 0xEF) return 3;
  if (first >= 0xF0 && first <= 0xF4) return 4;
  return 0;
}

// UTF-8 as RFC 3629 has it: no overlong forms, no surrogates, nothing above U+10FFFF.
bool is_utf8(std::string_view text) {
  const auto at = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  for (std::size_t i = 0; i < text.size();) {
    const auto bytes = bytes_of_character(at(i));
    if (bytes == 0 || i + bytes > text.size()) return false;
    for (std::size_t k = 1; k < bytes; ++k)
      if ((at(i + k) & 0xC0U) != 0x80U) return false;
    if (bytes > 1) {
      const auto first = at(i);
      const auto second = at(i + 1);
      if ((first == 0xE0 && second < 0xA0) || (first == 0xED && second > 0x9F) ||
          (first == 0xF0 && second < 0x90) || (first == 0xF4 && second > 0x8F))
        return false;
    }
    i += bytes;
  }
  return true;
}

bool has_control(std::string_view text) {
  return std::any_of(text.begin(), text.end(), [](char c) {
    const auto u = static_cast<unsigned char>(c);
    return u < 0x20 || u == 0x7F;
  });
}

std::optional<std::string> decoded(std::string_view text, bool plus_is_space) {
  std::string plain;
  plain.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '%') {
      if (i + 2 >= text.size()) return std::nullopt;
      const int high = hex_digit(text[i + 1]);
      const int low = hex_digit(text[i + 2]);
      if (high < 0 || low < 0) return std::nullopt;
      plain += static_cast<char>(high * 16 + low);
      i += 2;
    } else {
      plain += plus_is_space && text[i] == '+' ? ' ' : text[i];
    }
  }
  if (has_control(plain) || !is_utf8(plain)) return std::nullopt;
  return plain;
}

// The parts between `separator`, empty ones left out.
std::vector<std::string_view> parts_of(std::string_view text, char separator) {
  std::vector<std::string_view> parts;
  while (!text.empty()) {
    const auto end = text.find(separator);
    if (end != 0) parts.push_back(text.substr(0, end));
    text = end == std::string_view::npos ? std::string_view{} : text.substr(end + 1);
  }
  return parts;
}

}  // namespace

std::string Target::path() const {
  std::string whole;
  for (const auto& segment : segments)
    whole.append("/").append(segment);
  return whole.empty() ? "/" : whole;
}

std::optional<std::string> Target::asked(std::string_view name) const {
  for (const auto& [key, value] : query)
    if (key == name) return value;
  return std::nullopt;
}

std::optional<Target> parse_target(std::string_view text) {
  if (text.size() > target_bytes_max || text.empty() || text.front() != '/' ||
      text.find('#') != std::string_view::npos)
    return std::nullopt;
  Target target;
  const auto question = text.find('?');
  for (const auto part : parts_of(text.substr(0, question), '/')) {
    auto segment = decoded(part, false);
    if (!segment || *segment == "." || *segment == "..") return std::nullopt;
    target.segments.push_back(std::move(*segment));
  }
  if (question == std::string_view::npos) return target;
  for (const auto part : parts_of(text.substr(question + 1), '&')) {
    const auto equals = part.find('=');
    auto name = decoded(part.substr(0, equals), true);
    auto value =
        decoded(equals == std::string_view::npos ? std::string_view{} : part.substr(equals + 1), true);
    if (!name || !value || target.query.size() >= query_fields_max) return std::nullopt;
    target.query.emplace_back(std::move(*name), std::move(*value));
  }
  return target;
}

}  // namespace pumpwright::server
