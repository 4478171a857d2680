#include "job/one_line.h"

#include <fmt/format.h>

namespace pumpwright {
namespace {

unsigned byte_at(std::string_view text, std::size_t at) {
  return static_cast<unsigned char>(text[at]);
}

}  // namespace

std::size_t utf8_length(std::string_view text, std::size_t at) {
  const unsigned first = byte_at(text, at);
  if (first < 0x80) return 1;
  if (first < 0xC2 || first > 0xF4) return 0;
  const std::size_t length = first < 0xE0 ? 2 : first < 0xF0 ? 3 : 4;
  if (at + length > text.size()) return 0;
  for (std::size_t i = 1; i < length; ++i)
    if ((byte_at(text, at + i) & 0xC0U) != 0x80U) return 0;
  const unsigned second = byte_at(text, at + 1);
  const bool overlong = (first == 0xE0 && second < 0xA0) || (first == 0xF0 && second < 0x90);
  const bool outside = (first == 0xED && second > 0x9F) || (first == 0xF4 && second > 0x8F);
  return overlong || outside ? 0 : length;
}

std::size_t first_invalid_utf8(std::string_view bytes) {
  for (std::size_t i = 0; i < bytes.size();) {
    const std::size_t length = utf8_length(bytes, i);
    if (length == 0) return i;
    i += length;
  }
  return std::string_view::npos;
}

std::string one_line(std::string_view text, std::size_t bytes_max) {
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    if (out.size() >= bytes_max) return out + "…";
    const std::size_t length = utf8_length(text, i);
    if (length == 0) {
      out += fmt::format("\\x{:02X}", byte_at(text, i));
      ++i;
      continue;
    }
    const bool control = length == 1 && (byte_at(text, i) < 0x20 || byte_at(text, i) == 0x7F);
    if (control)
      out += ' ';
    else
      out += text.substr(i, length);
    i += length;
  }
  return out;
}

}  // namespace pumpwright
