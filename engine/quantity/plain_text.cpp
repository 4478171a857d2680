#include "engine/quantity/plain_text.h"

#include <algorithm>
#include <array>
#include <cstddef>

namespace pumpwright {
namespace {

struct Replacement {
  std::string_view from;
  std::string_view to;
};

constexpr std::array replacements{
    // spaces: no-break, en … hair (U+2002 to U+200A), narrow no-break, medium mathematical, ideographic
    Replacement{"\u00A0", " "}, Replacement{"\u2002", " "}, Replacement{"\u2003", " "},
    Replacement{"\u2004", " "}, Replacement{"\u2005", " "}, Replacement{"\u2006", " "},
    Replacement{"\u2007", " "}, Replacement{"\u2008", " "}, Replacement{"\u2009", " "},
    Replacement{"\u200A", " "}, Replacement{"\u202F", " "}, Replacement{"\u205F", " "},
    Replacement{"\u3000", " "},
    // minus sign, hyphen, no-break hyphen, en dash
    Replacement{"\u2212", "-"}, Replacement{"\u2010", "-"}, Replacement{"\u2011", "-"},
    Replacement{"\u2013", "-"},
    // micro sign, Greek mu
    Replacement{"\u00B5", "u"}, Replacement{"\u03BC", "u"},
    // masculine ordinal, ring above; degree Celsius, degree Fahrenheit
    Replacement{"\u00BA", "°"}, Replacement{"\u02DA", "°"}, Replacement{"\u2103", "°C"},
    Replacement{"\u2109", "°F"},
    // double prime, double quotes; prime, single quotes
    Replacement{"\u2033", "\""}, Replacement{"\u201C", "\""}, Replacement{"\u201D", "\""},
    Replacement{"\u201E", "\""}, Replacement{"\u2032", "'"}, Replacement{"\u2018", "'"},
    Replacement{"\u2019", "'"},
    // dot operator, bullet, multiplication sign
    Replacement{"\u22C5", "·"}, Replacement{"\u2022", "·"}, Replacement{"\u00D7", "·"}, Replacement{"*", "·"},
    // superscripts
    Replacement{"\u00B9", "^1"}, Replacement{"\u00B2", "^2"}, Replacement{"\u00B3", "^3"},
    Replacement{"\u207B", "^-"},
    // fraction slash, division slash, vulgar fractions
    Replacement{"\u2044", "/"}, Replacement{"\u2215", "/"}, Replacement{"\u00BD", " 1/2 "},
    Replacement{"\u00BC", " 1/4 "}, Replacement{"\u00BE", " 3/4 "}, Replacement{"\u215B", " 1/8 "},
    Replacement{"\u215C", " 3/8 "}, Replacement{"\u215D", " 5/8 "}, Replacement{"\u215E", " 7/8 "},
    Replacement{"\t", " "}};

// Bytes of the UTF-8 character at the start of `text`; 0 when it is not well formed (RFC 3629, section 4).
std::size_t character_length(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const auto first = byte(0);
  if (first < 0x80) return 1;
  const std::size_t length = first >= 0xC2 && first <= 0xDF   ? 2
                             : first >= 0xE0 && first <= 0xEF ? 3
                             : first >= 0xF0 && first <= 0xF4 ? 4
                                                              : 0;
  if (length == 0 || text.size() < length) return 0;
  for (std::size_t i = 1; i < length; ++i)
    if ((byte(i) & 0xC0U) != 0x80U) return 0;
  const bool overlong = (first == 0xE0 && byte(1) < 0xA0) || (first == 0xF0 && byte(1) < 0x90);
  const bool surrogate = first == 0xED && byte(1) > 0x9F;
  const bool beyond = first == 0xF4 && byte(1) > 0x8F;
  return overlong || surrogate || beyond ? 0 : length;
}

bool is_separator(char c) {
  return c == ' ' || c == '.' || c == '-';
}

constexpr std::string_view dot = "·";

bool ends_in(std::string_view text, std::string_view end) {
  return text.size() >= end.size() && text.substr(text.size() - end.size()) == end;
}

// Whether a separator between `before` and `after` says nothing: beside a slash or bracket, or after a degree
// sign.
bool is_idle(std::string_view before, std::string_view after) {
  if (before.empty() || after.empty()) return false;
  return before.back() == '/' || before.back() == '(' || ends_in(before, "°") || after.front() == '/' ||
         after.front() == '(' || after.front() == ')';
}

struct Separator {
  bool any = false;
  bool hyphen = false;
};

// Takes spaces, dots and hyphens off the front of `rest`.
Separator take_separator(std::string_view& rest) {
  Separator taken;
  while (!rest.empty() && (rest.starts_with(dot) || is_separator(rest.front()))) {
    taken.any = true;
    taken.hyphen = taken.hyphen || rest.front() == '-';
    rest.remove_prefix(rest.starts_with(dot) ? dot.size() : 1);
  }
  return taken;
}

}  // namespace

std::optional<std::string> plain_text(std::string_view utf8) {
  std::string out;
  while (!utf8.empty()) {
    const std::size_t length = character_length(utf8);
    if (length == 0) return std::nullopt;
    const std::string_view character = utf8.substr(0, length);
    utf8.remove_prefix(length);
    const auto* const found = std::find_if(replacements.begin(), replacements.end(),
                                           [character](const Replacement& r) { return r.from == character; });
    if (found != replacements.end()) {
      out += found->to;
    } else if (static_cast<unsigned char>(character[0]) < 0x20 || character[0] == 0x7F) {
      return std::nullopt;
    } else {
      out += character;
    }
    if (ends_in(out, "''")) out.replace(out.size() - 2, 2, "\"");
  }
  return out;
}

std::string plain_unit_text(std::string_view plain) {
  std::string text(plain);
  std::erase(text, '^');
  std::string_view rest = trimmed(text);
  if (!rest.empty() && rest.back() == '.') rest.remove_suffix(1);
  std::string out;
  while (!rest.empty()) {
    const Separator separator = take_separator(rest);
    const bool exponent = separator.hyphen && !rest.empty() && rest.front() >= '0' && rest.front() <= '9';
    if (exponent) out += '-';
    if (separator.any && !exponent && !is_idle(out, rest)) out += dot;
    if (rest.empty()) break;
    out += rest.front();
    rest.remove_prefix(1);
  }
  return out;
}

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view blank = " \t\r\n";
  const auto first = text.find_first_not_of(blank);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(blank) - first + 1);
}

}  // namespace pumpwright
