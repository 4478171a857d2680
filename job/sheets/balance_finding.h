// What a rotor needs to be in balance, found from its sheet.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/rotor/balance_places.h"
#include "engine/rotor/balance_solution.h"
#include "engine/rotor/balance_trial.h"
#include "engine/rotor/balance_verdict.h"
#include "job/sheets/balance_sheet.h"

namespace pumpwright::job {

// What to do in one plane.
struct PlaneCorrection {
  rotor::UnbalanceVector add;           // to be added; taking out the same opposite does as well
  Mass mass;                            // at the plane's radius
  std::vector<rotor::PlaceLoad> parts;  // between permitted places; of what is drilled or ground: the places
                                        // of the holes or pads
  std::optional<rotor::WeightChoice> chosen;  // from the weights at hand
  std::vector<std::optional<rotor::Holes>>
      holes;                           // for each part; absent: the permitted depth does not reach
  std::vector<rotor::GroundPad> pads;  // for each part
};

// One judged amount: a correction plane, or a bearing.
struct JudgedUnbalance {
  std::string where;
  rotor::BalanceVerdict verdict;
  Angle place;  // of the heavy side
};

// What other weights than the first run's did.
struct TrialEffect {
  std::string run;
  bool enough = false;  // on one sensor at least
  std::vector<rotor::VibrationChange> on_sensor;
};

struct TrialAdvice {
  Mass mass;
  Force force;  // of that mass, at the speed of the runs
};

struct BalanceFinding {
  Length eccentricity;
  rotor::Unbalance permissible;
  bool grade_is_listed = true;
  std::optional<rotor::BearingTolerance> at_bearings;
  std::vector<TrialAdvice> trial;    // for each plane
  std::vector<TrialEffect> effects;  // of each run with other weights than the first, against it
  std::vector<rotor::SensorInfluence> influence;
  std::optional<rotor::BalanceSolution> solution;  // absent: too few runs
  std::vector<PlaneCorrection> corrections;        // for each plane
  std::vector<JudgedUnbalance> judged;
  std::optional<rotor::KeyUnbalance> key;
  // "pass", "fail", "unproven"; empty when there are no runs. The reason is a code of decision.h or one of
  // "uncertainty-not-known", "planes-not-told-apart", "limit-unconfirmed", "trial-runs-wanted".
  std::string verdict;
  std::string reason;
};

// BadInput as the engine's.
BalanceFinding balance_finding(const BalanceSheet& sheet);

}  // namespace pumpwright::job
