#include "engine/vibration/window.h"

#include <cmath>
#include <numbers>
#include <span>

namespace pumpwright::vibration {
namespace {

constexpr double hann_terms[] = {0.5, 0.5};
constexpr double flat_top_terms[] = {0.21557895, 0.41663158, 0.277263158, 0.083578947, 0.006947368};
constexpr double rectangular_terms[] = {1};

std::span<const double> terms_of(Window window) {
  switch (window) {
    case Window::hann:
      return hann_terms;
    case Window::flat_top:
      return flat_top_terms;
    case Window::rectangular:
      break;
  }
  return rectangular_terms;
}

}  // namespace

std::vector<double> window_values(Window window, std::size_t size) {
  const auto terms = terms_of(window);
  std::vector<double> out(size);
  for (std::size_t i = 0; i < size; ++i) {
    const double turn = 2 * std::numbers::pi * static_cast<double>(i) / static_cast<double>(size);
    double sign = 1;
    for (std::size_t k = 0; k < terms.size(); ++k, sign = -sign)
      out[i] += sign * terms[k] * std::cos(static_cast<double>(k) * turn);
  }
  return out;
}

std::string_view word_for(Window window) {
  switch (window) {
    case Window::hann:
      return "hann";
    case Window::flat_top:
      return "flat-top";
    case Window::rectangular:
      break;
  }
  return "rectangular";
}

}  // namespace pumpwright::vibration
