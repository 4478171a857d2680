// How a true-running answer is said to people: lengths, leans and directions in the words of the bench, and a
// sentence for each thing that can be wrong.
#pragma once

#include <string>

#include "engine/assembly/true_remedy.h"
#include "engine/quantity/unit.h"

namespace pumpwright {

class TrueWords {
 public:
  explicit TrueWords(const Unit& unit) : unit_(unit) {}

  std::string length(Length l) const;                        // "9.0 thou"
  std::string lean(Angle tilt) const;                        // "6.0 thou per inch", "0.60 mm per 100 mm"
  static std::string place(true_running::FromKeyway at);     // "120° from the keyway"
  static std::string place(true_running::ClockPosition at);  // "10 o'clock", "9:30"

  // What is wrong: "the sleeve is not home: …". No capital, no full stop.
  template <class Chain>
  std::string wrong(const true_running::Blame<Chain>& blame) const;
  // What to do about it: one or two sentences.
  template <class Chain>
  std::string advice(const true_running::Blame<Chain>& blame) const;
  // All of a hypothesis: "nothing is out beyond the ordinary", or its blames joined.
  template <class Chain>
  std::string wrong(const true_running::Hypothesis<Chain>& hypothesis) const;

  // What a remedy does. No full stop.
  std::string doing(const true_running::Remedy<true_running::Rotating>& remedy,
                    const true_running::RotatingMoves& moves) const;
  std::string doing(const true_running::Remedy<true_running::Standing>& remedy) const;

 private:
  const Unit& unit_;
};

const char* name_of(true_running::Rotating::Part part);  // "shaft"
const char* name_of(true_running::Standing::Part part);

}  // namespace pumpwright
