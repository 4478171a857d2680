// What a seal's own sheet says of its faces and its spring: as hands write it in a job file, and as it is
// frozen with a plan.
#pragma once

#include <optional>

#include <nlohmann/json_fwd.hpp>

#include "engine/quantity/parse.h"
#include "engine/seal/face_geometry.h"
#include "engine/seal/tracking.h"
#include "job/json_reader.h"

namespace pumpwright::job {

struct SealSheet {
  Written outer_diameter, inner_diameter;  // of the contact between the faces
  Written balance_diameter;                // that the pressed liquid acts on from behind
  bool pressed_outside = true;             // the liquid stands outside the faces
  seal::HeadStyle head = seal::HeadStyle::turning;
  std::optional<Written> spring_force;  // at the nominal working length
  std::optional<Written> spring_rate;
  std::optional<Written> force_lower, force_upper;          // what the spring may press with
  std::optional<Written> ring_length, seat_length;          // axial, of the two faces' parts
  std::optional<Written> pv_limit;                          // of net face pressure times sliding speed
  std::optional<Written> seat_face_outer, seat_face_inner;  // diameters of the seat's flat face
  std::optional<Written> ring_mass;                         // of the face that a standing head has to tip
};

seal::Faces faces_of(const SealSheet& sheet);

// Of a job file's `seal.sheet`. Throws BadInput for anything missing, unknown, of the wrong kind or that
// makes no pair of faces.
SealSheet decode_seal_sheet(const JsonReader& json);

// In a frozen plan. What a sheet frozen by an earlier version lacks is left open.
nlohmann::json encode_seal_sheet(const SealSheet& sheet);
SealSheet decode_frozen_seal_sheet(const JsonReader& at);

}  // namespace pumpwright::job
