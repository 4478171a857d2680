// The half-section of this pump, to scale from the job's own dimensions: the picture every check has its
// place on.
//
// Axial x runs from the motor's mounting face towards the impeller; r is the radius from the shaft's axis.
// Metres. Where the make-up does not give a dimension, a usual proportion is drawn instead and the shape is
// marked `assumed`. A dimension that can not be drawn together with the ones before it (a sleeve longer than
// the shaft) is moved to the nearest that can, its shape is marked the same way and its name is listed in
// `set_aside`: the picture stays a pump, and says where it is not this one. Walls, fillets, vanes, bearing
// and volute are always drawn in usual proportions; they are not part of any check.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "job/check.h"
#include "job/make_up.h"

namespace pumpwright::job {

struct SectionPoint {
  double x_m = 0;
  double r_m = 0;
};

// Every kind either turns or stands; see turning_of.
enum class PartKind {
  motor,
  bearing,
  shaft,
  key,
  sleeve,
  bracket,
  gasket,
  seat,
  seat_cup,   // elastomer that holds the seat
  seal_ring,  // the turning face
  elastomer,  // bellows or O-ring of the seal head
  retainer,   // metal shell of the seal head
  spring,
  impeller,
  vane,  // not cut: the vane stands behind the cut
  fastener,
  wear_ring,
  casing
};

Turning turning_of(PartKind part);

struct SectionShape {
  PartKind part = PartKind::shaft;
  std::vector<SectionPoint>
      outline;           // closed without repeating its first point, r ≥ 0, does not cross itself
  bool assumed = false;  // its size was not given, or was set aside
};

// Where checks of one `place` sit.
struct SectionPlace {
  std::string place;
  SectionPoint at;
};

// A rectangle of the section.
struct SectionWindow {
  double x_min_m = 0, x_max_m = 0;
  double r_min_m = 0, r_max_m = 0;

  bool holds(const SectionPoint& p) const {
    return x_min_m <= p.x_m && p.x_m <= x_max_m && r_min_m <= p.r_m && p.r_m <= r_max_m;
  }
};

struct Section {
  std::vector<SectionShape> shapes;    // back to front
  std::vector<SectionPlace> places;    // every place a check may name
  SectionWindow whole;                 // holds every shape; from the axis, r_min_m is 0
  SectionWindow seal;                  // the seal and what it touches, worth an enlarged detail
  std::vector<std::string> assumed;    // dimension names that were not given
  std::vector<std::string> set_aside;  // given, but not drawable together with the others

  const SectionPlace* find(std::string_view place) const;
};

// Every place that step data may name: "shaft-end", "mounting-face", "register", "shaft-seal-area", "keyway",
// "sleeve", "sleeve-bore", "seat", "seat-face", "bracket-register", "seal-head", "impeller-hub",
// "impeller-eye", "impeller-face", "fastener", "wear-ring", "casing", "gasket", "nameplate".
std::span<const std::string_view> place_names();

Section section_of(const MakeUp& make_up);

}  // namespace pumpwright::job
