// The colours of everything printed. Text colours stand at least 7:1 against white; no meaning hangs on a
// colour alone.
#pragma once

#include "report/canvas.h"

namespace pumpwright::report {

constexpr Colour rgb(unsigned hex) {
  return {double((hex >> 16U) & 255U) / 255, double((hex >> 8U) & 255U) / 255, double(hex & 255U) / 255};
}

inline constexpr Colour white = rgb(0xFFFFFF);
inline constexpr Colour ink = rgb(0x16222C);            // 16:1
inline constexpr Colour soft_ink = rgb(0x44525E);       // 8:1, for what is said beside
inline constexpr Colour hair = rgb(0xBCC6CE);           // rules and grids
inline constexpr Colour wash = rgb(0xF2F4F5);           // behind headings and forms
inline constexpr Colour rotating_fill = rgb(0xF7E6CC);  // everything that turns
inline constexpr Colour rotating_line = rgb(0xA9834B);
inline constexpr Colour standing_fill = rgb(0xDFE8EE);  // everything that stands
inline constexpr Colour standing_line = rgb(0x7D95A6);
inline constexpr Colour rubber = rgb(0x3A3F45);
inline constexpr Colour pass_colour = rgb(0x0B5351);      // 8.6:1
inline constexpr Colour fail_colour = rgb(0x8E1B33);      // 9:1
inline constexpr Colour unproven_colour = rgb(0x6E4600);  // 8:1
inline constexpr Colour untaken_colour = rgb(0x4A5763);
inline constexpr Colour limit_fill = rgb(0xE4F0EA);  // inside the limit
inline constexpr Colour limit_line = rgb(0x3F7F68);
inline constexpr Colour fit_line = rgb(0x1F5FA8);  // fitted curves
inline constexpr Colour gap_fill = rgb(0xE3E3E3);

}  // namespace pumpwright::report
