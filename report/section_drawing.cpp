#include "report/section_drawing.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "report/label_row.h"
#include "report/labels.h"
#include "report/palette.h"
#include "report/verdict_mark.h"

namespace pumpwright::report {
namespace {

constexpr double points_per_metre = 72 / 0.0254;
constexpr double mark_size = 8;

struct PartLook {
  Colour fill;
  std::optional<Hatch> hatch;
};

Hatch hatched(double angle_deg, double spacing, job::Turning turning, bool crossed = false) {
  const Colour line = turning == job::Turning::rotating ? rotating_line : standing_line;
  return {angle_deg, spacing, crossed, {line, 0.35, {}}};
}

PartLook look_of(job::PartKind part) {
  using job::PartKind;
  const job::Turning turning = job::turning_of(part);
  const Colour fill = turning == job::Turning::rotating ? rotating_fill : standing_fill;
  switch (part) {
    case PartKind::casing:
      return {fill, hatched(45, 4.2, turning)};
    case PartKind::bracket:
      return {fill, hatched(135, 4.2, turning)};
    case PartKind::motor:
      return {fill, hatched(45, 6.5, turning)};
    case PartKind::wear_ring:
      return {fill, hatched(135, 2, turning)};
    case PartKind::seat:
      return {fill, hatched(45, 1.8, turning, true)};
    case PartKind::impeller:
      return {fill, hatched(60, 3.2, turning)};
    case PartKind::sleeve:
      return {fill, hatched(120, 2.2, turning)};
    case PartKind::seal_ring:
      return {fill, hatched(150, 1.6, turning)};
    case PartKind::retainer:
      return {rotating_line, std::nullopt};
    case PartKind::seat_cup:
    case PartKind::elastomer:
      return {rubber, std::nullopt};
    case PartKind::gasket:
      return {ink, std::nullopt};
    case PartKind::vane:
      return {rgb(0xFCF5EA), std::nullopt};
    case PartKind::shaft:
    case PartKind::key:
    case PartKind::spring:
    case PartKind::fastener:
    case PartKind::bearing:
      break;
  }
  return {fill, std::nullopt};
}

// A place on the paper: where it truly is, where its mark is drawn, and how its leader runs to its name.
struct PlacedMarker {
  const SectionMarker* marker = nullptr;
  Point at;
  Point mark;
  double leader_x = 0;
};

double mark_width(const SectionMarker& marker) {
  return mark_size * (1 + 1.15 * (static_cast<double>(marker.checks.size()) - 1));
}

job::Verdict worst(const SectionMarker& marker) {
  const std::array order{job::Verdict::fail, job::Verdict::unproven, job::Verdict::not_taken,
                         job::Verdict::pass};
  for (const job::Verdict verdict : order)
    for (const MarkedCheck& check : marker.checks)
      if (check.verdict == verdict) return verdict;
  return job::Verdict::not_taken;
}

bool all_accepted(const SectionMarker& marker) {
  return std::all_of(marker.checks.begin(), marker.checks.end(),
                     [](const MarkedCheck& check) {
                       return check.verdict == job::Verdict::pass || check.deviation_accepted;
                     }) &&
         std::any_of(marker.checks.begin(), marker.checks.end(),
                     [](const MarkedCheck& check) { return check.deviation_accepted; });
}

// Moves marks that would cover one another apart, a little at a time.
void separate(std::vector<PlacedMarker>& markers) {
  constexpr double least = mark_size * 1.3;
  for (int round = 0; round < 60; ++round)
    for (std::size_t i = 0; i < markers.size(); ++i)
      for (std::size_t j = i + 1; j < markers.size(); ++j) {
        Point& a = markers[i].mark;
        Point& b = markers[j].mark;
        double dx = b.x - a.x, dy = b.y - a.y;
        const double apart = std::hypot(dx, dy);
        if (apart >= least) continue;
        if (apart < 1e-6) dx = 0.7, dy = 0.7;
        const double push = (least - apart) / 2 / std::max(std::hypot(dx, dy), 1e-6);
        a = {a.x - dx * push, a.y - dy * push};
        b = {b.x + dx * push, b.y + dy * push};
      }
}

class SectionPicture {
 public:
  SectionPicture(Canvas& canvas, const Box& box, const SectionView& view, job::Language language)
      : canvas_(canvas), box_(box), view_(view), window_(view.window), language_(language) {
    split(view.markers);
    lay_out();
  }

  SectionDrawn draw() {
    const Point low = paper({window_.x_min_m, window_.r_min_m});
    const Point high = paper({window_.x_max_m, window_.r_max_m});
    // Half a line's width more, so that what lies on the edge of the window is seen whole.
    const Box frame{low.x - 0.6, high.y - 0.6, high.x - low.x + 1.2, low.y - high.y + 1.2};
    canvas_.clipped(frame, [&] {
      for (const job::SectionShape& shape : view_.section.shapes)
        shape_on_paper(shape);
    });
    if (window_.r_min_m <= 0)
      axis();
    else
      canvas_.rectangle(frame, {std::nullopt, Pen{hair, 0.7, {}}});
    if (window_.x_min_m <= view_.section.whole.x_min_m) motor_break();
    leaders(top_, top_row_, true);
    leaders(bottom_, bottom_row_, false);
    marks(top_);
    marks(bottom_);
    names(top_, top_row_);
    names(bottom_, bottom_row_);
    legend();
    return {ratio_, y_legend_ + 11 - box_.y};
  }

 private:
  static constexpr double legend_height = 24;
  static constexpr double fan = 16;  // between drawing and names: where leaders spread

  // Names of places far from the axis stand above the drawing, the others below it.
  void split(const std::vector<SectionMarker>& markers) {
    std::vector<PlacedMarker> all;
    for (const SectionMarker& marker : markers)
      if (const job::SectionPlace* place = view_.section.find(marker.place);
          place != nullptr && window_.holds(place->at))
        all.push_back({&marker, {place->at.x_m, place->at.r_m}, {}, 0});
    std::sort(all.begin(), all.end(),
              [](const PlacedMarker& a, const PlacedMarker& b) { return a.at.y > b.at.y; });
    const std::size_t half = (all.size() + 1) / 2;
    for (std::size_t i = 0; i < all.size(); ++i)
      (i < half ? top_ : bottom_).push_back(all[i]);
  }

  LabelRow row_for(const std::vector<PlacedMarker>& side) const {
    std::vector<LabelWish> wishes;
    for (const PlacedMarker& m : side) {
      const std::string name = place_title(m.marker->place).in(language_);
      const double marks_width = mark_width(*m.marker);
      const double width = std::clamp(canvas_.measure(name, name_type()).width + 1, marks_width, 74.0);
      const double height = canvas_.measure(name, name_type(), width).height;
      wishes.push_back({m.at.x, width, height + mark_size + 5});
    }
    return place_labels(wishes, {box_.x, box_.right()});
  }

  Type name_type() const { return {7.4, Weight::medium, ink, Align::centre}; }

  void lay_out() {
    // Heights of the rows of names do not depend on the scale; a first row with any places tells them.
    const double top_height = row_for(top_).height + fan;
    const double bottom_height = row_for(bottom_).height + fan;
    const double length_m = window_.x_max_m - window_.x_min_m;
    const double height_m = window_.r_max_m - window_.r_min_m;
    const PageSize room{box_.width - 8, box_.height - top_height - bottom_height - legend_height};
    ratio_ = usual_scale(length_m, height_m, room);
    const double points = ratio_ * points_per_metre;
    x_zero_ = box_.x + (box_.width - length_m * points) / 2 - window_.x_min_m * points;
    y_top_ = box_.y + top_height;
    y_foot_ = y_top_ + height_m * points;
    y_legend_ = y_foot_ + bottom_height + 14;
    for (auto* side : {&top_, &bottom_}) {
      for (PlacedMarker& m : *side)
        m.at = m.mark = paper({m.at.x, m.at.y});
    }
    std::vector<PlacedMarker> both = top_;
    both.insert(both.end(), bottom_.begin(), bottom_.end());
    separate(both);
    std::copy_n(both.begin(), top_.size(), top_.begin());
    std::copy(both.begin() + static_cast<std::ptrdiff_t>(top_.size()), both.end(), bottom_.begin());
    for (auto* side : {&top_, &bottom_}) {
      std::sort(side->begin(), side->end(),
                [](const PlacedMarker& a, const PlacedMarker& b) { return a.mark.x < b.mark.x; });
      spread_leaders(*side);
    }
    top_row_ = row_for_leaders(top_);
    bottom_row_ = row_for_leaders(bottom_);
  }

  static void spread_leaders(std::vector<PlacedMarker>& side) {
    std::vector<double> wanted;
    wanted.reserve(side.size());
    for (const PlacedMarker& m : side)
      wanted.push_back(m.mark.x);
    const std::vector<double> spread =
        spread_apart(wanted, std::vector<double>(side.size(), mark_size * 0.85));
    for (std::size_t i = 0; i < side.size(); ++i)
      side[i].leader_x = spread[i];
  }

  LabelRow row_for_leaders(std::vector<PlacedMarker> side) const {
    for (PlacedMarker& m : side)
      m.at.x = m.leader_x;
    return row_for(side);
  }

  Point paper(Point at) const {
    const double points = ratio_ * points_per_metre;
    return {x_zero_ + at.x * points, y_foot_ - (at.y - window_.r_min_m) * points};
  }

  void shape_on_paper(const job::SectionShape& shape) {
    std::vector<Point> outline;
    for (const job::SectionPoint& p : shape.outline)
      outline.push_back(paper({p.x_m, p.r_m}));
    const PartLook look = look_of(shape.part);
    canvas_.polygon(outline, {look.fill, std::nullopt});
    if (look.hatch) canvas_.hatch(outline, *look.hatch);
    Pen pen{ink, shape.part == job::PartKind::vane ? 0.4 : 0.7, {}};
    if (shape.assumed) pen.dash = {2.6, 1.6};
    canvas_.polygon(outline, {std::nullopt, pen});
  }

  void axis() {
    const double from = paper({window_.x_min_m, 0}).x - 4;
    const double to = paper({window_.x_max_m, 0}).x + 14;
    canvas_.line({from, y_foot_}, {std::min(to, box_.right()), y_foot_}, {ink, 0.5, {14, 3, 2.5, 3}});
  }

  // The motor goes on where it is broken off: a wavy edge instead of a straight one.
  void motor_break() {
    const double x = paper({window_.x_min_m, 0}).x;
    double r_m = 0;
    for (const job::SectionShape& shape : view_.section.shapes)
      if (shape.part == job::PartKind::motor)
        for (const job::SectionPoint& p : shape.outline)
          r_m = std::max(r_m, p.r_m);
    std::vector<Point> wave;
    for (double y = paper({0, r_m}).y - 5; y <= y_foot_ + 3; y += 1.5)
      wave.push_back({x + 1.4 * std::sin((y - y_foot_) / 9), y});
    canvas_.open_path(wave, {white, 3.4, {}});
    canvas_.open_path(wave, {soft_ink, 0.5, {}});
  }

  void leaders(const std::vector<PlacedMarker>& side, const LabelRow& row, bool upward) {
    const Pen pen{soft_ink, 0.45, {}};
    const double toward = upward ? -1 : 1;
    const double edge = upward ? y_top_ - 2 : y_foot_ + 4;
    for (std::size_t i = 0; i < side.size(); ++i) {
      const PlacedMarker& m = side[i];
      const double jog = std::abs(m.leader_x - m.mark.x);
      const double reach = row.spots[i].near_edge;
      const double y_spread = edge + toward * (fan - 4);
      const std::array<Point, 5> way{m.mark, Point{m.leader_x, m.mark.y + toward * jog},
                                     Point{m.leader_x, edge}, Point{row.spots[i].anchor, y_spread},
                                     Point{row.spots[i].anchor, edge + toward * (fan - 2 + reach)}};
      canvas_.open_path(way, {white, 1.3, {}});
      canvas_.open_path(way, pen);
    }
  }

  void marks(const std::vector<PlacedMarker>& side) {
    for (const PlacedMarker& m : side) {
      if (std::hypot(m.mark.x - m.at.x, m.mark.y - m.at.y) > 0.15 * mark_size) {
        canvas_.line(m.at, m.mark, {ink, 0.6, {}});
        canvas_.circle(m.at, 1.3, {ink, Pen{white, 0.5, {}}});
      }
      canvas_.circle(m.mark, mark_size * 0.68, {white, std::nullopt});
      draw_verdict_mark(canvas_, m.mark, mark_size, worst(*m.marker), all_accepted(*m.marker));
    }
  }

  void names(const std::vector<PlacedMarker>& side, const LabelRow& row) {
    const bool upward = &side == &top_;
    for (std::size_t i = 0; i < side.size(); ++i) {
      const LabelSpot& spot = row.spots[i];
      const double y =
          upward ? y_top_ - fan - spot.near_edge - spot.height : y_foot_ + 4 + fan + spot.near_edge;
      const std::vector<MarkedCheck>& checks = side[i].marker->checks;
      double x = spot.centre - mark_width(*side[i].marker) / 2 + mark_size / 2;
      const double y_marks = upward ? y + spot.height - mark_size / 2 - 2.5 : y + mark_size / 2 + 1;
      for (const MarkedCheck& check : checks) {
        draw_verdict_mark(canvas_, {x, y_marks}, mark_size * 0.8, check.verdict, check.deviation_accepted);
        x += 1.15 * mark_size;
      }
      canvas_.text({spot.centre - spot.width / 2, upward ? y : y + mark_size + 4},
                   place_title(side[i].marker->place).in(language_), name_type(), spot.width);
    }
  }

  // What the fills and dashes mean, the scale in words and as a bar that survives copying.
  void legend() {
    const double y = y_legend_;
    const Type type{7.4, Weight::regular, soft_ink, Align::left};
    double x = box_.x;
    const auto swatch = [&](Colour fill, bool dashed, Label words) {
      Pen pen{ink, 0.6, {}};
      if (dashed) pen.dash = {2.6, 1.6};
      canvas_.rectangle({x, y + 1, 12, 7.5}, {fill, pen});
      x += 16 + canvas_.text({x + 16, y}, text_of(words, language_), type).width + 12;
    };
    swatch(rotating_fill, false, Label::turns);
    swatch(standing_fill, false, Label::stands);
    if (std::any_of(view_.section.shapes.begin(), view_.section.shapes.end(),
                    [](const auto& s) { return s.assumed; }))
      swatch(white, true, Label::size_assumed);
    scale_bar(y);
  }

  void scale_bar(double y) {
    const std::array<double, 9> lengths_mm{1, 2, 5, 10, 20, 50, 100, 200, 500};
    double length_mm = lengths_mm[0];
    for (const double mm : lengths_mm)
      if (mm / 1000 * ratio_ * points_per_metre <= 90) length_mm = mm;
    const double width = length_mm / 1000 * ratio_ * points_per_metre;
    const Type type{7.4, Weight::medium, ink, Align::right};
    const double x = box_.right() - width;
    canvas_.rectangle({x, y + 3.5, width / 2, 3}, {ink, Pen{ink, 0.5, {}}});
    canvas_.rectangle({x + width / 2, y + 3.5, width / 2, 3}, {white, Pen{ink, 0.5, {}}});
    const std::string words =
        fmt::format("{} {}   {:g} mm", text_of(Label::scale, language_), scale_text(ratio_), length_mm);
    canvas_.text({x - 6, y}, words, type);
  }

  Canvas& canvas_;
  const Box box_;
  const SectionView& view_;
  const job::SectionWindow window_;
  const job::Language language_;
  std::vector<PlacedMarker> top_, bottom_;
  LabelRow top_row_, bottom_row_;
  double ratio_ = 1;
  double x_zero_ = 0, y_top_ = 0, y_foot_ = 0, y_legend_ = 0;
};

}  // namespace

std::vector<SectionMarker> section_markers(const job::Plan& plan, const job::Judgement& judgement,
                                           const job::Section& section) {
  std::vector<SectionMarker> markers;
  for (const job::Step& step : plan.steps)
    for (const job::Check& check : step.checks) {
      if (section.find(check.place) == nullptr) continue;
      auto found = std::find_if(markers.begin(), markers.end(),
                                [&](const SectionMarker& m) { return m.place == check.place; });
      if (found == markers.end()) found = markers.insert(found, {check.place, {}});
      const job::CheckFinding* finding = judgement.find(check.id);
      found->checks.push_back(
          finding == nullptr ? MarkedCheck{} : MarkedCheck{finding->verdict, finding->deviation_accepted});
    }
  return markers;
}

std::string scale_text(double ratio) {
  return ratio >= 1 ? fmt::format("{:g} : 1", ratio) : fmt::format("1 : {:g}", 1 / ratio);
}

double usual_scale(double width_m, double height_m, PageSize room) {
  constexpr std::array reductions{0.1, 0.2, 0.25, 0.5, 1 / 1.5, 1.0, 1.25, 1.5,  2.0,  2.5,  3.0,
                                  4.0, 5.0, 6.0,  8.0, 10.,     15., 20.,  25.0, 50.0, 100., 200.};
  const double wanted =
      std::max(width_m * points_per_metre / room.width, height_m * points_per_metre / room.height);
  for (const double reduction : reductions)
    if (reduction * (1 + 1e-9) >= wanted) return 1 / reduction;
  return 1 / std::ceil(wanted);
}

SectionView whole_view(const job::Section& section, std::vector<SectionMarker> markers) {
  return {section, section.whole, std::move(markers)};
}

SectionView seal_view(const job::Section& section, std::vector<SectionMarker> markers) {
  return {section, section.seal, std::move(markers)};
}

SectionDrawn draw_section(Canvas& canvas, const Box& box, const SectionView& view, job::Language language) {
  return SectionPicture(canvas, box, view, language).draw();
}

}  // namespace pumpwright::report
