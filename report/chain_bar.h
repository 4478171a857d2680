// The stack-up bar: how the links of a dimension chain add up to the installed value, and where that value
// stands against its limit.
//
// Upper part, to one scale: every link as a bar from where the sum stood to where it stands then, pointing
// the way it counts; the last bar is the sum. Lower part, magnified as stated: the limit as a window, the sum
// with twice its standard uncertainty.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "job/check.h"
#include "job/judgement.h"
#include "job/text.h"
#include "report/canvas.h"

namespace pumpwright::report {

struct ChainLinkBar {
  std::string name;
  double signed_value_m = 0;  // coefficient times value
  std::string value;          // as printed
  double fraction = 0;        // of the variance of the sum
};

struct ChainBar {
  std::string id;  // of the check
  std::string title;
  job::Verdict verdict = job::Verdict::not_taken;
  bool deviation_accepted = false;
  std::vector<ChainLinkBar> links;
  std::optional<double> sum_m;  // absent when a link is missing
  double uncertainty_m = 0;     // standard
  std::optional<double> lower_m, upper_m;
  std::string sum, sum_with_doubt, lower, upper;  // as printed
};

std::vector<ChainBar> chain_bars(const job::Plan& plan, const job::Judgement& judgement,
                                 job::Language language);

double chain_height(Canvas& canvas, double width, const ChainBar& bar);
void draw_chain(Canvas& canvas, Point at, double width, const ChainBar& bar, job::Language language);

}  // namespace pumpwright::report
