#include "job/seal_sheet.h"

#include <array>
#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

#include "engine/quantity/bad_input.h"
#include "job/decode.h"
#include "job/plan_json.h"

namespace pumpwright::job {
namespace {

struct Size {
  std::string_view key;
  Written SealSheet::*of;
};
constexpr std::array sizes{Size{"outer_diameter", &SealSheet::outer_diameter},
                           Size{"inner_diameter", &SealSheet::inner_diameter},
                           Size{"balance_diameter", &SealSheet::balance_diameter}};

// What a sheet may leave out.
struct Figure {
  std::string_view key;
  Kind kind;
  std::optional<Written> SealSheet::*of;
};
constexpr std::array figures{Figure{"spring_force", Kind::force, &SealSheet::spring_force},
                             Figure{"spring_rate", Kind::spring_rate, &SealSheet::spring_rate},
                             Figure{"force_lower", Kind::force, &SealSheet::force_lower},
                             Figure{"force_upper", Kind::force, &SealSheet::force_upper},
                             Figure{"ring_length", Kind::length, &SealSheet::ring_length},
                             Figure{"seat_length", Kind::length, &SealSheet::seat_length},
                             Figure{"pv_limit", Kind::pressure_velocity, &SealSheet::pv_limit},
                             Figure{"seat_face_outer", Kind::length, &SealSheet::seat_face_outer},
                             Figure{"seat_face_inner", Kind::length, &SealSheet::seat_face_inner},
                             Figure{"ring_mass", Kind::mass, &SealSheet::ring_mass}};

constexpr std::string_view word_of(seal::HeadStyle head) {
  return head == seal::HeadStyle::turning ? "turning" : "standing";
}

seal::HeadStyle decode_head(const JsonReader& json) {
  return json.word({"turning", "standing"}) == "turning" ? seal::HeadStyle::turning
                                                         : seal::HeadStyle::stationary;
}

// The first is not larger than the second, where both are given.
void want_order(const JsonReader& json, const std::optional<Written>& first,
                const std::optional<Written>& second, std::string_view second_key, const char* expected) {
  if (first && second && second->si < first->si) json.required(second_key).refuse(expected);
}

void want_faces(const JsonReader& json, const SealSheet& sheet) {
  if (sheet.inner_diameter.si >= sheet.outer_diameter.si)
    json.required("inner_diameter").refuse("smaller than \"outer_diameter\"");
  // Beyond these a face would be pressed apart or harder than by the whole area twice: a slip of the hand.
  const double least = 0.5 * sheet.inner_diameter.si, most = 1.5 * sheet.outer_diameter.si;
  if (sheet.balance_diameter.si < least || sheet.balance_diameter.si > most)
    json.required("balance_diameter").refuse("a diameter close to those of the faces");
  try {
    const seal::Faces faces = faces_of(sheet);
    seal::require_valid(faces, "sheet");
    if (seal::balance_ratio(faces) <= 0)
      json.required("balance_diameter").refuse("a diameter with which the liquid presses the faces together");
  } catch (const BadInput& e) {
    if (!e.what_was_wrong().place.empty()) throw;
    throw e.at(json.pointer());
  }
}

void want_in_order(const JsonReader& json, const SealSheet& sheet) {
  want_faces(json, sheet);
  want_order(json, sheet.force_lower, sheet.force_upper, "force_upper", "not smaller than \"force_lower\"");
  if (sheet.seat_face_outer.has_value() != sheet.seat_face_inner.has_value())
    json.required(sheet.seat_face_outer ? "seat_face_outer" : "seat_face_inner")
        .refuse("both diameters of the seat's face, or neither");
  if (sheet.seat_face_outer && sheet.seat_face_inner->si >= sheet.seat_face_outer->si)
    json.required("seat_face_inner").refuse("smaller than \"seat_face_outer\"");
  if (sheet.head == seal::HeadStyle::stationary && !sheet.ring_mass)
    json.required("head").refuse("\"turning\", or \"standing\" together with \"ring_mass\"");
}

std::vector<std::string_view> known_keys() {
  std::vector<std::string_view> keys{"liquid", "head"};
  for (const auto& size : sizes)
    keys.push_back(size.key);
  for (const auto& figure : figures)
    keys.push_back(figure.key);
  return keys;
}

}  // namespace

seal::Faces faces_of(const SealSheet& sheet) {
  return {metres(sheet.outer_diameter.si), metres(sheet.inner_diameter.si), metres(sheet.balance_diameter.si),
          sheet.pressed_outside ? seal::PressureSide::outside : seal::PressureSide::inside};
}

SealSheet decode_seal_sheet(const JsonReader& json) {
  json.allow_only(known_keys());
  SealSheet sheet;
  for (const auto& size : sizes)
    sheet.*size.of = decode_positive_length(json.required(size.key));
  if (const auto liquid = json.optional("liquid"))
    sheet.pressed_outside = liquid->word({"outside", "inside"}) == "outside";
  if (const auto head = json.optional("head")) sheet.head = decode_head(*head);
  for (const auto& figure : figures)
    if (const auto at = json.optional(figure.key)) sheet.*figure.of = decode_positive(*at, figure.kind);
  want_in_order(json, sheet);
  return sheet;
}

nlohmann::json encode_seal_sheet(const SealSheet& sheet) {
  nlohmann::json out{{"pressed_outside", sheet.pressed_outside}, {"head", word_of(sheet.head)}};
  for (const auto& size : sizes)
    out[std::string(size.key)] = encode_written(sheet.*size.of);
  for (const auto& figure : figures)
    if (sheet.*figure.of) out[std::string(figure.key)] = encode_written(*(sheet.*figure.of));
  return out;
}

SealSheet decode_frozen_seal_sheet(const JsonReader& at) {
  SealSheet sheet;
  sheet.pressed_outside = at.required("pressed_outside").boolean();
  if (const auto head = at.optional("head")) sheet.head = decode_head(*head);
  for (const auto& size : sizes)
    sheet.*size.of = decode_frozen(at.required(size.key));
  for (const auto& figure : figures) {
    const auto written = at.optional(figure.key);
    if (written && !written->raw().is_null()) sheet.*figure.of = decode_frozen(*written);
  }
  return sheet;
}

}  // namespace pumpwright::job
