#include "shop/person.h"

#include <array>

namespace pumpwright::shop {
namespace {

struct RoleWords {
  Role role;
  std::string_view word;
  const char* en;
  const char* es;
};

constexpr std::array<RoleWords, 4> roles{{{Role::technician, "technician", "technician", "técnico"},
                                          {Role::lead_hand, "lead-hand", "lead hand", "encargado"},
                                          {Role::office, "office", "office", "oficina"},
                                          {Role::read_only, "read-only", "read only", "solo lectura"}}};

}  // namespace

std::string_view word_of(Role role) {
  return roles[static_cast<std::size_t>(role)].word;
}

std::optional<Role> role_from(std::string_view word) {
  for (const auto& r : roles)
    if (r.word == word) return r.role;
  return std::nullopt;
}

job::Text title_of(Role role) {
  const RoleWords& words = roles[static_cast<std::size_t>(role)];
  return {words.en, words.es};
}

bool may(Role role, Act act) {
  switch (act) {
    case Act::read:
      return true;
    case Act::open_job:
      return role != Role::read_only;
    case Act::work:
    case Act::release_hold:
      return role == Role::technician || role == Role::lead_hand;
    case Act::answer_for:
      return role == Role::lead_hand;
  }
  return false;
}

}  // namespace pumpwright::shop
