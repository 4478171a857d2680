// The one table of units the program knows: how each is printed, which spellings of it are accepted, what it
// measures and how it converts to SI. Parser, formatter and documentation draw on it.
//
// Factors are held as exact ratios of whole numbers wherever the unit is defined that way (inch, pound,
// standard gravity, US gallon …), times π for angles in degrees and speeds in revolutions. Sources:
// international yard and pound agreement of 1959 (yard 0.9144 m, pound 0.45359237 kg); standard
// gravity 9.80665 m/s² (3rd CGPM, 1901); NIST Special Publication 811, 2008 edition, appendix B, for the
// derived factors.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>

#include "engine/quantity/kind.h"

namespace pumpwright {

enum class System { metric, inch, both };

// value in SI = (value in the unit + shift) · factor, with
// factor = numerator / denominator, times π when `times_pi`, and
// shift  = shift_numerator / shift_denominator, not zero for °C and °F only.
struct Unit {
  std::string_view symbol;  // as printed, UTF-8: "thou", "N·m", "°C"; always accepted by the parser too
  Kind kind = Kind::number;
  System system = System::both;
  std::int64_t numerator = 1;
  std::int64_t denominator = 1;
  bool times_pi = false;
  std::int64_t shift_numerator = 0;
  std::int64_t shift_denominator = 1;
  // Accepted spellings besides the symbol, separated by single spaces, after `plain_unit_text`.
  std::string_view spellings = {};

  bool is_si() const { return numerator == 1 && denominator == 1 && !times_pi && shift_numerator == 0; }
};

// Every unit; those of one kind stand together. Units live as long as the program: keep pointers to them
// freely.
std::span<const Unit> all_units();

// The unit of `kind` whose factor is exactly 1 (m, rad, Pa(g), K …). For Kind::number the unit has an empty
// symbol.
const Unit& si_unit(Kind kind);

// The unit of `kind` a hand means by `spelling`, or null. Exact spellings come first; after that capitals and
// small letters are not told apart, except that a unit of mixed case never swaps a first m for M ("mPa" is
// not MPa). µ in both code points, typographic quotes, the several dots and dashes, superscripts and spaces
// inside are accepted; so is a full stop after an abbreviation ("in.").
const Unit* find_unit(std::string_view spelling, Kind kind);

// Any unit, of whatever kind, spelled so; null when the spelling is unknown. For error messages.
const Unit* find_unit_of_any_kind(std::string_view spelling);

// For units named in the source code: the unit of `kind` with exactly this symbol. Asserts that it exists.
const Unit& unit_with_symbol(std::string_view symbol, Kind kind);

// "thou, in, mm, µm …": symbols of the units of a kind, for messages and documentation.
std::string symbols_of(Kind kind);

// A value in `unit` as SI, and back. Accurate to one unit in the last place (of the sum, for °C and °F).
double to_si(double value, const Unit& unit);
double from_si(double si, const Unit& unit);

// A step (graduation, tolerance, error) in `unit` as SI, and back: the shift of °C and °F plays no part.
double step_to_si(double step, const Unit& unit);
double step_from_si(double step_si, const Unit& unit);

// A unit that suits the size of `si` for people who work in `system` (metric or inch): length in µm, mm or m,
// in thou, in or ft; torque in N·m or in·lbf, ft·lbf; and so on. Zero and non-finite values get the smallest
// one.
const Unit& suitable_unit(Kind kind, double si, System system);

}  // namespace pumpwright
