#include "report/chain_bar.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "report/amount_text.h"
#include "report/labels.h"
#include "report/palette.h"
#include "report/polar_plot.h"
#include "report/section_drawing.h"
#include "report/verdict_mark.h"

namespace pumpwright::report {
namespace {

constexpr double points_per_metre = 72 / 0.0254;
constexpr double bar_height = 7;
constexpr double row_gap = 5;
constexpr double window_height = 62;
constexpr Colour adds_fill = rgb(0xC8CDD2);  // what takes away is white

Type title_type() {
  return {8.6, Weight::bold, ink, Align::left};
}
Type name_type() {
  return {7.8, Weight::regular, ink, Align::left};
}
Type number_type() {
  return {7.8, Weight::medium, ink, Align::right};
}
Type small_type() {
  return {7, Weight::regular, soft_ink, Align::left};
}

// Columns: name, bar, value, share.
struct Columns {
  double name, bar_left, bar_right, value_right, share_right;
};

Columns columns_of(double x, double width) {
  return {0.3 * width - 8, x + 0.3 * width, x + 0.74 * width, x + 0.88 * width, x + width};
}

double row_height(Canvas& canvas, double width, const std::string& name) {
  const double text = canvas.measure(name, name_type(), columns_of(0, width).name).height;
  return std::max(text, bar_height) + row_gap;
}

// Where the sum stands before the first link and after each.
std::vector<double> running_sums(const ChainBar& bar) {
  std::vector<double> sums{0};
  for (const ChainLinkBar& link : bar.links)
    sums.push_back(sums.back() + link.signed_value_m);
  return sums;
}

void draw_arrow_bar(Canvas& canvas, double from, double to, double y, Colour fill) {
  const double middle = y + bar_height / 2;
  const double tip = std::copysign(std::min(3.0, std::abs(to - from)), to - from);
  const std::array<Point, 5> shape{Point{from, y}, Point{to - tip, y}, Point{to, middle},
                                   Point{to - tip, y + bar_height}, Point{from, y + bar_height}};
  canvas.polygon(shape, {fill, Pen{ink, 0.5, {}}});
}

class ChainPicture {
 public:
  ChainPicture(Canvas& canvas, Point at, double width, const ChainBar& bar, job::Language language)
      : canvas_(canvas),
        x_(at.x),
        y_(at.y),
        width_(width),
        bar_(bar),
        language_(language),
        columns_(columns_of(at.x, width)) {}

  void draw() {
    draw_verdict_mark(canvas_, {x_ + 5, y_ + 5.5}, 9, bar_.verdict, bar_.deviation_accepted);
    y_ += canvas_.text({x_ + 16, y_}, bar_.title, title_type(), width_ - 16).height + 6;
    if (bar_.links.empty()) {
      canvas_.text({x_, y_}, text_of(Label::chain_missing, language_), name_type(), width_);
      return;
    }
    links();
    if (bar_.sum_m)
      window();
    else
      canvas_.text({x_, y_ + 2}, text_of(Label::chain_missing, language_), name_type(), width_);
  }

 private:
  double on_bar(double value_m) const { return zero_ + value_m * scale_; }

  void links() {
    const std::vector<double> sums = running_sums(bar_);
    const auto [low, high] = std::minmax_element(sums.begin(), sums.end());
    const double span = std::max(*high - *low, 1e-9);
    const double room = columns_.bar_right - columns_.bar_left;
    scale_ = usual_scale(span, 1e-12, {room, room}) * points_per_metre;
    zero_ = columns_.bar_left - *low * scale_ + (room - span * scale_) / 2;
    canvas_.text({columns_.bar_left, y_},
                 fmt::format(fmt::runtime(text_of(Label::chain_magnified, language_)),
                             scale_text(scale_ / points_per_metre)),
                 small_type());
    Type share = small_type();
    share.align = Align::right;
    canvas_.text({columns_.share_right, y_}, text_of(Label::chain_share, language_), share);
    y_ += 13;
    const double top = y_;
    for (std::size_t i = 0; i < bar_.links.size(); ++i)
      link_row(bar_.links[i], sums[i], sums[i + 1]);
    if (bar_.sum_m) sum_row(sums.back());
    canvas_.line({on_bar(0), top - 3}, {on_bar(0), y_ - 2}, {soft_ink, 0.6, {}});
  }

  void link_row(const ChainLinkBar& link, double before, double after) {
    const double height = row_height(canvas_, width_, link.name);
    canvas_.text({x_, y_}, link.name, name_type(), columns_.name);
    draw_arrow_bar(canvas_, on_bar(before), on_bar(after), y_ + 1,
                   link.signed_value_m >= 0 ? adds_fill : white);
    canvas_.line({on_bar(after), y_ + 1 + bar_height}, {on_bar(after), y_ + height + 1},
                 {soft_ink, 0.4, {1.5, 1.5}});
    canvas_.text({columns_.value_right, y_}, link.value, number_type());
    if (link.fraction > 0)
      canvas_.text({columns_.share_right, y_}, fmt::format("{:.0f} %", 100 * link.fraction), number_type());
    y_ += height;
  }

  void sum_row(double sum_of_links_m) {
    Type bold = name_type();
    bold.weight = Weight::bold;
    canvas_.text({x_, y_}, text_of(Label::chain_result, language_), bold);
    draw_arrow_bar(canvas_, on_bar(0), on_bar(sum_of_links_m), y_ + 1, ink);
    Type value = number_type();
    value.weight = Weight::bold;
    canvas_.text({columns_.value_right, y_}, bar_.sum, value);
    y_ += bar_height + 2 * row_gap;
  }

  // The sum and its limit, enlarged.
  void window() {
    const double sum = *bar_.sum_m;
    const double doubt = 2 * bar_.uncertainty_m;
    double low = sum - doubt, high = sum + doubt;
    for (const auto& bound : {bar_.lower_m, bar_.upper_m})
      if (bound) low = std::min(low, *bound), high = std::max(high, *bound);
    const double span = std::max(high - low, 1e-7);
    const double left = x_ + 0.1 * width_, right = x_ + 0.9 * width_;
    const double room = 0.72 * (right - left);
    const double scale = usual_magnification(span, room);
    const double middle = (low + high) / 2;
    const auto at = [&](double value_m) {
      return (left + right) / 2 + (value_m - middle) * scale * points_per_metre;
    };
    const double y = y_ + 24;
    canvas_.text(
        {x_, y_ + 2},
        fmt::format(fmt::runtime(text_of(Label::chain_window, language_)), fmt::format("{:g}", scale)),
        small_type());
    const double from = bar_.lower_m ? at(*bar_.lower_m) : left;
    const double to = bar_.upper_m ? at(*bar_.upper_m) : right;
    if (bar_.lower_m || bar_.upper_m) canvas_.rectangle({from, y, to - from, 14}, {limit_fill, std::nullopt});
    canvas_.line({left, y + 14}, {right, y + 14}, {soft_ink, 0.6, {}});
    bound_mark(bar_.lower_m, bar_.lower, at, y, Align::right);
    bound_mark(bar_.upper_m, bar_.upper, at, y, Align::left);
    canvas_.line({at(sum - doubt), y + 7}, {at(sum + doubt), y + 7}, {ink, 1.2, {}});
    for (const double end : {sum - doubt, sum + doubt})
      canvas_.line({at(end), y + 3.5}, {at(end), y + 10.5}, {ink, 1.2, {}});
    draw_verdict_mark(canvas_, {at(sum), y + 7}, 8, bar_.verdict);
    Type value = number_type();
    value.align = Align::centre;
    canvas_.text({at(sum), y + 17}, bar_.sum_with_doubt, value);
  }

  template <class At>
  void bound_mark(const std::optional<double>& bound_m, const std::string& words, const At& at, double y,
                  Align side) {
    if (!bound_m) return;
    const double x = at(*bound_m);
    canvas_.line({x, y - 3}, {x, y + 17}, {limit_line, 1, {}});
    Type type = number_type();
    type.align = side;
    canvas_.text({side == Align::right ? x - 4 : x + 4, y + 2}, words, type);
  }

  Canvas& canvas_;
  double x_, y_, width_;
  const ChainBar& bar_;
  job::Language language_;
  Columns columns_;
  double zero_ = 0, scale_ = 1;
};

std::string bound_text(const std::optional<Written>& bound) {
  return bound ? written_text(*bound) : std::string();
}

ChainBar bar_for(const job::Check& check, const job::CheckFinding& finding, job::Language language) {
  ChainBar bar;
  bar.id = check.id;
  bar.title = check.title.in(language);
  bar.verdict = finding.verdict;
  bar.deviation_accepted = finding.deviation_accepted;
  const job::JudgedReading none;
  const job::JudgedReading& judged = finding.readings.empty() ? none : finding.readings.front();
  const Unit& unit = job::unit_to_show(check, judged);
  for (const job::ChainShare& share : finding.chain)
    bar.links.push_back({share.name.in(language), share.coefficient * share.value.si(),
                         doubtful_text(share.value, unit, 2 * share.standard_uncertainty), share.fraction});
  if (judged.value) {
    bar.sum_m = judged.value->si();
    bar.uncertainty_m = judged.standard_uncertainty.value_or(0);
    bar.sum = bar.sum_with_doubt = doubtful_text(*judged.value, unit, 2 * bar.uncertainty_m);
    if (bar.uncertainty_m > 0) bar.sum_with_doubt += " " + plus_minus_text(2 * bar.uncertainty_m, unit);
  }
  if (!check.limits.empty()) {
    const job::Limit& limit = check.limits.front();
    if (limit.lower) bar.lower_m = limit.lower->si;
    if (limit.upper) bar.upper_m = limit.upper->si;
    bar.lower = bound_text(limit.lower);
    bar.upper = bound_text(limit.upper);
  }
  return bar;
}

}  // namespace

std::vector<ChainBar> chain_bars(const job::Plan& plan, const job::Judgement& judgement,
                                 job::Language language) {
  std::vector<ChainBar> bars;
  for (const job::Step& step : plan.steps)
    for (const job::Check& check : step.checks)
      if (check.kind == job::CheckKind::chain && check.quantity == Kind::length)
        if (const job::CheckFinding* finding = judgement.find(check.id))
          bars.push_back(bar_for(check, *finding, language));
  return bars;
}

double chain_height(Canvas& canvas, double width, const ChainBar& bar) {
  double height = canvas.measure(bar.title, title_type(), width - 16).height + 6;
  if (bar.links.empty()) return height + 14;
  height += 13;
  for (const ChainLinkBar& link : bar.links)
    height += row_height(canvas, width, link.name);
  return height + (bar.sum_m ? bar_height + 2 * row_gap + window_height : 14);
}

void draw_chain(Canvas& canvas, Point at, double width, const ChainBar& bar, job::Language language) {
  ChainPicture(canvas, at, width, bar, language).draw();
}

}  // namespace pumpwright::report
