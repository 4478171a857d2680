// Verdicts as shapes, so that they can be told apart in black and white, by touch of an eye, and by someone
// who cannot tell red from green:
//   pass       a full disc with a light tick
//   fail       a full square with a light diagonal cross
//   unproven   a diamond, its lower half full
//   not taken  an open ring
// A check released on an accepted deviation keeps its shape and gets a bar beneath it.
#pragma once

#include "job/judgement.h"
#include "report/canvas.h"

namespace pumpwright::report {

Colour colour_of(job::Verdict verdict);

// `size` is the width of the mark [pt]; at least 5 to be legible.
void draw_verdict_mark(Canvas& canvas, Point centre, double size, job::Verdict verdict,
                       bool deviation_accepted = false);

}  // namespace pumpwright::report
