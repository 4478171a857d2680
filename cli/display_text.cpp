#include "cli/display_text.h"

#include <algorithm>
#include <cassert>

namespace pumpwright {
namespace {

unsigned byte_at(std::string_view text, std::size_t at) {
  return static_cast<unsigned char>(text[at]);
}

// U+0300 to U+036F.
bool is_combining(std::string_view text, std::size_t at) {
  return byte_at(text, at) == 0xCC || (byte_at(text, at) == 0xCD && byte_at(text, at + 1) < 0xB0);
}

std::size_t width_without_colour(std::string_view text) {
  std::size_t width = 0;
  for (std::size_t i = 0; i < text.size();) {
    if (text[i] == '\x1b') {  // a colour: ESC [ digits m
      const auto end = text.find('m', i);
      i = end == std::string_view::npos ? text.size() : end + 1;
      continue;
    }
    const std::size_t length = utf8_length(text, i);
    if (length != 2 || !is_combining(text, i)) ++width;
    i += std::max<std::size_t>(length, 1);
  }
  return width;
}

}  // namespace

std::size_t display_width(std::string_view text) {
  return width_without_colour(text);
}

std::string wrapped(std::string_view text, std::size_t width, std::size_t indent) {
  std::string out;
  std::string line;
  const auto end_line = [&] {
    if (!line.empty()) out += std::string(indent, ' ') + line + "\n";
    line.clear();
  };
  for (std::size_t i = 0; i < text.size();) {
    const auto end = std::min(text.find_first_of(" \n", i), text.size());
    const auto word = text.substr(i, end - i);
    if (!line.empty() && indent + display_width(line) + 1 + display_width(word) > width) end_line();
    if (!word.empty()) line += (line.empty() ? "" : " ") + std::string(word);
    i = end + 1;
  }
  end_line();
  return out;
}

TextTable::TextTable(std::vector<Align> columns) : columns_(std::move(columns)) {}

void TextTable::add(std::vector<std::string> cells) {
  assert(cells.size() <= columns_.size());
  cells.resize(columns_.size());
  rows_.push_back(std::move(cells));
}

std::vector<std::string> TextTable::lines(std::size_t indent) const {
  std::vector<std::size_t> widths(columns_.size(), 0);
  for (const auto& row : rows_)
    for (std::size_t c = 0; c < row.size(); ++c)
      widths[c] = std::max(widths[c], display_width(row[c]));
  std::vector<std::string> out;
  for (const auto& row : rows_) {
    std::string line(indent, ' ');
    for (std::size_t c = 0; c < row.size(); ++c) {
      if (widths[c] == 0) continue;  // a column nobody filled
      const std::string padding(widths[c] - display_width(row[c]), ' ');
      line += columns_[c] == Align::left ? row[c] + padding : padding + row[c];
      line += "  ";
    }
    line.erase(line.find_last_not_of(' ') + 1);
    out.push_back(std::move(line));
  }
  return out;
}

std::string TextTable::text(std::size_t indent) const {
  std::string out;
  for (const auto& line : lines(indent))
    out += line + "\n";
  return out;
}

}  // namespace pumpwright
