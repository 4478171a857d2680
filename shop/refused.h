// Why the shop does not do what was asked, apart from bad input (engine/quantity/bad_input.h) and a failing
// store (store/store_error.h).
#pragma once

#include <stdexcept>

#include "job/text.h"

namespace pumpwright::shop {

enum class Refusal {
  not_allowed,  // the person's role does not carry the act
  not_found,    // no such job, person, attachment
  conflict,     // it does not fit what stands now: a job number in use, a released job, open points
};

class Refused : public std::runtime_error {
 public:
  Refused(Refusal refusal, job::Text text)
      : std::runtime_error(text.en), refusal_(refusal), text_(std::move(text)) {}

  Refusal refusal() const { return refusal_; }
  const job::Text& text() const { return text_; }

 private:
  Refusal refusal_;
  job::Text text_;
};

}  // namespace pumpwright::shop
