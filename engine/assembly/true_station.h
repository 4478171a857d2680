// What a rotor's and a bracket's sweeps are taken at, and what can be wrong with each part: the mechanics
// behind finding which part is out.
//
// Every sweep gives the once-per-turn vector of its surface. The model is linear in the errors of the parts:
//     radial sweep at the axial place x   Σ offsets + Σ tilts · (x - place about which the part tilts)
//     face sweep at the radius r          -r Σ tilts for a face towards the impeller end, +r for one towards
//     the
//                                         driver (where the axis leans to, such a face lies back)
// An offset is a length, a tilt an angle in radians (small). So the TIR of a pure offset e is 2e, and the TIR
// of a face out of square by τ is its swept diameter times τ.
//
// Rotating: the shaft carries sleeve and impeller; the impeller's hub is pressed by its fastener against the
// sleeve's end and takes over the sleeve's tilt about the hub's back. Standing, swept by an indicator that
// the shaft carries (its own bend then plays no part): the bracket sits on the motor's register and face, the
// seat in the bracket.
//
// A part that was drawn and fitted again turned by α carries its own errors round with it (factor e^{iα}); an
// error of how it was seated (not home, dirt under the shoulder, a pinched ring) is not there the second
// time.
//
// Own mechanics: rigid parts and small angles; no outside source.
#pragma once

#include <array>
#include <complex>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "engine/assembly/true_frame.h"

namespace pumpwright::true_running {

enum class Fault {
  bent_shaft,              // leans from the bend outwards
  shaft_off_axis,          // runs off the bearings' axis all along
  sleeve_off_centre,       // bore off the outside
  sleeve_out_of_square,    // bore askew to the outside: goes round with the sleeve
  sleeve_not_home,         // tilted on the shaft by what is under it
  impeller_off_centre,     // bore off the outside
  impeller_out_of_square,  // bore askew
  impeller_not_home,       // tilted by what is under its hub
  register_off_centre,     // motor register off the bearings' axis
  face_out_of_square,      // motor mounting face
  bracket_off_centre,      // in its clearance on the register, or bored off centre
  bracket_out_of_square,   // its two faces are not parallel: goes round with the bracket
  dirt_under_bracket,      // tilted by what is between bracket and motor
  seat_out_of_square,      // the face the seat sits against, or the seat in it
  indicator_loose,         // one station's reading is wrong
};

// "bent-shaft", "sleeve-not-home", …: stable, for files and records.
const char* word_for(Fault fault);

struct FaultInfo {
  Fault fault;
  int part;       // index into the chain's parts
  bool tilt;      // a tilt, else an offset
  bool seating;   // gone when the part is drawn, cleaned and fitted again
  bool broad;     // of a tilt: over something long or broad (a shaft, a flange), so that a small angle is a
                  // large error
  double weight;  // how usual it is beside the others, a stated belief
};

// Every error a part of the chain can have, indicator_loose aside.
std::span<const FaultInfo> faults_of(Rotating);
std::span<const FaultInfo> faults_of(Standing);

enum class Surface { radial, face };

// One sweep of one surface, with what the sweep's fit made of it.
template <class Chain>
struct Station {
  std::string id;  // not empty, unique among the stations of its chain
  typename Chain::Part part{};
  Surface surface = Surface::radial;
  Length at = metres(0);      // [m] axial place from the mounting face towards the impeller, within ± 10 m
  Length radius = metres(0);  // [m] at which a face was swept, > 0; not used for radial
  bool faces_driver = false;  // a face towards the driver, else towards the impeller end
  Offset<Chain> vector{};     // first harmonic: towards the high spot, half the once-per-turn movement [m]
  Covariance2 covariance{};   // of it [m²], positive definite
  std::optional<Tir> limit{};
  // By part: it was drawn, cleaned and fitted again before this sweep, turned by this angle (0: as it was)
  // against how it sat for the stations without.
  std::array<std::optional<Angle>, parts_of_a_chain> refitted{};
};

// Axial places [m] from the mounting face towards the impeller.
struct RotatingGeometry {
  Length bend = metres(0);            // where a bent shaft is taken to leave the axis
  std::optional<Length> sleeve_seat;  // shoulder the sleeve stands on; absent: no sleeve
  Length impeller_seat = metres(0);   // what the hub's back stands on
};
struct StandingGeometry {
  Length seat = metres(0);  // shoulder of the seat's pocket
};
template <class Chain>
struct GeometryOf;
template <>
struct GeometryOf<Rotating> {
  using type = RotatingGeometry;
};
template <>
struct GeometryOf<Standing> {
  using type = StandingGeometry;
};
template <class Chain>
using Geometry = typename GeometryOf<Chain>::type;

// What the station sees of each error, in the order of faults_of: [m] per m of offset or per rad of tilt.
std::vector<std::complex<double>> seen_at(const Station<Rotating>& station, const RotatingGeometry& geometry);
std::vector<std::complex<double>> seen_at(const Station<Standing>& station, const StandingGeometry& geometry);

// Throws BadInput with field "stations/3/radius" (numbers from 0) and the like for what does not meet the
// conditions above, or when there are no stations or more than 24.
template <class Chain>
void require_valid(std::span<const Station<Chain>> stations);

inline constexpr std::size_t stations_max = 24;

}  // namespace pumpwright::true_running
