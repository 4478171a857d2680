// The rubbing ring of a face seal as three diameters: every force, heat and leak of the seal starts from
// them.
#pragma once

#include <string>

#include "engine/quantity/quantity.h"

namespace pumpwright::seal {

// On which side of the rubbing ring the sealed liquid stands.
enum class PressureSide { outside, inside };

struct Faces {
  Length outer_diameter;    // of the contact, i.e. of the narrower face: 5 mm to 500 mm
  Length inner_diameter;    // of the contact, over 0, below the outer
  Length balance_diameter;  // where the secondary seal lets the pressure's push end: over half the inner and
                            // below 1.5 times the outer diameter
  PressureSide pressure = PressureSide::outside;
};

// Throws BadInput with field `place` + "/outer_diameter", "/inner_diameter", "/balance_diameter" when a
// condition above does not hold. Every function below does so with place "faces".
void require_valid(const Faces& faces, const std::string& place = "faces");

// pi/4 (Do^2 - Di^2).
Area face_area(const Faces& faces);

// Area the sealed pressure pushes on over the face area: (Do^2 - Db^2) / (Do^2 - Di^2) with the pressure
// outside, (Db^2 - Di^2) / (Do^2 - Di^2) with it inside (ISO 21049:2004 / API 682, informative annex on heat,
// remembered). Below 1 a seal is called balanced; usual 0.65 to 1.35. May come out below 0: such a seal
// opens.
double balance_ratio(const Faces& faces);

// (Do + Di) / 2: where speed and friction are taken (same annex, remembered).
Length mean_diameter(const Faces& faces);

// (Do - Di) / 2.
Length face_width(const Faces& faces);

// Mean pressure between parallel faces over the sealed pressure, laminar flow of one viscosity, exactly:
// the pressure is linear in ln r, so that K = Do^2 / (Do^2 - Di^2) - 1 / (2 ln(Do/Di)) with the pressure
// outside and 1 less that with it inside. Near 0.5 for a narrow face, which is the figure of the annex.
double parallel_gradient_factor(const Faces& faces);

}  // namespace pumpwright::seal
