#include "engine/seal/face_geometry.h"

#include <cmath>

#include "engine/assembly/input_check.h"

namespace pumpwright::seal {
namespace {

double square(Length d) {
  return d.value() * d.value();
}

double ring_m2(const Faces& faces) {
  return square(faces.outer_diameter) - square(faces.inner_diameter);
}

}  // namespace

void require_valid(const Faces& faces, const std::string& place) {
  const double outer_m = faces.outer_diameter.value();
  const double inner_m = faces.inner_diameter.value();
  const double balance_m = faces.balance_diameter.value();
  require_between(outer_m, 0.005, 0.5, place + "/outer_diameter", "an outer diameter from 5 mm to 500 mm");
  require_that(inner_m > 0 && inner_m < outer_m, inner_m, place + "/inner_diameter",
               "a diameter over 0 and below the outer diameter of the face");
  require_that(balance_m > 0.5 * inner_m && balance_m < 1.5 * outer_m, balance_m, place + "/balance_diameter",
               "a diameter over half the inner and below 1.5 times the outer diameter of the face");
}

Area face_area(const Faces& faces) {
  require_valid(faces);
  return square_metres(pi / 4 * ring_m2(faces));
}

double balance_ratio(const Faces& faces) {
  require_valid(faces);
  if (faces.pressure == PressureSide::outside)
    return (square(faces.outer_diameter) - square(faces.balance_diameter)) / ring_m2(faces);
  return (square(faces.balance_diameter) - square(faces.inner_diameter)) / ring_m2(faces);
}

Length mean_diameter(const Faces& faces) {
  require_valid(faces);
  return (faces.outer_diameter + faces.inner_diameter) / 2.0;
}

Length face_width(const Faces& faces) {
  require_valid(faces);
  return (faces.outer_diameter - faces.inner_diameter) / 2.0;
}

double parallel_gradient_factor(const Faces& faces) {
  require_valid(faces);
  const double outside = square(faces.outer_diameter) / ring_m2(faces) -
                         0.5 / std::log(faces.outer_diameter / faces.inner_diameter);
  return faces.pressure == PressureSide::outside ? outside : 1 - outside;
}

}  // namespace pumpwright::seal
