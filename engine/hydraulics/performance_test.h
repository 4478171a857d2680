// A pump's performance test as a measurement model: the points at the rated speed, the curves through them,
// and what every figure taken from the curves is worth.
//
// One function of the unknown errors gives the curves; the law of propagation (JCGM 100:2008, 5.1, with the
// central differences of the note to 5.1.3) and Monte Carlo (JCGM 101) both call it, so that correlations
// need no bookkeeping: an instrument's error is one unknown for all its readings, whichever figures it
// enters. Unknowns are scaled to mean 0 and standard deviation 1.
#pragma once

#include <functional>
#include <limits>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "engine/fluid/liquid.h"
#include "engine/hydraulics/flow_curve.h"
#include "engine/hydraulics/meter.h"
#include "engine/hydraulics/test_point.h"

namespace pumpwright::hydraulics {

// Which instrument read what. Two with the same id are one instrument: their errors are the same.
struct TestMeters {
  Meter flow, suction, discharge, speed;
  Meter power;                           // shaft power, torque or input power, whichever was read
  Meter voltage, current, power_factor;  // when the supply was read
};

struct PerformanceTest {
  TestRig rig;
  TestMeters meters;
  double motor_efficiency_error = 0;  // ± this, 0 to 0.3
  std::vector<TestPoint> points;      // 3 to 200, all with power or all without
  std::shared_ptr<const fluid::Liquid> liquid;
  Speed rated_speed;
  CurveChoice head_curve;
  CurveChoice power_curve;
};

// One unknown error.
struct ErrorSource {
  std::string name;          // "flow-meter", "point 3: speed", "scatter of head"
  bool rectangular = false;  // else normal
  double dof = std::numeric_limits<double>::infinity();
  // Sources of one group are shown as one line: the readings of all points, the scatter of all points.
  std::string group;
};

// The pump at the rated speed.
struct PumpCurves {
  FlowCurve head;                  // [m] over [m³/s]
  std::optional<FlowCurve> power;  // [W] of the shaft, at `density`
  double density_kg_m3 = 0;

  // ρ g Q H / P; needs power (asserted).
  double efficiency_at(double flow_m3_s) const;
};

// A figure with what it is worth.
struct Figure {
  double value = 0;
  double u = 0;  // standard uncertainty
  double dof = std::numeric_limits<double>::infinity();
};

struct Share {
  std::string group;
  double fraction = 0;  // of the variance
};

class PerformanceModel {
 public:
  // BadInput as result_of(), FlowCurve::through(), and "points" when there are too few or some lack power.
  explicit PerformanceModel(PerformanceTest test);

  const PerformanceTest& test() const { return test_; }
  const std::vector<PointResult>& results() const { return results_; }  // at the test speed
  std::span<const ErrorSource> sources() const { return sources_; }
  const PumpCurves& curves() const { return curves_; }  // through the points as read
  // Scatter of the points about a polynomial beyond what reading the instruments explains, at rated speed.
  double head_scatter_m() const { return head_scatter_m_; }
  double power_scatter_w() const { return power_scatter_w_; }
  std::size_t head_dof() const;  // behind it; 0 when there is none

  // Point `i` at the rated speed when the errors are `z` (one value a source).
  struct RatedPoint {
    double flow_m3_s = 0, head_m = 0, power_w = 0;
  };
  RatedPoint rated_point(std::size_t i, std::span<const double> z) const;
  PumpCurves curves_at(std::span<const double> z) const;

  // Several figures taken from the curves, by the law of propagation. `shares` belong to the first of them.
  using Figures = std::function<void(const PumpCurves&, std::span<double> out)>;
  std::vector<Figure> propagate(const Figures& figures, std::size_t count,
                                std::vector<Share>* shares = nullptr) const;

  // Head, hydraulic power, shaft power and efficiency of one point at the test speed, in this order; those
  // not measured are left out.
  std::vector<Figure> point_figures(std::size_t i) const;

 private:
  static constexpr std::size_t none = static_cast<std::size_t>(-1);

  // A reading with its two errors: value + systematic·z[…] + random·z[…].
  struct Channel {
    double value = 0;
    double systematic = 0, random = 0;
    std::size_t systematic_at = none, random_at = none;
    double read(std::span<const double> z) const {
      double v = value;
      if (systematic_at != none) v += systematic * z[systematic_at];
      if (random_at != none) v += random * z[random_at];
      return v;
    }
  };
  struct PointChannels {
    Channel flow, suction, discharge, speed;
    std::vector<Channel> power;  // factors of the power as read, `power_factor` beside them
    double power_factor = 1;
    bool times_speed = false;  // the factors make a torque
    double density_kg_m3 = 0;
    std::size_t head_scatter_at = none, power_scatter_at = none;
  };

  struct TestFigures {
    double head_m = 0, hydraulic_w = 0, power_w = 0;
  };

  Channel channel(double value, const Meter& meter, const std::string& what, std::size_t point);
  std::size_t source(const ErrorSource& source);
  void add_point(std::size_t i);
  void add_power_channels(PointChannels& c, std::size_t i);
  void add_scatter();
  double explained_variance(std::size_t i, double slope, bool of_power) const;
  TestFigures test_figures(const PointChannels& c, std::span<const double> z) const;

  PerformanceTest test_;
  std::vector<PointResult> results_;
  std::vector<ErrorSource> sources_;
  std::vector<PointChannels> points_;
  Channel motor_;  // its efficiency
  bool has_power_ = false;
  double head_scatter_m_ = 0, power_scatter_w_ = 0;
  PumpCurves curves_;
};

}  // namespace pumpwright::hydraulics
