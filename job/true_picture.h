// What is out, as a picture: the parts of one chain to scale along the axis, each where its errors put it in
// the plane that shows most, with the errors drawn larger by a stated factor.
#pragma once

#include <vector>

#include "job/make_up.h"
#include "job/true_finding.h"

namespace pumpwright::job {

template <class Chain>
struct DrawnPart {
  typename Chain::Part part{};
  Length from{}, to{};          // along the axis, from the mounting face towards the impeller
  Length radius{};              // of its outline
  Length off_from{}, off_to{};  // its centre off the turning axis at both ends, in the plane, true size
};

template <class Chain>
struct TruePicture {
  std::vector<DrawnPart<Chain>> parts;  // those whose sizes the make-up gives
  typename Chain::Direction up{};       // which way the picture's up is
  double magnification = 1;             // of what is off the axis: 1, 2 or 5 times a power of ten
};

// The plane is that of the sweep farthest out beside its limit. Without sizes `parts` is empty.
TruePicture<true_running::Rotating> picture_of(const TrueQuestion<true_running::Rotating>& question,
                                               const TrueFinding<true_running::Rotating>& finding,
                                               const MakeUp& make_up);
TruePicture<true_running::Standing> picture_of(const TrueQuestion<true_running::Standing>& question,
                                               const TrueFinding<true_running::Standing>& finding,
                                               const MakeUp& make_up);

}  // namespace pumpwright::job
