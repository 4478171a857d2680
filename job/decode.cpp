#include "job/decode.h"

#include "engine/quantity/bad_input.h"

namespace pumpwright::job {

Written decode_written(const JsonReader& json, Kind kind, const Unit* default_unit) {
  const std::string text = json.text(256);
  try {
    return parse_written(text, kind, {.field = json.field(), .default_unit = default_unit});
  } catch (const BadInput& e) {
    throw e.at(json.pointer());
  }
}

Written decode_positive(const JsonReader& json, Kind kind, const Unit* default_unit) {
  Written w = decode_written(json, kind, default_unit);
  if (w.si <= 0) json.refuse("above zero");
  return w;
}

Written decode_positive_length(const JsonReader& json) {
  return decode_positive(json, Kind::length);
}

}  // namespace pumpwright::job
