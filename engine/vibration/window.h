// Windows that a stretch of a signal is weighed with before it is transformed.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace pumpwright::vibration {

enum class Window {
  hann,         // 1/2 - 1/2 cos: the usual one
  flat_top,     // a tone reads the same wherever it lies between two lines; wide
  rectangular,  // none
};

// `size` values, periodic (the value after the last is the first), as spectra ask for. Flat top: the five
// cosine terms of scipy.signal.windows.flattop.
std::vector<double> window_values(Window window, std::size_t size);

// "hann", "flat-top", "rectangular".
std::string_view word_for(Window window);

}  // namespace pumpwright::vibration
