// Whether two things of the make-up go together: lubricant and elastomer, liquid and elastomer, the two
// faces, a coil's or a thread's hand and the turning direction. Asked when the plan is made, and frozen with
// it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "catalog/catalog.h"
#include "job/check.h"
#include "job/make_up.h"

namespace pumpwright::job {

struct FoundPairing {
  Pairing pairing;
  std::optional<Limit> rule;  // what says so; absent when nobody says anything
};

// Rows of the elastomer table by the name of ISO 1629. A name without its cure ("EPDM") means every cure of
// it, in the table's order.
std::vector<const Row*> elastomers_named(const Catalog& catalog, const std::string& name);

// The seal's row of the table of face pairs, whichever of the two turns; null when the table does not have
// it.
const Row* face_pair_of(const Seal& seal, const Catalog& catalog);

// What catalog and make-up say of `pair`. Things that neither knows go together `unknown`, never by default.
FoundPairing find_pairing(Pair pair, const MakeUp& make_up, const Catalog& catalog);

}  // namespace pumpwright::job
