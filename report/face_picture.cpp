#include "report/face_picture.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/quantity/format.h"
#include "engine/seal/face_geometry.h"
#include "job/seal_service.h"
#include "report/labels.h"
#include "report/palette.h"

namespace pumpwright::report {
namespace {

constexpr double strip_height = 48;
constexpr double strip_gap = 16;
constexpr double scale_width = 44;  // for the numbers at the left of a strip
constexpr double numbers_share = 0.4;
constexpr double row_gap = 6;
constexpr double row_height_most = 25;  // a name of two lines

Type small() {
  return {7.4, Weight::regular, soft_ink, Align::left};
}
Type strong() {
  return {8.4, Weight::bold, ink, Align::left};
}

// The units the job writes its service in.
struct Units {
  const Unit& length;
  const Unit& pressure;
  const Unit& temperature;
};

Units units_of(const job::Snapshot& snapshot) {
  const job::Service& service = snapshot.make_up.service;
  const bool inch = service.suction_pressure->unit->system == System::inch;
  return {unit_with_symbol(inch ? "in" : "mm", Kind::length),
          unit_with_symbol(inch ? "psia" : "bar(a)", Kind::pressure_absolute), *service.temperature->unit};
}

std::string shown(const AnyQuantity& quantity, const Unit& unit) {
  return format_significant(quantity, unit, 3);
}

std::string shown(const AnyQuantity& quantity, const Units& units) {
  return shown(quantity, suitable_unit(quantity.kind(), quantity.si(), units.length.system));
}

std::vector<FaceCurve> curves_of(const seal::FilmSolution& film, const Units& units, job::Language language) {
  const auto titled = [&](Label l, std::string_view unit) {
    return FaceCurve{fmt::format("{}, {}", text_of(l, language), unit), {}};
  };
  const Unit& difference =
      unit_with_symbol(units.length.system == System::inch ? "psi" : "bar", Kind::pressure_difference);
  FaceCurve gap = titled(Label::face_film, "µm");
  FaceCurve pressure = titled(Label::face_pressure, units.pressure.symbol);
  FaceCurve summits = titled(Label::face_summits, difference.symbol);
  FaceCurve heat = titled(Label::face_temperature, units.temperature.symbol);
  for (const auto& p : film.profile) {
    gap.values.push_back(p.film.value() * 1e6);
    pressure.values.push_back(from_si(p.pressure.value.value(), units.pressure));
    summits.values.push_back(from_si(p.contact.value(), difference));
    heat.values.push_back(from_si(kelvin_of(p.temperature), units.temperature));
  }
  return {gap, pressure, summits, heat};
}

std::vector<std::pair<std::string, std::string>> numbers_of(const job::SealService& s, const Units& units,
                                                            job::Language language) {
  std::vector<std::pair<std::string, std::string>> out;
  const auto add = [&](Label name, std::string value) {
    out.emplace_back(text_of(name, language), std::move(value));
  };
  if (s.margin) add(Label::seal_margin, fmt::format("{:.2f} … {:.2f}", s.ratio_low, s.ratio_high));
  if (s.least_suction && s.least_suction->value >= pascals(0)) {
    const Unit& gauge =
        unit_with_symbol(units.length.system == System::inch ? "psig" : "bar(g)", Kind::pressure_gauge);
    add(Label::seal_least_suction, shown(AnyQuantity(*s.least_suction), gauge));
  }
  add(Label::seal_balance, fmt::format("{:.3f}", seal::balance_ratio(*s.faces)));
  add(Label::seal_spring, shown(AnyQuantity(s.spring->force.value), units));
  add(Label::seal_friction, shown(AnyQuantity(s.film->friction), units));
  add(Label::seal_heat, shown(AnyQuantity(s.film->heat), unit_with_symbol("W", Kind::power)));
  add(Label::seal_hottest, shown(AnyQuantity(s.film->face_hottest), units.temperature));
  add(Label::seal_touch, fmt::format("{:.0f} %", 100 * s.film->contact_share));
  add(Label::seal_leak, fmt::format("{:.2g} mL/h", s.film->leakage.value() * 3.6e9));
  return out;
}

struct Scale {
  double least, most;

  double share(double value) const { return (value - least) / (most - least); }
};

// From the least to the most; a curve that is level gets a little room.
Scale scale_of(const FaceCurve& curve) {
  const auto [least, most] = std::minmax_element(curve.values.begin(), curve.values.end());
  const double room = *most > *least ? 0 : 1e-9 + 1e-3 * std::fabs(*most);
  return {*least - room, *most + room};
}

std::vector<Point> path_of(const Box& box, const FacePicture& picture, const FaceCurve& curve,
                           const Scale& scale) {
  const double first = picture.radii_m.front(), last = picture.radii_m.back();
  std::vector<Point> points;
  for (std::size_t i = 0; i < curve.values.size(); ++i)
    points.push_back({box.x + box.width * (picture.radii_m[i] - first) / (last - first),
                      box.bottom() - box.height * scale.share(curve.values[i])});
  return points;
}

void draw_strip(Canvas& canvas, const Box& box, const FacePicture& picture, const FaceCurve& curve) {
  const Scale scale = scale_of(curve);
  canvas.rectangle(box, {std::nullopt, Pen{hair, 0.6, {}}});
  const auto number = [&](double value, double y) {
    canvas.text({box.x - 5, y}, fmt::format("{:.3g}", value), {7.4, Weight::regular, soft_ink, Align::right});
  };
  number(scale.most, box.y - 1);
  number(scale.least, box.bottom() - 9);
  canvas.open_path(path_of(box.inset(3), picture, curve, scale), {fit_line, 1.3, {}});
  canvas.text({box.x, box.y - 11}, curve.title, small());
}

void draw_numbers(Canvas& canvas, Point at, double width, const FacePicture& picture) {
  double y = at.y;
  for (const auto& [name, value] : picture.numbers) {
    const double name_width = width * 0.6;
    canvas.text({at.x + name_width + 6, y - 0.6}, value, strong(), width - name_width - 6);
    y += canvas.text({at.x, y}, name, small(), name_width).height + row_gap;
  }
}

}  // namespace

std::optional<FacePicture> face_picture(const job::Snapshot& snapshot, const job::JobState& state,
                                        job::Language language) {
  const job::SealService service = job::seal_service({snapshot, state}, job::Asked::everything);
  if (!service.film || !service.film->converged || service.film->profile.size() < 2) return std::nullopt;
  const Units units = units_of(snapshot);
  FacePicture out;
  for (const auto& p : service.film->profile)
    out.radii_m.push_back(p.radius.value());
  out.inside = shown(AnyQuantity(service.film->profile.front().radius), units.length);
  out.outside = shown(AnyQuantity(service.film->profile.back().radius), units.length);
  out.curves = curves_of(*service.film, units, language);
  out.numbers = numbers_of(service, units, language);
  return out;
}

double face_height(const FacePicture& picture) {
  const double strips = static_cast<double>(picture.curves.size()) * (strip_height + strip_gap) + 14;
  return std::max(strips, static_cast<double>(picture.numbers.size()) * row_height_most);
}

void draw_face(Canvas& canvas, Point at, double width, const FacePicture& picture) {
  const double numbers = width * numbers_share;
  draw_numbers(canvas, {at.x, at.y + 11}, numbers - 16, picture);
  Box box{at.x + numbers + scale_width, at.y + 11, width - numbers - scale_width, strip_height};
  for (const FaceCurve& curve : picture.curves) {
    draw_strip(canvas, box, picture, curve);
    box.y += strip_height + strip_gap;
  }
  const double y = box.y - strip_gap + 3;
  canvas.text({box.x, y}, picture.inside, small());
  canvas.text({box.right(), y}, picture.outside, {7.4, Weight::regular, soft_ink, Align::right});
}

}  // namespace pumpwright::report
