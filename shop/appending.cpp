#include "shop/appending.h"

#include "engine/quantity/bad_input.h"
#include "job/utc_time.h"
#include "shop/refused.h"

namespace pumpwright::shop {

store::Appended appended_or_throw(store::EventLog& events, const store::Append& append) {
  return appended_or_throw(events.append(append));
}

store::Appended appended_or_throw(store::AppendResult result) {
  if (auto* done = std::get_if<store::Appended>(&result)) return std::move(*done);
  if (const auto* malformed = std::get_if<store::Malformed>(&result))
    throw BadInput({.field = malformed->field, .place = "", .value = "", .expected = malformed->valid});
  if (const auto* reused = std::get_if<store::KeyReused>(&result))
    throw BadInput(
        {.field = "key", .place = "", .value = reused->key, .expected = "a key that no other event has"});
  throw Refused(Refusal::conflict, {"Something else was written at the same moment; try again.",
                                    "Otra cosa se escribió en el mismo momento; inténtelo de nuevo."});
}

std::string second_text(std::int64_t now_ms) {
  return job::format_utc_time({now_ms / 1000});
}

}  // namespace pumpwright::shop
