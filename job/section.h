// The half-section of this pump, to scale from the job's own dimensions: the picture every check has its
// place on.
//
// Axial x runs from the motor's mounting face towards the impeller; r is the radius from the shaft's axis.
// Metres. Where the make-up does not give a dimension, a usual proportion is drawn instead and the shape is
// marked `assumed`.
#pragma once

#include <string>
#include <vector>

#include "job/check.h"
#include "job/make_up.h"

namespace pumpwright::job {

struct SectionPoint {
  double x_m = 0;
  double r_m = 0;
};

enum class PartKind {
  motor,
  shaft,
  key,
  sleeve,
  bracket,
  gasket,
  seat,
  seal_head,
  spring,
  impeller,
  fastener,
  ring,
  casing
};

struct SectionShape {
  PartKind part = PartKind::shaft;
  std::vector<SectionPoint> outline;  // closed, r ≥ 0
  bool assumed = false;               // its size was not given
};

// Where checks of one `place` sit.
struct SectionPlace {
  std::string place;
  SectionPoint at;
};

struct Section {
  std::vector<SectionShape> shapes;  // back to front
  std::vector<SectionPlace> places;  // every place a check may name
  double x_min_m = 0, x_max_m = 0, r_max_m = 0;
  std::vector<std::string> assumed;  // dimension names that were not given

  const SectionPlace* find(std::string_view place) const;
};

// Every place that step data may name: "shaft-end", "mounting-face", "register", "shaft-seal-area", "keyway",
// "sleeve", "sleeve-bore", "seat", "seat-face", "bracket-register", "seal-head", "impeller-hub",
// "impeller-eye", "impeller-face", "fastener", "wear-ring", "casing", "gasket", "nameplate".
std::span<const std::string_view> place_names();

Section section_of(const MakeUp& make_up);

}  // namespace pumpwright::job
