#include "engine/vibration/overall.h"

#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright::vibration {
namespace {

double angular(double hz) {
  return 2 * std::numbers::pi * hz;
}

}  // namespace

Band usual_band(Speed speed) {
  constexpr double slow_rad_s = 600 * std::numbers::pi / 30;
  return {Frequency::from_value(speed.value() < slow_rad_s ? 2 : 10), Frequency::from_value(1000)};
}

OverallVelocity overall_velocity(const Spectrum& s, Measures measures, const Band& band) {
  const double least = band.least.value(), most = band.most.value();
  const double reaches = s.frequency_hz(s.density.size() - 1);
  if (!(least > 0 && least < most && most <= reaches))
    throw BadInput({"band", "", fmt::format("{:g} to {:g} Hz", least, most),
                    fmt::format("a band over 0 Hz that ends by {:g} Hz, half the sampling rate", reaches)});
  double power = 0, squares = 0;
  for (std::size_t k = 1; k < s.density.size(); ++k) {
    const double hz = s.frequency_hz(k);
    if (hz < least || hz > most) continue;
    const double w = measures == Measures::acceleration ? angular(hz) : 1;
    const double of_line = s.density[k] * s.line_spacing.value() / (w * w);
    power += of_line;
    squares += of_line * of_line;
  }
  const double rms = std::sqrt(power);
  const double scatter = std::sqrt(squares * s.noise_bandwidth / s.averages);
  return {Velocity::from_value(rms), Velocity::from_value(rms > 0 ? scatter / (2 * rms) : 0)};
}

Velocity velocity_of(double rms_si, Measures measures, Frequency at) {
  return Velocity::from_value(measures == Measures::acceleration ? rms_si / angular(at.value()) : rms_si);
}

}  // namespace pumpwright::vibration
