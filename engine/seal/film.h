// What happens between the faces: film, summits in touch, heat and the tilt of the rings found together, so
// that leakage, friction and face temperature come from the seal as it stands and not from an assumed K and
// f.
//
// Axisymmetric and steady. Unknowns: separation of the faces' mean planes, cone angle, flow, and the pressure
// and temperature of every cell on the radius. Finite volumes; damped Newton over all of it, the pressures
// following from the flow by exact summation. With coning and contact off it is the textbook's radial gap.
#pragma once

#include <optional>
#include <vector>

#include "engine/fluid/liquid.h"
#include "engine/quantity/quantity.h"
#include "engine/seal/asperity_contact.h"
#include "engine/seal/face_geometry.h"
#include "engine/seal/film_liquid.h"
#include "engine/seal/ring.h"

namespace pumpwright::seal {

// Tilt of both faces' sections against each other; the sum over both rings. Positive: the gap widens
// outwards.
struct Coning {
  Angle lapped = radians(0);      // as made or worn, within 0.1 rad
  ConingPerPressure by_pressure;  // per pressure across the faces
  ConingPerKelvin by_heat;        // per degree of mean face temperature over the chamber
};

// Where the heat of the faces goes; the sum over both rings.
struct HeatPath {
  HeatConductance to_chamber;      // 1e-6 to 1e5 W/K
  HeatConductance along_the_face;  // conductivity of the rings times the depth that evens out along the
                                   // radius, 0 to 1e3 W/K: takes hot and cold spots out of the profile,
                                   // carries nothing away
};

struct FilmCase {
  Faces faces;
  Force spring;                 // 0 to 100 kN
  AbsolutePressure chamber;     // at least the liquid's vapour pressure at its temperature, to 50 MPa
  AbsolutePressure atmosphere;  // on the other side, 1 kPa to 50 MPa; above the chamber's, flow turns round
  Temperature chamber_temperature;                      // inside the liquid's range
  Speed speed;                                          // 0 to 10 000 rad/s
  std::optional<Asperities> asperities = Asperities{};  // empty: smooth faces that never touch
  Coning coning;
  HeatPath heat;
  std::optional<Length> held_film;  // the separation at the mean radius as given (0.01 to 1000 µm), whatever
                                    // the forces say; needed for smooth faces that stand parallel
};

struct FilmSettings {
  int cells = 64;             // 4 to 4096
  int most_iterations = 200;  // 1 to 10 000, over all steps
};

struct FilmPoint {
  Length radius;
  AbsolutePressure pressure;  // of the liquid
  Temperature temperature;    // of film and faces
  Length film;                // mean room between the rough faces
  Pressure contact;           // carried by summits
  bool boils = false;         // pressure at or below the vapour pressure at the temperature
};

struct FilmSolution {
  bool converged = false;      // every equation to 1e-11 of its scale, or to rounding (1e-9)
  bool opens = false;          // no film, however thick, lets the forces balance: the liquid pushes the faces
                               // apart. Not converged then.
  bool beyond_liquid = false;  // somewhere hotter than the liquid's data reach: figures void, not converged
  bool boils = false;        // somewhere in the face. The solution is still that of a liquid: trust the fact,
                             // not the figures after it; steam opens the faces, then they chatter or run dry.
  double boiling_share = 0;  // of the face area
  int iterations = 0;
  Length separation;  // of the mean planes at the mean radius
  Length mean_film, least_film;
  Angle coning;        // all of it
  VolumeFlow leakage;  // at chamber temperature; from chamber to atmosphere, negative: inward
  Force closing;       // pressure on the balance area and spring
  Force film_force;    // of the liquid's pressure over that of the atmosphere
  Force contact_force;
  double contact_share = 0;    // contact force / closing force
  double gradient_factor = 0;  // K found: film force / (area x pressure across); 0 with no pressure across
  Torque friction;             // viscous and summits
  Power heat;                  // friction times speed
  Temperature face_mean, face_hottest;
  double force_residual = 0;   // |closing - film - contact| / closing; not zero where the film is held
  double energy_residual = 0;  // |heat - to chamber - carried by the leak| / heat; 0 when there is no heat
  std::vector<FilmPoint> profile;  // cells from inside to outside
};

// Reynolds equation r h³/(12 mu) dp/dr = const for a film without inertia (laminar; the turning's own
// pressure, about 0.15 rho (w r)², left out), h the mean gap of rough faces without a flow factor; viscous
// shear mu w r / h plus friction of the summits; heat to the chamber spread evenly over the face, carried by
// the leak, and along the rings; one temperature through the film's thickness; viscosity by temperature. Film
// dissipation by the pressure drop (leakage x pressure) left out. Second order on the radius. Throws BadInput
// "faces/...", "asperities/...", "spring force", "chamber pressure", "atmosphere", "chamber temperature",
// "speed", "coning/...", "heat path/...", "held film", "film settings/...", and "held film" when smooth
// parallel faces without by_heat coning have none to settle on.
FilmSolution solve_film(const FilmCase& seal, const fluid::Liquid& liquid, const FilmSettings& settings = {});

// The same with a liquid tabulated before: for many solves of one liquid.
FilmSolution solve_film(const FilmCase& seal, const FilmLiquid& liquid, const FilmSettings& settings = {});

}  // namespace pumpwright::seal
