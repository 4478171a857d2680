// Text that came from outside, as one safe line for a message or a table.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace pumpwright {

// Length of the UTF-8 sequence that begins at `at`; 0 when there is none (RFC 3629, section 4: no overlong
// forms, no surrogates, nothing past U+10FFFF).
std::size_t utf8_length(std::string_view text, std::size_t at);

// Offset of the first byte that is not part of valid UTF-8, or npos.
std::size_t first_invalid_utf8(std::string_view bytes);

// `text` as one line: control characters become spaces, bytes that are no UTF-8 become "\xHH", and what
// stands after `bytes_max` bytes is cut off with "…".
std::string one_line(std::string_view text, std::size_t bytes_max = 1000);

}  // namespace pumpwright
