// The faces of a seal in their service: film, pressure of the liquid, pressure of the summits in touch and
// temperature along the face, one above the other, from the inside out.
//
// Each has its own scale and says it. The numbers that decide stand beside the picture.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "job/job_state.h"
#include "job/snapshot.h"
#include "job/text.h"
#include "report/canvas.h"

namespace pumpwright::report {

struct FaceCurve {
  std::string title;           // "film, µm"
  std::vector<double> values;  // one for each radius
};

struct FacePicture {
  std::vector<double> radii_m;  // rising
  std::string inside, outside;  // the radii at the ends, as printed
  std::vector<FaceCurve> curves;
  std::vector<std::pair<std::string, std::string>> numbers;  // name and value
};

// Nothing for a job whose seal has no film that could be found.
std::optional<FacePicture> face_picture(const job::Snapshot& snapshot, const job::JobState& state,
                                        job::Language language);

double face_height(const FacePicture& picture);
void draw_face(Canvas& canvas, Point at, double width, const FacePicture& picture);

}  // namespace pumpwright::report
