// Writes quantities: without loss for files, and with the digits an instrument or a reader deserves for
// people.
//
// Every form parses back with parse_written: the lossless one to exactly the same double, the display ones to
// within half a unit of their last digit. Decimal point, no thousands separators, "-0" never; the unit's
// symbol follows after a space (directly for °). Values must be finite and the unit of the value's kind
// (asserted).
#pragma once

#include <string>

#include "engine/quantity/any_quantity.h"
#include "engine/quantity/unit.h"

namespace pumpwright {

enum class Sign {
  when_negative,
  always
};  // `always` for readings about a zero: "+3.0 thou"; zero stays "0.0"

// The shortest text in `preferred` that parses back to exactly `value.si()`; in the SI unit when `preferred`
// has none
// ("0.00017779999999999998 m"). At most 40 characters.
std::string format_lossless(const AnyQuantity& value, const Unit& preferred);
std::string format_lossless(const AnyQuantity& value);  // in the SI unit

// `decimals` digits after the point (0 to 12). From 1e12 units upward: 13 significant digits with an
// exponent.
std::string format_decimals(const AnyQuantity& value, const Unit& unit, int decimals,
                            Sign sign = Sign::when_negative);

// `digits` significant digits (1 to 15), but never fewer than stand before the point: 3550 rpm to 2 digits
// stays "3550 rpm". Below 1e-6 units and from 1e12 units upward with an exponent.
std::string format_significant(const AnyQuantity& value, const Unit& unit, int digits,
                               Sign sign = Sign::when_negative);

// With the digits of an instrument whose graduation is `graduation` (a step: a Length for a Length, a
// TemperatureDifference for a Temperature): a dial of half a thou gives "7.0 thou", one of 0.001 mm "0.178
// mm".
std::string format_graduated(const AnyQuantity& value, const Unit& unit, const AnyQuantity& graduation,
                             Sign sign = Sign::when_negative);

// Decimals that format_graduated uses: enough to show every graduation when two significant digits of the
// graduation are enough (0.5 → 1, 0.02 → 2, 0.25 → 2), else two significant digits of it (1/64 → 3).
// [graduation > 0, SI step]
int decimals_for_graduation(double graduation_si, const Unit& unit);

}  // namespace pumpwright
