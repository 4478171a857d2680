#include "engine/quantity/bad_input.h"

#include <utility>

#include <fmt/format.h>

namespace pumpwright {
namespace {

constexpr std::size_t shown_max = 80;

// One line, no control characters, at most `shown_max` bytes and never half a UTF-8 character.
std::string shown(const std::string& text) {
  std::string out;
  for (const char c : text)
    out += static_cast<unsigned char>(c) < 0x20 || c == 0x7f ? ' ' : c;
  if (out.size() <= shown_max) return out;
  std::size_t end = shown_max;
  while (end > 0 && (static_cast<unsigned char>(out[end]) & 0xC0U) == 0x80U)
    --end;
  return out.substr(0, end) + "…";
}

std::string line_of(const BadInput::What& w) {
  std::string line = w.place.empty() ? "" : w.place + ": ";
  line += w.field;
  if (!w.value.empty()) line += fmt::format(": read \"{}\"", w.value);
  return line + "; valid: " + w.expected;
}

BadInput::What cleaned(BadInput::What w) {
  w.value = shown(w.value);
  return w;
}

}  // namespace

BadInput::BadInput(What what) : std::runtime_error(line_of(cleaned(what))), what_(cleaned(std::move(what))) {}

BadInput BadInput::at(const std::string& outer_place) const {
  What w = what_;
  w.place = w.place.empty() ? outer_place : outer_place + w.place;
  return BadInput(w);
}

}  // namespace pumpwright
