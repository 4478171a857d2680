// The half-section of a pump with its checks on it, to a stated scale.
//
// What turns and what stands have different fills; cut parts are hatched by part, shaft, key, fastener and
// springs are not cut, as is usual on sections. Parts whose size was not given are drawn in dashed outline.
// Every check's verdict sits at its place as a shape (verdict_mark.h); where places are crowded the shapes
// move apart and a dot with a short line keeps the true place. Thin leaders lead to the place's name; no two
// names overlap.
#pragma once

#include <string>
#include <vector>

#include "job/judgement.h"
#include "job/plan.h"
#include "job/section.h"
#include "job/text.h"
#include "report/canvas.h"

namespace pumpwright::report {

struct MarkedCheck {
  job::Verdict verdict = job::Verdict::not_taken;
  bool deviation_accepted = false;
};

// All checks of one place.
struct SectionMarker {
  std::string place;
  std::vector<MarkedCheck> checks;  // in plan order, at least one
};

// The checks of the plan, gathered by place in the order of the plan. Places the section does not have are
// left out.
std::vector<SectionMarker> section_markers(const job::Plan& plan, const job::Judgement& judgement,
                                           const job::Section& section);

// "1 : 2.5" for a picture smaller than the pump, "2 : 1" for a larger one. `ratio` is paper over pump.
std::string scale_text(double ratio);

// The largest usual drawing scale (paper over pump) at which width × height [m] fits into the room [pt].
double usual_scale(double width_m, double height_m, PageSize room);

// What of a section is drawn, with which checks on it.
struct SectionView {
  const job::Section& section;
  job::SectionWindow window;
  std::vector<SectionMarker> markers;  // those outside the window are left out
};

SectionView whole_view(const job::Section& section, std::vector<SectionMarker> markers);
// The seal enlarged.
SectionView seal_view(const job::Section& section, std::vector<SectionMarker> markers);

// Draws into the box, at least 200 × 180; what the picture does not need is left free at the box's foot.
// Returns the scale (paper over pump) and the height taken.
struct SectionDrawn {
  double ratio = 1;
  double height = 0;
};
SectionDrawn draw_section(Canvas& canvas, const Box& box, const SectionView& view, job::Language language);

}  // namespace pumpwright::report
