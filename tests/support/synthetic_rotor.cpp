#include "tests/support/synthetic_rotor.h"

#include <cmath>
#include <random>

#include <Eigen/Geometry>

#include "engine/metrology/sweep.h"

namespace pumpwright::testing {
namespace {

using true_running::Fault;
using true_running::NamedError;
using true_running::Rotating;
using true_running::Standing;
using true_running::Station;
using Complex = std::complex<double>;
using Pose = Eigen::Isometry3d;

// A pump about the size of the demonstration's.
constexpr double shaft_end_m = 0.108, sleeve_seat_m = 0.035, impeller_seat_m = 0.073, eye_m = 0.101;
constexpr double seat_m = 0.038, bore_m = 0.043, register_radius_m = 0.066, seat_radius_m = 0.020;

std::size_t index_of(Fault f) {
  return static_cast<std::size_t>(f);
}
constexpr std::size_t part_errors = static_cast<std::size_t>(Fault::indicator_loose);
using Errors = std::array<Complex, part_errors>;

bool is_tilt(Fault f) {
  switch (f) {
    case Fault::shaft_off_axis:
    case Fault::sleeve_off_centre:
    case Fault::impeller_off_centre:
    case Fault::register_off_centre:
    case Fault::bracket_off_centre:
      return false;
    default:
      return true;
  }
}

bool is_seating(Fault f) {
  return f == Fault::sleeve_not_home || f == Fault::impeller_not_home || f == Fault::dirt_under_bracket;
}

// A body moved by `offset` across the axis and leaning by `tilt` about the axial place `at_m`.
Pose placed(Complex offset, Complex tilt, double at_m) {
  Pose p = Pose::Identity();
  p.translate(Eigen::Vector3d(offset.real(), offset.imag(), at_m));
  const double angle = std::abs(tilt);
  if (angle > 0) {
    // Turning about the axis square to the lean brings the body's axis over towards it.
    const Eigen::Vector3d about(-tilt.imag() / angle, tilt.real() / angle, 0);
    p.rotate(Eigen::AngleAxisd(std::atan(angle), about));
  }
  p.translate(Eigen::Vector3d(0, 0, -at_m));
  return p;
}

// A surface of revolution about the body's own axis, with a little form.
struct Body {
  Pose pose;
  double radius_m = 0.02;  // of the cylinder
  double face_at_m = 0;    // of the face, along the body's axis
  Complex form_2, form_3;

  double form(double place) const {
    return (form_2 * std::polar(1.0, -2 * place)).real() + (form_3 * std::polar(1.0, -3 * place)).real();
  }
  // Distance from the turning axis to the cylinder at `place`, in the plane at `at_m`.
  double radial(double place, double at_m) const {
    const Eigen::Vector3d u = pose.linear().col(2), p = pose.translation();
    const Eigen::Vector3d e(std::cos(place), std::sin(place), 0), o(0, 0, at_m);
    // |w - (w·u) u| = R with w = o + s e - p.
    const Eigen::Vector3d a = e - e.dot(u) * u, b = (o - p) - (o - p).dot(u) * u;
    const double half = a.dot(b) / a.squaredNorm(),
                 rest = (b.squaredNorm() - radius_m * radius_m) / a.squaredNorm();
    return -half + std::sqrt(half * half - rest) + form(place);
  }
  // Axial place of the face at radius `r_m`.
  double face(double place, double r_m) const {
    const Eigen::Vector3d n = pose.linear().col(2), p = pose * Eigen::Vector3d(0, 0, face_at_m);
    return p.z() -
           (n.x() * (r_m * std::cos(place) - p.x()) + n.y() * (r_m * std::sin(place) - p.y())) / n.z() +
           form(place);
  }
};

Pose pose_of(const Station<Rotating>& s, const Errors& f) {
  const auto at = [&](Fault e) { return f[index_of(e)]; };
  const Pose shaft = placed(at(Fault::shaft_off_axis), at(Fault::bent_shaft), 0);
  if (s.part == Rotating::Part::shaft) return shaft;
  const Complex sleeve_tilt = at(Fault::sleeve_out_of_square) + at(Fault::sleeve_not_home);
  if (s.part == Rotating::Part::sleeve)
    return shaft * placed(at(Fault::sleeve_off_centre), sleeve_tilt, sleeve_seat_m);
  return shaft * placed(0, sleeve_tilt, impeller_seat_m) *
         placed(at(Fault::impeller_off_centre),
                at(Fault::impeller_out_of_square) + at(Fault::impeller_not_home), impeller_seat_m);
}

Pose pose_of(const Station<Standing>& s, const Errors& f) {
  const auto at = [&](Fault e) { return f[index_of(e)]; };
  if (s.part == Standing::Part::motor && s.surface == true_running::Surface::radial)
    return placed(at(Fault::register_off_centre), 0, 0);
  const Pose motor = placed(at(Fault::register_off_centre), at(Fault::face_out_of_square), 0);
  if (s.part == Standing::Part::motor) return motor;
  const Pose bracket = motor * placed(at(Fault::bracket_off_centre),
                                      at(Fault::bracket_out_of_square) + at(Fault::dirt_under_bracket), 0);
  return s.part == Standing::Part::bracket ? bracket
                                           : bracket * placed(0, at(Fault::seat_out_of_square), seat_m);
}

template <class Chain>
double true_deviation(const Station<Chain>& s, const Body& body, double place) {
  return s.surface == true_running::Surface::face ? body.face(place, s.radius.value())
                                                  : body.radial(place, s.at.value()) - body.radius_m;
}

Station<Rotating> radial(const char* id, Rotating::Part part, double at_m) {
  return {.id = id, .part = part, .at = metres(at_m)};
}
Station<Standing> radial(const char* id, Standing::Part part, double at_m) {
  return {.id = id, .part = part, .at = metres(at_m)};
}
template <class Chain>
Station<Chain> face(const char* id, typename Chain::Part part, double at_m, double radius_m) {
  return {.id = id,
          .part = part,
          .surface = true_running::Surface::face,
          .at = metres(at_m),
          .radius = metres(radius_m)};
}

std::vector<Station<Rotating>> stations(Rotating, const SyntheticShop& shop) {
  using Part = Rotating::Part;
  std::vector<Station<Rotating>> out{radial("shaft end", Part::shaft, shaft_end_m),
                                     radial("sleeve", Part::sleeve, 0.054),
                                     radial("impeller", Part::impeller, eye_m)};
  if (shop.more_stations) {
    out.push_back(radial("shaft near", Part::shaft, 0.020));
    out.push_back(radial("sleeve end", Part::sleeve, 0.070));
    out.push_back(radial("hub", Part::impeller, 0.078));
    out.push_back(face<Rotating>("shroud face", Part::impeller, eye_m, 0.070));
  }
  return out;
}

std::vector<Station<Standing>> stations(Standing, const SyntheticShop& shop) {
  using Part = Standing::Part;
  std::vector<Station<Standing>> out{radial("register", Part::motor, 0.002),
                                     face<Standing>("mounting face", Part::motor, 0, register_radius_m),
                                     radial("seat bore", Part::bracket, bore_m),
                                     face<Standing>("seat face", Part::seat, seat_m, seat_radius_m)};
  if (shop.more_stations) {
    out.push_back(radial("bracket bore near", Part::bracket, 0.012));
    out.push_back(face<Standing>("bracket face", Part::bracket, 0.07, 0.09));
  }
  return out;
}

template <class Chain>
true_running::Geometry<Chain> geometry();
template <>
true_running::RotatingGeometry geometry<Rotating>() {
  return {.bend = metres(0), .sleeve_seat = metres(sleeve_seat_m), .impeller_seat = metres(impeller_seat_m)};
}
template <>
true_running::StandingGeometry geometry<Standing>() {
  return {.seat = metres(seat_m)};
}

// Numbers that are the same on every machine: uniform from the engine's own bits, normal by Box and Muller.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}
  double uniform() { return static_cast<double>(engine_() >> 11) * 0x1p-53; }
  double normal() { return std::sqrt(-2 * std::log(1 - uniform())) * std::cos(2 * pi * uniform()); }
  Complex direction() { return std::polar(1.0, 2 * pi * uniform()); }
  // Uniform in a disc whose components have this standard deviation: bounded, unlike the model's belief.
  Complex ordinary(double sd) { return 2 * sd * std::sqrt(uniform()) * direction(); }

 private:
  std::mt19937_64 engine_;
};

template <class Chain>
Complex first_harmonic(const Station<Chain>& s, const Errors& f) {
  const Body body{.pose = pose_of(s, f), .form_2 = 0, .form_3 = 0};
  Complex sum = 0;
  constexpr int n = 16;
  for (int i = 0; i < n; ++i)
    sum += std::polar(2.0 / n, 2 * pi * i / n) * true_deviation(s, body, 2 * pi * i / n);
  return sum;
}

double ordinary_sd(Fault f, const SyntheticShop& shop) {
  return is_seating(f) ? 0 : is_tilt(f) ? shop.ordinary_tilt_rad : shop.ordinary_offset_m;
}

// How far a unit of the error moves the station [m], from its exact geometry.
template <class Chain>
double arm(const Station<Chain>& s, Fault f) {
  const double small = is_tilt(f) ? 1e-5 : 1e-6;
  Errors e{};
  e[index_of(f)] = small;
  return std::abs(first_harmonic(s, e)) / small;
}

// Standard deviation of a component of the station's vector from all that is no fault: the scatter of twelve
// readings and what is ordinary of every part.
template <class Chain>
double noise_m(const Station<Chain>& s, const SyntheticShop& shop) {
  double variance =
      (shop.scatter_m * shop.scatter_m + shop.graduation_m * shop.graduation_m / 12) * 2 / shop.places;
  for (const auto& info : true_running::faults_of(Chain{})) {
    const double sd = ordinary_sd(info.fault, shop);
    if (sd > 0) variance += std::pow(sd * arm(s, info.fault), 2);
  }
  return std::sqrt(variance);
}

// Size of the error that is `ratio` times the noise where it shows most.
template <class Chain>
double planted_size(const NamedError<Chain>& e, const std::vector<Station<Chain>>& list,
                    const SyntheticShop& shop) {
  double most = 0;
  for (const auto& s : list) {
    const double noise = noise_m(s, shop);
    if (e.fault == Fault::indicator_loose)
      most = s.id == e.station ? 1 / noise : most;
    else
      most = std::max(most, arm(s, e.fault) / noise);
  }
  return shop.ratio / most;
}

template <class Chain>
void sweep(Station<Chain>& s, const Errors& f, Complex loose, const SyntheticShop& shop, Dice& dice) {
  const Body body{.pose = pose_of(s, f),
                  .form_2 = shop.form_m * dice.uniform() * dice.direction(),
                  .form_3 = shop.form_m / 2 * dice.uniform() * dice.direction()};
  std::vector<SweepReading> readings;
  const double zero = true_deviation(s, body, 0);
  for (int i = 0; i <= shop.places; ++i) {
    const double place = 2 * pi * i / shop.places;
    const double exact = true_deviation(s, body, place) - zero + (loose * std::polar(1.0, -place)).real();
    const double shown = exact + shop.scatter_m * dice.normal();
    readings.push_back({radians(place), metres(std::round(shown / shop.graduation_m) * shop.graduation_m)});
  }
  SweepSetup setup;
  setup.axis = s.surface == true_running::Surface::face ? Axis::face : Axis::radial;
  setup.mount = Mount::shaft;
  Instrument dial;
  dial.graduation = metres(shop.graduation_m);
  dial.repeatability = metres(shop.scatter_m);
  const auto result = evaluate_sweep(readings, setup, &dial);
  s.vector = {result.vector[0], result.vector[1]};
  s.covariance = result.vector_uncertainty->covariance;
}

}  // namespace

template <class Chain>
std::vector<NamedError<Chain>> plantable(const SyntheticShop& shop) {
  std::vector<NamedError<Chain>> out;
  for (const auto& info : true_running::faults_of(Chain{}))
    out.push_back({info.fault, ""});
  for (const auto& s : stations(Chain{}, shop))
    out.push_back({Fault::indicator_loose, s.id});
  return out;
}

template <class Chain>
SyntheticCase<Chain> synthetic_case(std::uint64_t number, const std::vector<NamedError<Chain>>& planted,
                                    const SyntheticShop& shop) {
  SyntheticCase<Chain> out;
  out.stations = stations(Chain{}, shop);
  out.geometry = geometry<Chain>();
  out.planted = planted;
  Dice dice(0x9e3779b97f4a7c15u * (number + 1));
  Errors f{};
  for (const auto& info : true_running::faults_of(Chain{}))
    f[index_of(info.fault)] = dice.ordinary(ordinary_sd(info.fault, shop));
  std::vector<Complex> loose(out.stations.size());
  for (const auto& e : planted) {
    const Complex size = planted_size(e, out.stations, shop) * dice.direction();
    if (e.fault != Fault::indicator_loose) {
      out.planted_size.push_back(f[index_of(e.fault)] += size);
      continue;
    }
    out.planted_size.push_back(size);
    for (std::size_t k = 0; k < out.stations.size(); ++k)
      if (out.stations[k].id == e.station) loose[k] = size;
  }
  for (std::size_t k = 0; k < out.stations.size(); ++k)
    sweep(out.stations[k], f, loose[k], shop, dice);
  return out;
}

template std::vector<NamedError<Rotating>> plantable<Rotating>(const SyntheticShop&);
template std::vector<NamedError<Standing>> plantable<Standing>(const SyntheticShop&);
template SyntheticCase<Rotating> synthetic_case<Rotating>(std::uint64_t,
                                                          const std::vector<NamedError<Rotating>>&,
                                                          const SyntheticShop&);
template SyntheticCase<Standing> synthetic_case<Standing>(std::uint64_t,
                                                          const std::vector<NamedError<Standing>>&,
                                                          const SyntheticShop&);

}  // namespace pumpwright::testing
