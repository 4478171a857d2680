// Does the pump keep its guarantee: every grade at once, with the chance that it does.
//
// At the guarantee point (QG, HG) stands a cross, its bars as long as the tolerances. Head and flow are met
// when the measured H(Q) cuts or touches one of the bars (read). Efficiency, and power (remembered), are
// taken where H(Q) meets the straight line from the origin through the guarantee point (read): η ≥ ηG (1 +
// τη), P ≤ PG (1 + τP).
//
// For a curve that falls through the cross this is the same as two margins in head, which unlike a yes or no
// can be propagated: it must not lie below both lower ends (at QG, and at QG's lower flow against HG) nor
// above both upper ends. A bar that reaches outside the tested flows counts as far as the tests reach.
#pragma once

#include <optional>
#include <vector>

#include "engine/hydraulics/acceptance_grade.h"
#include "engine/hydraulics/performance_test.h"
#include "engine/metrology/decision.h"

namespace pumpwright::hydraulics {

struct Guarantee {
  VolumeFlow flow;                   // at the rated speed; within the tested flows, over 0
  Length head;                       // over 0
  std::optional<Power> shaft_power;  // over 0
  std::optional<double> efficiency;  // over 0, at most 1
};

enum class Criterion { not_too_low, not_too_high, power, efficiency };

// Whose word a grade's figures are: remembered figures decide nothing until confirmed.
struct GradeRule {
  bool confirmed = false;  // somebody compared the figures with the standard
  // Guarded: proven against the uncertainty (pass and fail each to `probability`). Standard: the value
  // decides as it stands, since the tolerances hold the measurement's share, provided that the measurement is
  // no worse than the grade permits.
  enum class Kind { guarded, standard } kind = Kind::guarded;
  double probability = 0.95;
  std::optional<Tolerance> own;  // figures of the contract in place of the grade's
};

struct CriterionFinding {
  Criterion criterion;
  Figure margin;  // [m], [W] or a part of 1; positive: met
  Outcome outcome = Outcome::unproven;
  double chance = 0;  // that it is met, by the law of propagation
};

enum class GradeReason {
  met,
  not_met,
  within_uncertainty,   // guarded: a margin lies inside its uncertainty
  measured_too_coarse,  // standard rule: uncertainty over what the grade permits
  line_not_reached,  // power or efficiency is guaranteed, and the tests do not reach the line from the origin
  limit_unconfirmed,  // the figures are remembered; `by_figures` says what they would give
};

struct GradeFinding {
  Grade grade;
  Tolerance tolerance;
  std::vector<CriterionFinding> criteria;
  Outcome by_figures = Outcome::unproven;  // as if the figures were confirmed
  Outcome verdict = Outcome::unproven;
  GradeReason reason = GradeReason::within_uncertainty;
  double chance = 0;  // that all criteria are met: 1 - Σ(1 - p), a lower bound that takes no independence
};

struct AcceptanceFinding {
  Figure head_at_flow;                      // H(QG) [m]
  std::optional<Figure> flow_at_head;       // Q where H = HG [m³/s]
  std::optional<Figure> line_flow;          // where H(Q) meets the line from the origin [m³/s]
  std::optional<Figure> efficiency, power;  // there
  std::vector<Share> shares;                // of the variance of head_at_flow
  std::vector<GradeFinding> grades;         // in the order of all_grades; `small` only for 1 to 10 kW
};

// BadInput "flow" when the guarantee's flow was not tested, "head", "power", "efficiency".
AcceptanceFinding judge_acceptance(const PerformanceModel& model, const Guarantee& guarantee,
                                   const GradeRule& rule);

// The margins of one set of criteria over displaced curves; what both ways of propagation evaluate.
class MarginSet {
 public:
  // BadInput as judge_acceptance.
  MarginSet(const PerformanceModel& model, const Guarantee& guarantee, const GradeRule& rule);

  struct Entry {
    std::size_t grade;  // index into grades()
    Criterion criterion;
  };
  const std::vector<Grade>& grades() const { return grades_; }
  const std::vector<Tolerance>& tolerances() const { return tolerances_; }
  const std::vector<Entry>& entries() const { return entries_; }
  std::optional<double> line_flow_m3_s() const { return line_flow_; }
  void margins(const PumpCurves& curves, std::span<double> out) const;  // one value an entry

 private:
  double qg_, hg_;
  Guarantee guarantee_;
  std::vector<Grade> grades_;
  std::vector<Tolerance> tolerances_;
  std::vector<Entry> entries_;
  std::vector<bool> low_arm_, high_arm_;  // of each grade: the bar's end was tested
  std::optional<double> line_flow_;
};

// "not-too-low", "not-too-high", "power", "efficiency".
const char* word_for(Criterion criterion);
// "met", "not-met", "within-uncertainty", "measured-too-coarse", "line-not-reached",
// "limit-unconfirmed".
const char* word_for(GradeReason reason);

}  // namespace pumpwright::hydraulics
