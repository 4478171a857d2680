// Brings what keyboards, phones and spreadsheets produce to one plain spelling, so that parser and unit table
// deal with few characters. Nothing is lost that could change a number: a superscript stays marked with ^, a
// vulgar fraction is set apart by spaces.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace pumpwright {

// Spaces of every width become ' '; typographic minus and dashes '-'; µ and μ become 'u'; º becomes '°';
// quotes of every shape ' or "; middle dots and asterisks '·'; superscripts ^2; ½ becomes " 1/2 "; ⁄ becomes
// '/'; ℃ becomes "°C". Other characters stay. Nothing when the text is not UTF-8 or holds a control
// character.
std::optional<std::string> plain_text(std::string_view utf8);

// A unit's spelling, after plain_text: separators between its parts become one '·' ("ft-lb", "ft lb", "ft.lb"
// are "ft·lb"), '^' and the full stop after an abbreviation go, "deg C" is "deg·C", "min^-1" is "min-1".
std::string plain_unit_text(std::string_view plain);

// `text` without surrounding ASCII spaces, tabs and line ends.
std::string_view trimmed(std::string_view text);

}  // namespace pumpwright
