#include "job/true_picture.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace pumpwright::job {
namespace {

using true_running::Rotating;
using true_running::Standing;

// What is off the axis is drawn as at most this share of the largest radius.
constexpr double largest_drawn = 0.25;
constexpr double magnification_max = 1e5;

template <class Chain>
struct Outline {
  typename Chain::Part part;
  std::optional<Length> from, length, diameter;
};

class Sizes {
 public:
  explicit Sizes(const MakeUp& make_up) : make_up_(make_up) {}
  std::optional<Length> operator()(std::string_view name) const {
    const Dimension* d = make_up_.dimension(name);
    return d == nullptr ? std::nullopt : std::optional(d->nominal);
  }
  std::optional<Length> either(std::string_view name, std::string_view other) const {
    const auto first = (*this)(name);
    return first ? first : (*this)(other);
  }

 private:
  const MakeUp& make_up_;
};

// From the bearings outwards.
std::vector<Outline<Rotating>> outlines(const TrueQuestion<Rotating>& q, const MakeUp& make_up) {
  const Sizes size(make_up);
  using Part = Rotating::Part;
  std::vector<Outline<Rotating>> out{{Part::shaft, metres(0), size("shaft_length"), size("shaft_diameter")}};
  if (q.geometry.sleeve_seat)
    out.push_back(
        {Part::sleeve, q.geometry.sleeve_seat, size("sleeve_length"), size("sleeve_outside_diameter")});
  out.push_back({Part::impeller, q.geometry.impeller_seat, size.either("impeller_width", "hub_length"),
                 size("impeller_diameter")});
  return out;
}

std::vector<Outline<Standing>> outlines(const TrueQuestion<Standing>& /*question*/, const MakeUp& make_up) {
  const Sizes size(make_up);
  using Part = Standing::Part;
  return {{Part::motor, metres(0), size("register_height"), size("register_diameter")},
          {Part::bracket, metres(0), size.either("bracket_depth", "seat_depth"),
           size.either("bracket_outside_diameter", "face_diameter")},
          {Part::seat, size("seat_depth"), size("seat_thickness"), size("seat_outside_diameter")}};
}

template <class Chain>
typename Chain::Direction plane_of(const TrueQuestion<Chain>& q) {
  const auto share = [](const true_running::Station<Chain>& s) {
    return s.vector.size().value() / (s.limit ? s.limit->value.value() : 1e3);
  };
  const auto worst = std::max_element(q.stations.begin(), q.stations.end(),
                                      [&](const auto& a, const auto& b) { return share(a) < share(b); });
  return worst == q.stations.end() ? typename Chain::Direction{} : worst->vector.direction();
}

template <class Chain>
Length along(const true_running::Offset<Chain>& v, Angle up) {
  return v.toward_0 * std::cos(up.value()) + v.toward_90 * std::sin(up.value());
}

// 1, 2 or 5 times a power of ten, at most `wanted`.
double round_factor(double wanted) {
  if (!(wanted > 1)) return 1;
  const double decade = std::pow(10, std::floor(std::log10(wanted)));
  for (const double step : {5.0, 2.0})
    if (step * decade <= wanted) return step * decade;
  return decade;
}

// Where a part's centre lies at both its ends: what sweeps there would find.
template <class Chain>
std::vector<true_running::Predicted<Chain>> centres(typename Chain::Part part, Length from, Length to,
                                                    const TrueQuestion<Chain>& q,
                                                    const TrueFinding<Chain>& f) {
  const true_running::Covariance2 none{1e-18, 0, 0, 1e-18};  // of sweeps nobody takes; it must not be zero
  const std::array ends{
      true_running::Station<Chain>{.id = "from", .part = part, .at = from, .covariance = none},
      true_running::Station<Chain>{.id = "to", .part = part, .at = to, .covariance = none}};
  return true_running::predict<Chain>(ends, q.geometry, f.attribution.errors);
}

template <class Chain>
TruePicture<Chain> draw(const TrueQuestion<Chain>& q, const TrueFinding<Chain>& f, const MakeUp& make_up) {
  TruePicture<Chain> picture;
  picture.up = plane_of(q);
  double most_off_m = 0, largest_m = 0;
  for (const auto& outline : outlines(q, make_up)) {
    if (!outline.from || !outline.length || !outline.diameter) continue;
    const Length to = *outline.from + *outline.length;
    const auto ends = centres(outline.part, *outline.from, to, q, f);
    DrawnPart<Chain> part{outline.part,
                          *outline.from,
                          to,
                          *outline.diameter * 0.5,
                          along(ends[0].vector, picture.up.angle),
                          along(ends[1].vector, picture.up.angle)};
    most_off_m = std::max({most_off_m, std::fabs(part.off_from.value()), std::fabs(part.off_to.value())});
    largest_m = std::max(largest_m, part.radius.value());
    picture.parts.push_back(part);
  }
  if (most_off_m > 0)
    picture.magnification = round_factor(std::min(magnification_max, largest_drawn * largest_m / most_off_m));
  return picture;
}

}  // namespace

TruePicture<Rotating> picture_of(const TrueQuestion<Rotating>& question, const TrueFinding<Rotating>& finding,
                                 const MakeUp& make_up) {
  return draw(question, finding, make_up);
}

TruePicture<Standing> picture_of(const TrueQuestion<Standing>& question, const TrueFinding<Standing>& finding,
                                 const MakeUp& make_up) {
  return draw(question, finding, make_up);
}

}  // namespace pumpwright::job
