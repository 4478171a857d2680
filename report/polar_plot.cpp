#include "report/polar_plot.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "engine/quantity/quantity.h"
#include "report/labels.h"
#include "report/palette.h"
#include "report/verdict_mark.h"

namespace pumpwright::report {
namespace {

constexpr double points_per_metre = 72 / 0.0254;
constexpr double title_size = 8.6;
constexpr double caption_size = 7.6;
constexpr std::size_t stick_count_max = 60;  // above this many readings a line is clearer than sticks

Type title_type() {
  return {title_size, Weight::bold, ink, Align::left};
}
Type caption_type() {
  return {caption_size, Weight::regular, ink, Align::left};
}

Point polar(Point centre, double radius, double place_deg) {
  const double a = place_deg * pi / 180;
  return {centre.x + radius * std::sin(a), centre.y - radius * std::cos(a)};
}

// Everything in points, once the magnification is chosen.
struct Plan {
  Point centre;
  double outer = 0;  // ring of the scale
  double ring = 0;   // mean of the readings
  double magnification = 1;
  bool limit_inside = true;

  double paper(double deviation_m) const { return deviation_m * magnification * points_per_metre; }
};

double middle_of(const PolarPlot& plot) {
  const auto [low, high] = std::minmax_element(
      plot.points.begin(), plot.points.end(),
      [](const PolarPoint& a, const PolarPoint& b) { return a.deviation_m < b.deviation_m; });
  return plot.points.empty() ? 0 : (low->deviation_m + high->deviation_m) / 2;
}

Plan plan_for(Point centre, double outer, const PolarPlot& plot) {
  Plan plan{centre, outer, 0.6 * outer, 1, true};
  double largest_m = 0;
  for (const PolarPoint& p : plot.points)
    largest_m = std::max(largest_m, std::abs(p.deviation_m));
  double with_limit_m = largest_m;
  if (plot.limit && plot.limit->on == PolarLimitOn::tir)
    with_limit_m = std::max(largest_m, std::abs(middle_of(plot)) + plot.limit->size_m / 2);
  if (plot.limit && plot.limit->on == PolarLimitOn::eccentricity)
    with_limit_m = std::max(largest_m, plot.limit->size_m);
  // A limit far wider than the readings would flatten them to a circle: leave it out, and say so.
  plan.limit_inside = largest_m <= 0 || with_limit_m <= 6 * largest_m;
  plan.magnification = usual_magnification(plan.limit_inside ? with_limit_m : largest_m, 0.34 * outer);
  return plan;
}

void draw_scale(Canvas& canvas, const Plan& plan, const PolarPlot& plot, job::Language language) {
  canvas.circle(plan.centre, plan.outer, {white, Pen{hair, 0.6, {}}});
  for (int deg = 0; deg < 360; deg += 30)
    canvas.line(polar(plan.centre, plan.outer, deg),
                polar(plan.centre, plan.outer - (deg % 90 == 0 ? 5 : 3), deg), {soft_ink, 0.5, {}});
  const bool placed = plot.direction != Direction::mount_missing;
  const bool clock = placed && plot.turning == job::Turning::standing;
  const Type type{7, Weight::regular, soft_ink, Align::centre};
  const std::array<std::string, 4> words = clock ? std::array<std::string, 4>{"12", "3", "6", "9"}
                                                 : std::array<std::string, 4>{"0°", "90°", "180°", "270°"};
  for (std::size_t i = 0; i < words.size(); ++i) {
    const Point at = polar(plan.centre, plan.outer + (i % 2 == 0 ? 6.5 : 11), 90.0 * double(i));
    if (i == 0 && placed) continue;
    canvas.text({at.x, at.y - 4.4}, words[i], type);
  }
  if (!placed) return;
  const Point top = polar(plan.centre, plan.outer, 0);
  const Type mark_type{7, Weight::medium, ink, Align::left};
  if (clock) {
    const std::array<Point, 3> pointer{Point{top.x, top.y + 1}, Point{top.x - 4, top.y - 6},
                                       Point{top.x + 4, top.y - 6}};
    canvas.polygon(pointer, {standing_line, Pen{ink, 0.5, {}}});
  } else {
    canvas.rectangle({top.x - 4, top.y - 2.5, 8, 5.5}, {rotating_fill, Pen{ink, 0.6, {}}});
  }
  canvas.text({top.x + 7, top.y - 9.5}, text_of(clock ? Label::top : Label::keyway, language), mark_type);
}

void draw_limit(Canvas& canvas, const Plan& plan, const PolarPlot& plot) {
  if (!plot.limit || !plan.limit_inside) return;
  const Pen edge{limit_line, 0.7, {}};
  if (plot.limit->on == PolarLimitOn::eccentricity) {
    canvas.circle(plan.centre, plan.paper(plot.limit->size_m), {limit_fill, edge});
    return;
  }
  const double middle = plan.ring + plan.paper(middle_of(plot));
  const double half = plan.paper(plot.limit->size_m) / 2;
  canvas.circle(plan.centre, middle + half, {limit_fill, edge});
  if (middle - half > 0.5) canvas.circle(plan.centre, middle - half, {white, edge});
}

void draw_gaps(Canvas& canvas, const Plan& plan, const PolarPlot& plot) {
  for (const PolarGap& gap : plot.gaps)
    canvas.ring_sector(plan.centre, 0.12 * plan.outer, plan.outer, gap.from_deg,
                       gap.to_deg < gap.from_deg ? gap.to_deg + 360 : gap.to_deg, {gap_fill, std::nullopt});
}

void draw_direction(Canvas& canvas, const Plan& plan, const PolarPlot& plot) {
  if (plot.direction != Direction::claimed) return;
  const double deg = plot.high_spot_deg;
  const double spread = std::min(plot.high_spot_spread_deg.value_or(0), 180.0);
  const double from = 0.14 * plan.outer;
  const double tip = plan.outer - 3;
  const Pen pen{ink, 1.1, {}};
  if (spread > 0)
    canvas.ring_sector(plan.centre, tip - 7, tip, deg - spread, deg + spread, {rgb(0xC9D9EC), std::nullopt});
  canvas.line(polar(plan.centre, from, deg), polar(plan.centre, tip - 6, deg), pen);
  const Point base = polar(plan.centre, tip - 7, deg);
  const Point side = polar({0, 0}, 3, deg + 90);
  const std::array<Point, 3> head{polar(plan.centre, tip, deg), Point{base.x + side.x, base.y + side.y},
                                  Point{base.x - side.x, base.y - side.y}};
  canvas.polygon(head, {ink, std::nullopt});
}

void draw_readings(Canvas& canvas, const Plan& plan, const PolarPlot& plot) {
  canvas.circle(plan.centre, plan.ring, {std::nullopt, Pen{soft_ink, 0.5, {2, 2}}});
  const std::size_t n = plot.points.size();
  const double dot = std::clamp(14.0 / std::sqrt(double(n) + 1), 0.45, 2.1);
  std::vector<Point> line;
  for (const PolarPoint& p : plot.points) {
    const Point at = polar(plan.centre, std::max(0.0, plan.ring + plan.paper(p.deviation_m)), p.place_deg);
    if (n <= stick_count_max)
      canvas.line(polar(plan.centre, plan.ring, p.place_deg), at, {ink, 0.6, {}});
    else
      line.push_back(at);
  }
  if (line.size() > 1) canvas.open_path(line, {ink, 0.35, {}});
  for (const PolarPoint& p : plot.points) {
    const Point at = polar(plan.centre, std::max(0.0, plan.ring + plan.paper(p.deviation_m)), p.place_deg);
    canvas.circle(at, dot, {ink, std::nullopt});
    if (p.suspect) {
      canvas.rectangle({at.x - 4.5, at.y - 4.5, 9, 9}, {std::nullopt, Pen{fail_colour, 1.1, {}}});
    }
  }
}

void draw_fit(Canvas& canvas, const Plan& plan, const PolarPlot& plot) {
  const Point c = plan.centre;
  const Pen axis{ink, 0.6, {}};
  canvas.line({c.x - 4, c.y}, {c.x + 4, c.y}, axis);
  canvas.line({c.x, c.y - 4}, {c.x, c.y + 4}, axis);
  if (!plot.centre) return;
  const Point at{c.x + plan.paper(plot.centre->towards_90_m), c.y - plan.paper(plot.centre->towards_0_m)};
  canvas.circle(at, plan.ring + plan.paper(plot.centre->mean_m), {std::nullopt, Pen{fit_line, 1, {}}});
  canvas.circle(at, 1.9, {fit_line, Pen{white, 0.5, {}}});
}

std::string direction_line(const PolarPlot& plot, job::Language language) {
  const auto label = [&](Label l) { return text_of(l, language); };
  if (plot.direction == Direction::mount_missing) return label(Label::no_direction_mount);
  if (plot.direction == Direction::not_distinguishable) return label(Label::no_direction_uncertain);
  std::string degrees_text = std::to_string(std::lround(plot.high_spot_deg) % 360);
  if (plot.high_spot_spread_deg)
    degrees_text += fmt::format(" ± {:.0f}", std::ceil(*plot.high_spot_spread_deg));
  if (plot.turning == job::Turning::rotating)
    return fmt::format(fmt::runtime(label(Label::high_spot_keyway)), degrees_text);
  const int half_hours = static_cast<int>(std::lround(plot.high_spot_deg / 15)) % 24;
  const int hour = half_hours / 2 == 0 ? 12 : half_hours / 2;
  return fmt::format(fmt::runtime(label(Label::high_spot_clock)),
                     fmt::format("{}:{}", hour, half_hours % 2 == 0 ? "00" : "30"), degrees_text);
}

std::vector<std::string> all_lines(const PolarPlot& plot, const Plan& plan, job::Language language) {
  std::vector<std::string> lines = plot.caption;
  if (plot.points.empty()) {
    lines.push_back(text_of(Label::no_points, language));
    return lines;
  }
  lines.push_back(direction_line(plot, language));
  std::string magnified =
      fmt::format(fmt::runtime(text_of(Label::magnified, language)), fmt::format("{:g}", plan.magnification));
  if (!plan.limit_inside) magnified += "; " + text_of(Label::limit_outside_picture, language);
  lines.push_back(magnified);
  return lines;
}

constexpr double around = 24;  // room for the scale's words about the ring

double outer_radius(double width) {
  return (std::min(width, 270.0) - 2 * around) / 2;
}

}  // namespace

double usual_magnification(double largest_m, double room_pt) {
  if (!(largest_m > 0) || !std::isfinite(largest_m)) return 1;
  const double most = room_pt / (largest_m * points_per_metre);
  const double decade = std::pow(10, std::floor(std::log10(most)));
  double chosen = decade;
  for (const double step : {1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0})
    if (step * decade <= most * (1 + 1e-12)) chosen = step * decade;
  return chosen;
}

double polar_height(Canvas& canvas, double width, const PolarPlot& plot, job::Language language) {
  const double outer = outer_radius(width);
  double height = canvas.measure(plot.title, title_type(), width - 16).height + 8;
  height += 2 * outer + around + 6;
  for (const std::string& line : all_lines(plot, plan_for({}, outer, plot), language))
    height += canvas.measure(line, caption_type(), width).height + 1.5;
  return height;
}

void draw_polar(Canvas& canvas, Point at, double width, const PolarPlot& plot, job::Language language) {
  const double outer = outer_radius(width);
  draw_verdict_mark(canvas, {at.x + 5, at.y + 5.5}, 9, plot.verdict, plot.deviation_accepted);
  double y = at.y + canvas.text({at.x + 16, at.y}, plot.title, title_type(), width - 16).height + 8;
  const Plan plan = plan_for({at.x + width / 2, y + around / 2 + 2 + outer}, outer, plot);
  draw_scale(canvas, plan, plot, language);
  if (!plot.points.empty()) {
    const Box frame{plan.centre.x - outer, plan.centre.y - outer, 2 * outer, 2 * outer};
    canvas.clipped(frame, [&] {
      draw_limit(canvas, plan, plot);
      draw_gaps(canvas, plan, plot);
      draw_direction(canvas, plan, plot);
      draw_fit(canvas, plan, plot);
      draw_readings(canvas, plan, plot);
    });
  }
  y += 2 * outer + around + 6;
  for (const std::string& line : all_lines(plot, plan, language))
    y += canvas.text({at.x, y}, line, caption_type(), width).height + 1.5;
}

}  // namespace pumpwright::report
