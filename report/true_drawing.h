// Which part is out, as the record keeps it: the parts of a chain to scale with their errors drawn larger by
// a stated factor, and beside them what was found, the sweeps, and the work that was advised.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "job/job_state.h"
#include "job/judgement.h"
#include "job/snapshot.h"
#include "job/text.h"
#include "report/canvas.h"

namespace pumpwright::report {

struct TrueDrawing {
  // Along and across the turning axis [m]; off it in true size.
  struct Part {
    double from = 0, to = 0, radius = 0, off_from = 0, off_to = 0;
  };
  struct Sweep {
    std::string title, reading;  // "Impeller sweep", "9.0 thou of 7.0 thou, 120° from the keyway"
  };

  std::string id;  // "turning" or "standing"
  std::string title, found;
  std::string advised;  // empty while every sweep keeps to its limit
  std::vector<Sweep> sweeps;
  std::vector<Part> parts;
  bool standing = false;
  double magnification = 1;
  std::string up;       // which way the picture's up is
  std::string caption;  // that says the magnification
};

// One for each chain that was swept and whose sizes the make-up gives.
std::vector<TrueDrawing> true_drawings(const job::Snapshot& snapshot, const job::JobState& state,
                                       const job::Judgement& judgement, job::Language language);

double true_height(Canvas& canvas, double width, const TrueDrawing& drawing);
void draw_true(Canvas& canvas, Point at, double width, const TrueDrawing& drawing);

}  // namespace pumpwright::report
