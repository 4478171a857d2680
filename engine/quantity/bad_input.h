// The one error a user can cause: something that was handed in can not be used as it stands.
#pragma once

#include <stdexcept>
#include <string>

namespace pumpwright {

// Names the field, where it was read, what stood there and what would be valid. The message is a single line.
// Programmers' mistakes are assertions; an expected absence is std::optional; everything else a user gets
// wrong is this.
class BadInput : public std::runtime_error {
 public:
  struct What {
    std::string field;     // the name the user knows it by, e.g. "reading", "--limit", "make_up.speed"
    std::string place;     // file and line, or JSON pointer; empty when it came from the command line
    std::string value;     // what was read, shortened to 80 characters
    std::string expected;  // what would be valid, as a phrase: "a length such as 7 thou or 0.18 mm"
  };

  explicit BadInput(What what);

  const What& what_was_wrong() const { return what_; }

  // The same error with a place in front of the present one ("job.json" + "/readings/3"). Used while it
  // travels outwards.
  BadInput at(const std::string& outer_place) const;

 private:
  What what_;
};

}  // namespace pumpwright
