// The polar picture of a sweep: readings about their mean, magnified as stated, with the fitted circle, the
// limit, and the high spot where one may be claimed.
//
// Place 0 is up and places rise clockwise. For a turning part 0 is its keyway, drawn as a notch; for a
// standing part it is the top, seen from the impeller end, drawn as a pointer, with clock positions. The
// grey ring is the mean of the readings about the axis the sweep turned about; every departure from it is
// magnified alike, so the centre of the fitted circle stands off the axis by the magnified eccentricity.
//   limit on TIR          a band as wide as the limit, laid so that it holds the readings if it can
//   limit on eccentricity a disc about the axis that must hold the fitted circle's centre
// No direction is drawn when none is known; the caption says why.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "job/check.h"
#include "job/judgement.h"
#include "job/text.h"
#include "report/canvas.h"

namespace pumpwright::report {

struct PolarPoint {
  double place_deg = 0;
  double deviation_m = 0;
  bool suspect = false;
};

struct PolarGap {
  double from_deg = 0;
  double to_deg = 0;
};

// Where the fitted circle's centre lies off the axis [m].
struct PolarCentre {
  double towards_0_m = 0;
  double towards_90_m = 0;
  double mean_m = 0;
};

enum class PolarLimitOn { tir, eccentricity };

struct PolarLimit {
  PolarLimitOn on = PolarLimitOn::tir;
  double size_m = 0;
};

enum class Direction { claimed, mount_missing, not_distinguishable };

struct PolarPlot {
  std::string id;  // of the check, and of the reading when the check has several
  std::string title;
  job::Verdict verdict = job::Verdict::not_taken;
  bool deviation_accepted = false;
  job::Turning turning = job::Turning::rotating;
  std::vector<PolarPoint> points;
  std::vector<PolarGap> gaps;
  std::optional<PolarCentre> centre;
  std::optional<PolarLimit> limit;
  Direction direction = Direction::mount_missing;
  double high_spot_deg = 0;                    // used when claimed
  std::optional<double> high_spot_spread_deg;  // twice its standard uncertainty
  std::vector<std::string> caption;            // lines under the picture: values, limit
};

// One picture for every standing sweep reading of the record, in plan order. Checks that are judged from
// another check's sweep add their values to that picture's caption; its limit is the first one found.
std::vector<PolarPlot> polar_plots(const job::Plan& plan, const job::JobState& state,
                                   const job::Judgement& judgement, job::Language language);

// Departures × this on paper: a round number (1, 1.5, 2, 2.5, 3, 4, 5, 6, 8 times a power of ten) with which
// `largest_m` fits into `room_pt`. 1 when there is nothing to magnify.
double usual_magnification(double largest_m, double room_pt);

// Height the picture takes at this width [pt].
double polar_height(Canvas& canvas, double width, const PolarPlot& plot, job::Language language);
void draw_polar(Canvas& canvas, Point at, double width, const PolarPlot& plot, job::Language language);

}  // namespace pumpwright::report
