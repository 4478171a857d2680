// Finds what the catalog knows about a fastener: thread, strength, friction.
#pragma once

#include <optional>
#include <string>

#include "catalog/catalog.h"
#include "job/snapshot.h"

namespace pumpwright::job {

// What a fastener is called at the bench: "1/2-13", "SAE 5" or "ISO 8.8", "dry".
struct FastenerWords {
  std::string thread;
  std::string grade;
  std::string condition;
};

// Nothing when the catalog has no friction figure for the condition (a locking compound: take K from its
// sheet). Throws BadInput (place: `place` and the word's name) for a thread, grade or condition the catalog
// does not have, or a grade that is not made in that size.
std::optional<FastenerFigures> find_fastener(const FastenerWords& words, const Catalog& catalog,
                                             const std::string& place);

}  // namespace pumpwright::job
