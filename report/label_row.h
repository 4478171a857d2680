// Names along the edge of a picture, each near the thing it names, none over another.
#pragma once

#include <utility>
#include <vector>

namespace pumpwright::report {

// Where a name would like to stand and how much room it takes [pt].
struct LabelWish {
  double x = 0;
  double width = 0;
  double height = 0;
};

struct LabelSpot {
  double centre = 0;     // middle of the name
  double anchor = 0;     // where its leader arrives: the middle too
  double near_edge = 0;  // distance of the name from the picture's edge
  double width = 0;
  double height = 0;
};

struct LabelRow {
  std::vector<LabelSpot> spots;  // in the order of the wishes
  double height = 0;             // of all rows together
};

// The positions nearest to `wanted` (ascending, least squares) whose neighbours i and i+1 stand at least
// gaps[i] apart; gaps has as many entries as wanted, the last unused.
std::vector<double> spread_apart(const std::vector<double>& wanted, const std::vector<double>& gaps);

// Places names (wishes in ascending x) between two limits: in one row when they fit, else in as many as it
// takes, neighbours in different rows, so that a leader to a farther row passes between the names of the
// nearer ones.
LabelRow place_labels(const std::vector<LabelWish>& wishes, std::pair<double, double> limits);

}  // namespace pumpwright::report
