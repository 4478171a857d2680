#include "engine/hydraulics/performance_test.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include <fmt/format.h>

#include "engine/assembly/input_check.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::hydraulics {
namespace {

constexpr std::size_t points_min = 3;
constexpr std::size_t points_max = 200;
constexpr double exactly_known = std::numeric_limits<double>::infinity();  // degrees of freedom
const double root3 = std::sqrt(3.0);

double velocity_head_m(double flow_m3_s, double bore_m) {
  const double v_m_s = flow_m3_s / (pi / 4 * bore_m * bore_m);
  return v_m_s * v_m_s / (2 * standard_gravity_m_s2);
}

void require_valid(const Meter& meter) {
  require_between(meter.error_of_reading, 0, 0.5, "error_of_reading", "a part of the reading from 0 to 50 %");
  require_that(meter.error >= 0 && std::isfinite(meter.error), meter.error, "error", "an error not below 0");
  require_that(meter.reads_to >= 0 && std::isfinite(meter.reads_to), meter.reads_to, "reads_to",
               "a step not below 0");
}

bool has_power(const TestPoint& p, const TestRig& rig) {
  return p.shaft_power || p.torque || ((p.input_power || p.supply) && rig.motor_efficiency);
}

// Variance summed by group, largest first.
std::vector<Share> shares_of(std::span<const ErrorSource> sources, std::span<const double> variance) {
  std::vector<Share> shares;
  double all = 0;
  for (std::size_t s = 0; s < sources.size(); ++s) {
    if (!(variance[s] > 0)) continue;
    all += variance[s];
    auto at = std::find_if(shares.begin(), shares.end(),
                           [&](const Share& share) { return share.group == sources[s].group; });
    if (at == shares.end()) at = shares.insert(at, {sources[s].group, 0});
    at->fraction += variance[s];
  }
  for (auto& share : shares)
    share.fraction /= all;
  std::stable_sort(shares.begin(), shares.end(),
                   [](const Share& a, const Share& b) { return a.fraction > b.fraction; });
  return shares;
}

}  // namespace

double PumpCurves::efficiency_at(double flow_m3_s) const {
  assert(power);
  return density_kg_m3 * standard_gravity_m_s2 * flow_m3_s * head.at(flow_m3_s) / power->at(flow_m3_s);
}

PerformanceModel::PerformanceModel(PerformanceTest test)
    : test_(std::move(test)),
      curves_{FlowCurve::through(std::vector<double>{0, 1}, std::vector<double>{0, 0},
                                 {CurveKind::polynomial, 1}),
              {},
              0} {
  const auto count = test_.points.size();
  require_between(static_cast<double>(count), points_min, points_max, "points", "3 to 200 points");
  require_that(test_.rated_speed.value() > 0, test_.rated_speed.value(), "rated speed", "a speed over 0");
  require_between(test_.motor_efficiency_error, 0, 0.3, "motor efficiency", "an error from 0 to 30 %");
  const auto& m = test_.meters;
  for (const Meter* meter :
       {&m.flow, &m.suction, &m.discharge, &m.speed, &m.power, &m.voltage, &m.current, &m.power_factor})
    require_valid(*meter);
  has_power_ = has_power(test_.points.front(), test_.rig);
  motor_.value = test_.rig.motor_efficiency.value_or(1);
  if (test_.motor_efficiency_error > 0) {
    motor_.systematic = test_.motor_efficiency_error / root3;
    motor_.systematic_at = source({"motor efficiency", true, exactly_known, "motor efficiency"});
  }
  for (std::size_t i = 0; i < count; ++i) {
    if (has_power(test_.points[i], test_.rig) != has_power_)
      throw BadInput({"points", fmt::format("/{}", i), has_power_ ? "no shaft power" : "a shaft power",
                      "shaft power (or input power and the motor's efficiency) at every point or at none"});
    add_point(i);
  }
  curves_ = curves_at(std::vector<double>(sources_.size()));
  add_scatter();
}

std::size_t PerformanceModel::source(const ErrorSource& added) {
  sources_.push_back(added);
  return sources_.size() - 1;
}

PerformanceModel::Channel PerformanceModel::channel(double value, const Meter& meter, const std::string& what,
                                                    std::size_t point) {
  Channel c;
  c.value = value;
  c.systematic = error_limit(meter, value) / root3;
  c.random = meter.reads_to / root3;
  if (c.systematic > 0) {
    const std::string name = meter.id.empty() ? what : meter.id;
    const auto at =
        std::find_if(sources_.begin(), sources_.end(), [&](const ErrorSource& s) { return s.name == name; });
    c.systematic_at = at != sources_.end() ? static_cast<std::size_t>(at - sources_.begin())
                                           : source({name, true, exactly_known, name});
  }
  if (c.random > 0)
    c.random_at =
        source({fmt::format("point {}: {}", point + 1, what), true, exactly_known, "reading the " + what});
  return c;
}

void PerformanceModel::add_power_channels(PointChannels& c, std::size_t i) {
  const TestPoint& p = test_.points[i];
  const auto& m = test_.meters;
  if (p.shaft_power) c.power = {channel(p.shaft_power->value(), m.power, "power", i)};
  if (p.torque) {
    c.power = {channel(p.torque->value(), m.power, "torque", i)};
    c.times_speed = true;
  }
  if (p.input_power) c.power = {channel(p.input_power->value(), m.power, "input power", i), motor_};
  if (p.supply) {
    c.power = {channel(p.supply->voltage.value(), m.voltage, "voltage", i),
               channel(p.supply->current.value(), m.current, "current", i),
               channel(p.supply->power_factor, m.power_factor, "power factor", i), motor_};
    c.power_factor = test_.rig.phases == 3 ? root3 : 1.0;
  }
}

void PerformanceModel::add_point(std::size_t i) {
  const TestPoint& p = test_.points[i];
  const auto& m = test_.meters;
  try {
    results_.push_back(result_of(p, test_.rig, *test_.liquid));
  } catch (const BadInput& error) {
    throw error.at(fmt::format("/points/{}", i));
  }
  PointChannels c;
  c.flow = channel(p.flow.value(), m.flow, "flow", i);
  c.suction = channel(p.suction.value.value(), m.suction, "suction gauge", i);
  c.discharge = channel(p.discharge.value.value(), m.discharge, "discharge gauge", i);
  c.speed = channel(p.speed.value(), m.speed, "speed", i);
  c.density_kg_m3 = results_.back().density.value();
  if (has_power_) add_power_channels(c, i);
  points_.push_back(std::move(c));
}

PerformanceModel::TestFigures PerformanceModel::test_figures(const PointChannels& c,
                                                             std::span<const double> z) const {
  const TestRig& rig = test_.rig;
  const double weight_n_m3 = c.density_kg_m3 * standard_gravity_m_s2;
  const double flow = c.flow.read(z);
  TestFigures f;
  f.head_m = (c.discharge.read(z) - c.suction.read(z)) / weight_n_m3 +
             (rig.discharge_height - rig.suction_height).value() +
             velocity_head_m(flow, rig.discharge_bore.value()) -
             velocity_head_m(flow, rig.suction_bore.value());
  f.hydraulic_w = weight_n_m3 * flow * f.head_m;
  if (!c.power.empty()) {
    f.power_w = c.power_factor * (c.times_speed ? c.speed.read(z) : 1.0);
    for (const Channel& factor : c.power)
      f.power_w *= factor.read(z);
  }
  return f;
}

PerformanceModel::RatedPoint PerformanceModel::rated_point(std::size_t i, std::span<const double> z) const {
  const PointChannels& c = points_[i];
  const TestFigures f = test_figures(c, z);
  const double k = test_.rated_speed.value() / c.speed.read(z);
  RatedPoint r{c.flow.read(z) * k, f.head_m * k * k,
               f.power_w * k * k * k * points_.front().density_kg_m3 / c.density_kg_m3};
  if (c.head_scatter_at != none) r.head_m += head_scatter_m_ * z[c.head_scatter_at];
  if (c.power_scatter_at != none) r.power_w += power_scatter_w_ * z[c.power_scatter_at];
  return r;
}

PumpCurves PerformanceModel::curves_at(std::span<const double> z) const {
  const std::size_t n = points_.size();
  std::vector<double> flow(n), head(n), power(n);
  for (std::size_t i = 0; i < n; ++i) {
    const RatedPoint r = rated_point(i, z);
    flow[i] = r.flow_m3_s;
    head[i] = r.head_m;
    power[i] = r.power_w;
  }
  PumpCurves curves{FlowCurve::through(flow, head, test_.head_curve), {}, points_.front().density_kg_m3};
  if (has_power_) curves.power = FlowCurve::through(flow, power, test_.power_curve);
  return curves;
}

// Variance of point i off its curve that the independent readings alone would give.
double PerformanceModel::explained_variance(std::size_t i, double slope, bool of_power) const {
  std::vector<double> z(sources_.size());
  const std::string own = fmt::format("point {}: ", i + 1);
  double variance = 0;
  for (std::size_t s = 0; s < sources_.size(); ++s) {
    if (!sources_[s].name.starts_with(own)) continue;
    z[s] = 1;
    const RatedPoint up = rated_point(i, z);
    z[s] = -1;
    const RatedPoint down = rated_point(i, z);
    z[s] = 0;
    const double rise = of_power ? up.power_w - down.power_w : up.head_m - down.head_m;
    variance += std::pow((rise - slope * (up.flow_m3_s - down.flow_m3_s)) / 2, 2);
  }
  return variance;
}

std::size_t PerformanceModel::head_dof() const {
  const auto parameters = static_cast<std::size_t>(test_.head_curve.degree) + 1;
  if (test_.head_curve.kind == CurveKind::pchip || points_.size() <= parameters) return 0;
  return points_.size() - parameters;
}

// What the residuals show beyond the readings' own scatter is one more independent error of every point.
void PerformanceModel::add_scatter() {
  const std::vector<double> zero(sources_.size());
  const std::size_t n = points_.size();
  const auto scatter = [&](const FlowCurve& curve, const CurveChoice& choice, bool of_power) {
    std::vector<double> flow(n), value(n);
    double explained = 0;
    for (std::size_t i = 0; i < n; ++i) {
      const RatedPoint r = rated_point(i, zero);
      flow[i] = r.flow_m3_s;
      value[i] = of_power ? r.power_w : r.head_m;
      explained += explained_variance(i, curve.slope_at(flow[i]), of_power) / static_cast<double>(n);
    }
    const double sd = residual_sd(curve, flow, value, choice);
    return std::sqrt(std::max(0.0, sd * sd - explained));
  };
  const double head = scatter(curves_.head, test_.head_curve, false);
  const double power = curves_.power ? scatter(*curves_.power, test_.power_curve, true) : 0;
  const auto dof_of = [&](const CurveChoice& choice) {
    return static_cast<double>(n) - static_cast<double>(choice.degree) - 1;
  };
  for (PointChannels& c : points_) {
    if (head > 0)
      c.head_scatter_at =
          source({"scatter of head", false, dof_of(test_.head_curve), "points off the head curve"});
    if (power > 0)
      c.power_scatter_at =
          source({"scatter of power", false, dof_of(test_.power_curve), "points off the power curve"});
  }
  head_scatter_m_ = head;
  power_scatter_w_ = power;
}

std::vector<Figure> PerformanceModel::propagate(const Figures& figures, std::size_t count,
                                                std::vector<Share>* shares) const {
  std::vector<double> z(sources_.size()), middle(count), up(count), down(count);
  std::vector<double> variance(count), first_variance(sources_.size());
  figures(curves_, middle);
  std::vector<double> head_part(count), power_part(count);
  double head_dof = 1, power_dof = 1;
  for (std::size_t s = 0; s < sources_.size(); ++s) {
    z[s] = 1;
    figures(curves_at(z), up);
    z[s] = -1;
    figures(curves_at(z), down);
    z[s] = 0;
    for (std::size_t k = 0; k < count; ++k) {
      const double part = std::pow((up[k] - down[k]) / 2, 2);
      variance[k] += part;
      if (k == 0) first_variance[s] = part;
      if (sources_[s].name == "scatter of head") head_part[k] += part;
      if (sources_[s].name == "scatter of power") power_part[k] += part;
    }
    if (sources_[s].name == "scatter of head") head_dof = sources_[s].dof;
    if (sources_[s].name == "scatter of power") power_dof = sources_[s].dof;
  }
  std::vector<Figure> out(count);
  for (std::size_t k = 0; k < count; ++k) {
    out[k].value = middle[k];
    out[k].u = std::sqrt(variance[k]);
    // Welch-Satterthwaite (GUM G.4): one standard deviation stands behind all points of a scatter.
    const double lost = head_part[k] * head_part[k] / head_dof + power_part[k] * power_part[k] / power_dof;
    if (lost > 0) out[k].dof = variance[k] * variance[k] / lost;
  }
  if (shares != nullptr) *shares = shares_of(sources_, first_variance);
  return out;
}

std::vector<Figure> PerformanceModel::point_figures(std::size_t i) const {
  const auto figures = [&](std::span<const double> z) {
    const TestFigures f = test_figures(points_[i], z);
    std::vector<double> out{f.head_m, f.hydraulic_w};
    if (has_power_) {
      out.push_back(f.power_w);
      out.push_back(f.hydraulic_w / f.power_w);
    }
    return out;
  };
  std::vector<double> z(sources_.size());
  const auto middle = figures(z);
  std::vector<Figure> out(middle.size());
  for (std::size_t k = 0; k < middle.size(); ++k)
    out[k].value = middle[k];
  for (std::size_t s = 0; s < sources_.size(); ++s) {
    z[s] = 1;
    const auto up = figures(z);
    z[s] = -1;
    const auto down = figures(z);
    z[s] = 0;
    for (std::size_t k = 0; k < out.size(); ++k)
      out[k].u = std::hypot(out[k].u, (up[k] - down[k]) / 2);
  }
  return out;
}

}  // namespace pumpwright::hydraulics
