#include "server/first_start.h"

#include "server/random_token.h"

namespace pumpwright::server {

bool FirstStart::open() const {
  const std::lock_guard lock(mutex_);
  return !code_.empty();
}

bool FirstStart::matches(std::string_view typed) const {
  const std::lock_guard lock(mutex_);
  return !code_.empty() && same_token(code_as_compared(typed), code_as_compared(code_));
}

void FirstStart::used() {
  const std::lock_guard lock(mutex_);
  code_.clear();
}

}  // namespace pumpwright::server
