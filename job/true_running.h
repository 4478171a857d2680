// From a job's sweeps to the stations of its two chains: which place each check sweeps, how far out along the
// axis that is by this make-up, and what its limit is there.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "job/judgement.h"
#include "job/true_finding.h"

namespace pumpwright::job {

// A sweep that says nothing here, and why.
struct SweepLeftOut {
  std::string check;  // empty: not one check only
  Text what;          // its title, or the parts that are left out
  Text why;
};

struct JobTrueRunning {
  TrueQuestion<true_running::Rotating> rotating;  // without stations when nothing of the chain was swept
  TrueQuestion<true_running::Standing> standing;
  // What was known before the last remedy a sweep names, with `after`: the sweeps since.
  std::optional<TrueQuestion<true_running::Rotating>> rotating_before;
  std::optional<TrueQuestion<true_running::Standing>> standing_before;
  std::vector<SweepLeftOut> left_out;
  std::vector<Text> assumed;           // what the job does not say and was taken instead
  std::map<std::string, Text> titles;  // of the stations, whose ids are those of their checks
  const Unit* unit = nullptr;          // of the first sweep's instrument
};

// The sweeps that stand; of several of one check the last one taken, and none of a part that was moved since
// (SweepRemedy). A sweep whose place needs a size the
// make-up does not give is left out, naming the size; so is one that says no direction (no mount, the wrong
// mount, a base that moves, a shaft not held).
JobTrueRunning true_running_of(const Snapshot& snapshot, const JobState& state, const Judgement& judgement);

// The question of one chain.
template <class Chain>
const TrueQuestion<Chain>& question_of(const JobTrueRunning& in);
template <>
const TrueQuestion<true_running::Rotating>& question_of(const JobTrueRunning& in);
template <>
const TrueQuestion<true_running::Standing>& question_of(const JobTrueRunning& in);

// What a chain's sweeps say now, and beside it how the last remedy came out. Throws as `answer`; the chain
// must have stations.
template <class Chain>
TrueFinding<Chain> finding_of(const JobTrueRunning& in);
template <>
TrueFinding<true_running::Rotating> finding_of(const JobTrueRunning& in);
template <>
TrueFinding<true_running::Standing> finding_of(const JobTrueRunning& in);

}  // namespace pumpwright::job
