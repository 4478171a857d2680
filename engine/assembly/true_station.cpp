#include "engine/assembly/true_station.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "engine/assembly/input_check.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::true_running {
namespace {

// How usual each is beside the others (a belief of this program, stated in docs/true-running.md): what lies
// under a part is twice as usual as a machining error.
constexpr double usual = 1, twice = 2;

constexpr int shaft = 0, sleeve = 1, impeller = 2;
constexpr std::array<FaultInfo, 8> rotating_faults{{
    {Fault::bent_shaft, shaft, true, false, true, usual},
    {Fault::shaft_off_axis, shaft, false, false, false, usual},
    {Fault::sleeve_off_centre, sleeve, false, false, false, usual},
    {Fault::sleeve_out_of_square, sleeve, true, false, false, usual},
    {Fault::sleeve_not_home, sleeve, true, true, false, twice},
    {Fault::impeller_off_centre, impeller, false, false, false, usual},
    {Fault::impeller_out_of_square, impeller, true, false, false, usual},
    {Fault::impeller_not_home, impeller, true, true, false, twice},
}};

constexpr int motor = 0, bracket = 1, seat = 2;
constexpr std::array<FaultInfo, 6> standing_faults{{
    {Fault::register_off_centre, motor, false, false, false, usual},
    {Fault::face_out_of_square, motor, true, false, true, usual},
    {Fault::bracket_off_centre, bracket, false, false, false, usual},
    {Fault::bracket_out_of_square, bracket, true, false, true, usual},
    {Fault::dirt_under_bracket, bracket, true, true, true, twice},
    {Fault::seat_out_of_square, seat, true, false, false, usual},
}};

// An error of a part, as the station sees it before anything was turned: an offset moves a radial sweep by
// itself, a tilt about `from_m` by the distance; a face sees tilts only.
template <class Chain>
double arm(const Station<Chain>& s, bool tilt, double from_m) {
  if (s.surface == Surface::face) {
    const double r_m = s.radius.value();
    return !tilt ? 0 : s.faces_driver ? r_m : -r_m;
  }
  return tilt ? s.at.value() - from_m : 1;
}

// How the error came round with its part.
template <class Chain>
std::complex<double> turned(const Station<Chain>& s, const FaultInfo& f) {
  const auto& refit = s.refitted[static_cast<std::size_t>(f.part)];
  if (!refit) return 1;
  return f.seating ? 0 : std::polar(1.0, refit->value());
}

// Whether an error of `of` reaches a surface of `on`: each part carries the next.
bool carried(int of, int on) {
  return of <= on;
}

double arm_of(const FaultInfo& f, const Station<Rotating>& s, const RotatingGeometry& g) {
  const int on = static_cast<int>(s.part);
  if (!carried(f.part, on)) return 0;
  if (f.fault == Fault::bent_shaft) return s.at > g.bend ? arm(s, true, g.bend.value()) : 0;
  if (f.part == sleeve) {
    if (!g.sleeve_seat) return 0;
    // The hub is centred by the shaft and squared by the sleeve's end.
    if (on == impeller) return f.tilt ? arm(s, true, g.impeller_seat.value()) : 0;
    return arm(s, f.tilt, g.sleeve_seat->value());
  }
  return arm(s, f.tilt, g.impeller_seat.value());
}

double arm_of(const FaultInfo& f, const Station<Standing>& s, const StandingGeometry& g) {
  const int on = static_cast<int>(s.part);
  if (!carried(f.part, on)) return 0;
  // The register is a surface of the motor at its own place: its offset is stated there.
  if (on == motor && s.surface == Surface::radial && f.tilt) return 0;
  return arm(s, f.tilt, f.part == seat ? g.seat.value() : 0);
}

template <class Chain>
std::vector<std::complex<double>> seen(const Station<Chain>& s, const Geometry<Chain>& g) {
  std::vector<std::complex<double>> row;
  for (const auto& f : faults_of(Chain{}))
    row.push_back(arm_of(f, s, g) * turned(s, f));
  return row;
}

}  // namespace

const char* word_for(Fault fault) {
  switch (fault) {
    case Fault::bent_shaft:
      return "bent-shaft";
    case Fault::shaft_off_axis:
      return "shaft-off-axis";
    case Fault::sleeve_off_centre:
      return "sleeve-off-centre";
    case Fault::sleeve_out_of_square:
      return "sleeve-out-of-square";
    case Fault::sleeve_not_home:
      return "sleeve-not-home";
    case Fault::impeller_off_centre:
      return "impeller-off-centre";
    case Fault::impeller_out_of_square:
      return "impeller-out-of-square";
    case Fault::impeller_not_home:
      return "impeller-not-home";
    case Fault::register_off_centre:
      return "register-off-centre";
    case Fault::face_out_of_square:
      return "face-out-of-square";
    case Fault::bracket_off_centre:
      return "bracket-off-centre";
    case Fault::bracket_out_of_square:
      return "bracket-out-of-square";
    case Fault::dirt_under_bracket:
      return "dirt-under-bracket";
    case Fault::seat_out_of_square:
      return "seat-out-of-square";
    case Fault::indicator_loose:
      return "indicator-loose";
  }
  return "";
}

double squared_distance(std::complex<double> d, const Covariance2& c) {
  const double det = c[0] * c[3] - c[1] * c[2];
  return (d.real() * d.real() * c[3] - d.real() * d.imag() * (c[1] + c[2]) + d.imag() * d.imag() * c[0]) /
         det;
}

std::span<const FaultInfo> faults_of(Rotating) {
  return rotating_faults;
}

std::span<const FaultInfo> faults_of(Standing) {
  return standing_faults;
}

std::vector<std::complex<double>> seen_at(const Station<Rotating>& station,
                                          const RotatingGeometry& geometry) {
  return seen(station, geometry);
}

std::vector<std::complex<double>> seen_at(const Station<Standing>& station,
                                          const StandingGeometry& geometry) {
  return seen(station, geometry);
}

template <class Chain>
void require_valid(std::span<const Station<Chain>> stations) {
  constexpr double reach_m = 10, movement_m = 0.1;
  if (stations.empty() || stations.size() > stations_max)
    throw BadInput(
        {"stations", "", std::to_string(stations.size()), fmt::format("1 to {} stations", stations_max)});
  std::set<std::string> ids;
  for (std::size_t i = 0; i < stations.size(); ++i) {
    const auto& s = stations[i];
    const auto field = [&](const char* name) { return fmt::format("stations/{}/{}", i, name); };
    if (s.id.empty() || !ids.insert(s.id).second)
      throw BadInput({field("id"), "", s.id, "a name that no other station has"});
    require_between(s.at.value(), -reach_m, reach_m, field("at"), "a place within 10 m of the mounting face");
    if (s.surface == Surface::face)
      require_that(s.radius.value() > 0 && s.radius.value() <= reach_m, s.radius.value(), field("radius"),
                   "the radius at which the face was swept, above 0 to 10 m");
    for (const double v : {s.vector.toward_0.value(), s.vector.toward_90.value()})
      require_between(v, -movement_m, movement_m, field("vector"), "a runout vector within 100 mm");
    const auto& c = s.covariance;
    const double det = c[0] * c[3] - c[1] * c[2];
    require_that(std::isfinite(det) && c[0] > 0 && c[3] > 0 && det > 0 &&
                     std::abs(c[1] - c[2]) <= 1e-9 * (c[0] + c[3]),
                 det, field("covariance"), "a covariance that is symmetric and positive definite");
    if (s.limit)
      require_that(s.limit->value.value() > 0 && s.limit->value.value() <= movement_m, s.limit->value.value(),
                   field("limit"), "a TIR above 0 to 100 mm");
  }
}

template void require_valid<Rotating>(std::span<const Station<Rotating>>);
template void require_valid<Standing>(std::span<const Station<Standing>>);

}  // namespace pumpwright::true_running
