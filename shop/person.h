// Who works in the shop, and what each may do.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "job/text.h"

namespace pumpwright::shop {

enum class Role { technician, lead_hand, office, read_only };

std::string_view word_of(Role role);  // "technician", "lead-hand", "office", "read-only"
std::optional<Role> role_from(std::string_view word);
job::Text title_of(Role role);

// What an act needs; see `may`.
enum class Act {
  read,          // everyone
  open_job,      // technician, lead hand, office
  work,          // readings, steps, notes, photos, places: technician, lead hand
  release_hold,  // technician, lead hand; the fold refuses the one who did the step
  answer_for,    // deviations, release, reopening, the shop's own data and people: lead hand
};

bool may(Role role, Act act);

// A person of the shop. `id` is what the record calls them (their initials, as they sign); unique for all
// time, also after they left.
struct Person {
  std::string id;
  std::string name;
  Role role = Role::read_only;
  bool active = true;
  std::string public_key;   // Ed25519, hexadecimal
  std::string certificate;  // the shop's signature over the above; see certificate.h
};

}  // namespace pumpwright::shop
