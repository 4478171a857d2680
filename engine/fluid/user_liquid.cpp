#include "engine/fluid/user_liquid.h"

#include <algorithm>
#include <limits>
#include <utility>

#include <fmt/format.h>

#include "engine/fluid/known_range.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::fluid {
namespace {

constexpr AbsolutePressure highest_pressure{pascals(10e6)};

[[noreturn]] void refuse(const std::string& field, const std::string& value, const std::string& expected) {
  throw BadInput({.field = field, .place = "", .value = value, .expected = expected});
}

void require_between(double value, double lowest, double highest, const std::string& field,
                     const std::string& unit) {
  if (!(value >= lowest && value <= highest))
    refuse(field, fmt::format("{:.6g} {}", value, unit),
           fmt::format("{:g} to {:g} {}", lowest, highest, unit));
}

// A constant, or the straight line through two points.
class DensityLine {
 public:
  explicit DensityLine(std::vector<DensityPoint> points) : points_(std::move(points)) {
    if (points_.empty() || points_.size() > 2)
      refuse("density", fmt::format("{} points", points_.size()), "one point or two");
    for (const auto& point : points_)
      require_between(point.density.value(), 100, 20'000, "density", "kg/m³");
    std::sort(points_.begin(), points_.end(),
              [](const auto& l, const auto& r) { return kelvin_of(l.t) < kelvin_of(r.t); });
    if (points_.size() == 2 && !(kelvin_of(points_[0].t) < kelvin_of(points_[1].t)))
      refuse("density", "two points of one temperature", "two points of different temperature");
  }

  // One point bounds nothing.
  double lowest_k() const { return points_.size() == 1 ? 0 : kelvin_of(points_.front().t); }
  double highest_k() const {
    return points_.size() == 1 ? std::numeric_limits<double>::infinity() : kelvin_of(points_.back().t);
  }

  Density at(Temperature t) const {
    if (points_.size() == 1) return points_.front().density;
    const double part = (kelvin_of(t) - lowest_k()) / (highest_k() - lowest_k());
    return points_[0].density + part * (points_[1].density - points_[0].density);
  }

 private:
  std::vector<DensityPoint> points_;
};

PropertySources sources_of(const UserLiquid& sheet, const VapourPressureCurve& curve) {
  const std::string saturation =
      curve.is_antoine() ? fmt::format("Antoine curve through {} points, misses none by more than {:.2g} %",
                                       sheet.vapour_pressure.size(), 100 * curve.misfit())
                         : "Clausius-Clapeyron line through two points";
  return {.saturation = sheet.source + "; " + saturation,
          .density = sheet.source + (sheet.density.size() == 1 ? "; taken as constant" : "; straight line"),
          .viscosity = sheet.source + "; ASTM D341 line through two points",
          .heat_capacity = sheet.source + "; taken as constant",
          .conductivity = sheet.source + "; taken as constant"};
}

class LiquidOfSheet final : public Liquid {
 public:
  explicit LiquidOfSheet(const UserLiquid& sheet)
      : name_(sheet.name),
        boiling_(fmt::format("boiling {}", name_)),
        vapour_pressure_(sheet.vapour_pressure),
        viscosity_(sheet.viscosity),
        density_(sheet.density),
        heat_capacity_(sheet.heat_capacity),
        conductivity_(sheet.conductivity),
        sources_(sources_of(sheet, vapour_pressure_)) {
    lowest_ = kelvin(std::max(
        {kelvin_of(vapour_pressure_.lowest()), kelvin_of(viscosity_.lowest()), density_.lowest_k()}));
    highest_ = kelvin(std::min(
        {kelvin_of(vapour_pressure_.highest()), kelvin_of(viscosity_.highest()), density_.highest_k()}));
    if (!(kelvin_of(lowest_) < kelvin_of(highest_)))
      refuse(name_,
             fmt::format("points that end at {:.6g} K and begin at {:.6g} K", kelvin_of(highest_),
                         kelvin_of(lowest_)),
             "vapour pressure, viscosity and density points whose temperatures overlap");
  }

  std::string name() const override { return name_; }
  const PropertySources& sources() const override { return sources_; }
  Temperature lowest_temperature() const override { return lowest_; }
  Temperature highest_temperature() const override { return highest_; }

  AbsolutePressure saturation_pressure(Temperature t) const override {
    require_temperature(t, lowest_, highest_, name_);
    return vapour_pressure_.pressure(t);
  }
  Temperature saturation_temperature(AbsolutePressure p) const override {
    require_pressure(p, {saturation_pressure(lowest_).value * (1 - saturated_within)},
                     {saturation_pressure(highest_).value * (1 + saturated_within)}, boiling_);
    const double t_k = kelvin_of(vapour_pressure_.temperature(p));
    return kelvin(std::clamp(t_k, kelvin_of(lowest_), kelvin_of(highest_)));
  }

  Density density(Temperature t, AbsolutePressure p) const override {
    require_liquid(*this, t, p, highest_pressure);
    return density_.at(t);
  }
  Viscosity viscosity(Temperature t, AbsolutePressure p) const override {
    return pascal_seconds(viscosity_.at(t).value() * density(t, p).value());
  }
  HeatCapacity heat_capacity(Temperature t, AbsolutePressure p) const override {
    require_liquid(*this, t, p, highest_pressure);
    return heat_capacity_;
  }
  Conductivity conductivity(Temperature t, AbsolutePressure p) const override {
    require_liquid(*this, t, p, highest_pressure);
    return conductivity_;
  }

 private:
  std::string name_;
  std::string boiling_;
  VapourPressureCurve vapour_pressure_;
  ViscosityCurve viscosity_;
  DensityLine density_;
  HeatCapacity heat_capacity_;
  Conductivity conductivity_;
  PropertySources sources_;
  Temperature lowest_;
  Temperature highest_;
};

}  // namespace

std::shared_ptr<const Liquid> user_liquid(const UserLiquid& sheet) {
  if (sheet.name.empty()) refuse("name of the liquid", "nothing", "a name");
  if (sheet.source.empty()) refuse("source of the liquid", "nothing", "the sheet it was read in");
  require_between(sheet.heat_capacity.value(), 100, 20'000, "heat capacity", "J/(kg·K)");
  require_between(sheet.conductivity.value(), 0.01, 100, "conductivity", "W/(m·K)");
  return std::make_shared<LiquidOfSheet>(sheet);
}

}  // namespace pumpwright::fluid
