#include "engine/vibration/bearing_frequencies.h"

#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright::vibration {
namespace {

void require(bool well, const char* field, double value, const char* expected) {
  if (!well) throw BadInput({field, "", fmt::format("{:g}", value), expected});
}

}  // namespace

BearingFrequencies bearing_frequencies(const BearingGeometry& g, Speed speed) {
  require(g.elements >= 3 && g.elements <= 200, "elements", g.elements, "3 to 200 rolling elements");
  const double d = g.element_diameter.value(), pitch = g.pitch_diameter.value();
  require(d > 0, "element_diameter", d, "a diameter over 0");
  require(pitch > d && std::isfinite(pitch), "pitch_diameter", pitch, "a diameter over the element's");
  constexpr double most_contact = 80 * std::numbers::pi / 180;
  require(g.contact.value() >= 0 && g.contact.value() <= most_contact + 1e-9, "contact", g.contact.value(),
          "an angle from 0 to 80 degrees");
  require(speed.value() > 0, "speed", speed.value(), "a speed over 0");
  const double turns = speed.value() / (2 * std::numbers::pi);
  const double ratio = d / pitch * std::cos(g.contact.value());
  const auto hz = [](double v) { return Frequency::from_value(v); };
  return {hz(turns / 2 * (1 - ratio)), hz(g.elements * turns / 2 * (1 - ratio)),
          hz(g.elements * turns / 2 * (1 + ratio)), hz(turns * pitch / (2 * d) * (1 - ratio * ratio))};
}

}  // namespace pumpwright::vibration
