// What the record says about a pump: a verdict with its reason for every check, and what is still open.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "engine/metrology/size.h"
#include "engine/metrology/sweep.h"
#include "engine/quantity/parse.h"
#include "job/job_state.h"
#include "job/snapshot.h"

namespace pumpwright::job {

struct SheetResult;

enum class Verdict { pass, fail, unproven, not_taken };

std::string_view word_of(Verdict verdict);  // "pass", "fail", "unproven", "not-taken"
Text title_of(Verdict verdict);

// Why. The codes are part of the published output and are never renamed.
enum class Reason {
  inside,                  // conformity proven
  outside,                 // non-conformity proven
  inside_uncertainty,      // the limit lies inside the measurement's uncertainty
  instrument_too_coarse,   // simple acceptance asks for a finer instrument than the one used
  not_taken,               // no reading yet
  input_missing,           // a chain or derived check lacks one of its inputs
  no_limit,                // nothing bounds this value for this make-up
  limit_unconfirmed,       // the deciding limit is remembered and nobody confirmed it
  limit_not_adopted,       // the deciding limit is common practice and the shop has not adopted it
  instrument_out_of_date,  // at the time of the reading
  setup_not_proven,        // push, release, tap: no zero return written down
  setup_moves,             // the zero did not return within half a graduation
  base_not_rigid,          // the base stood on something that moves
  mount_missing,           // nobody wrote down how the indicator sat
  wrong_mount,             // the indicator sat so that it measured something else
  bar_sag_not_measured,    // a bar carried by a horizontal shaft sags
  shaft_not_held,          // a face sweep with one indicator on a shaft free to float
  confirmed,               // a person has seen it
  refused,                 // a person has seen that it is not so
  not_computable,          // a figure it needs (friction, strength) is not known
  suits,                   // the two things go together
  does_not_suit,           // the two things must not meet
  pair_unknown,            // nobody says whether they go together
  test_proves_nothing,     // a bench test was not carried out so that it shows anything
  test_kept,               // a bench test shows what it must
  test_failed,             // it shows the contrary
};

std::string_view word_of(Reason reason);  // "inside", "inside-uncertainty", …
Text title_of(Reason reason);

// What would settle an unproven verdict.
struct Settle {
  Text text;
  std::optional<Length> graduation;  // an instrument at least this fine
};

// One standing reading of a check, judged.
struct JudgedReading {
  std::string reading_id;  // empty for a chain, elapsed time or preload
  std::string as_written;  // "12 points, −2 … +5 thou on dial-1"
  Verdict verdict = Verdict::not_taken;
  Reason reason = Reason::not_taken;
  std::optional<AnyQuantity> value;            // the judged number
  std::optional<double> standard_uncertainty;  // of it, in its SI unit
  std::optional<double> margin;                // distance to the nearest bound in SI, negative when outside
  std::optional<double> conformance_probability;
  std::optional<Settle> settle;
  std::vector<Text> remarks;  // suspects, missed TIR, closure, end float …
  std::optional<SweepResult> sweep;
  std::optional<SizeResult> size;
  std::shared_ptr<const SheetResult> sheet;  // what a bench test's sheet came to
  const Unit* unit = nullptr;                // the instrument's; null when none was used
  double instrument_graduation_si = 0;       // 0 when no instrument was used; sets how many digits are shown
};

// The unit in which people see a check's numbers: the instrument's, so that what is shown is what the hand
// wrote; else the deciding limit's; else one that suits the value.
const Unit& unit_to_show(const Check& check, const JudgedReading& reading);

struct ChainShare {
  Text name;
  double coefficient = 1;
  AnyQuantity value{Kind::length, 0};
  double standard_uncertainty = 0;
  double fraction = 0;  // of the variance of the sum
};

struct CheckFinding {
  std::string check;                     // id; the plan has the rest
  Verdict verdict = Verdict::not_taken;  // the worst of its readings: fail, then unproven, then pass
  Reason reason = Reason::not_taken;
  std::vector<JudgedReading> readings;
  std::vector<ChainShare> chain;
  bool deviation_accepted = false;
};

struct OpenPoint {
  std::string step;
  std::string check;  // empty when the step itself is open
  Text what;
};

struct Judgement {
  std::vector<CheckFinding> findings;  // in plan order, one for every check
  std::vector<OpenPoint> open;         // what stands between this pump and its release
  int passed = 0, failed = 0, unproven = 0, not_taken = 0;

  bool all_pass() const { return failed == 0 && unproven == 0 && not_taken == 0; }
  const CheckFinding* find(std::string_view check) const;
};

// Pure: the same snapshot and events always give the same judgement. Throws BadInput when the events do not
// fit the plan (see fold) or a reading can not be computed (too few points, …), naming the reading.
// `tried_length`: the seal's service is judged at this working length in place of the measured one.
Judgement judge(const Snapshot& snapshot, const JobState& state,
                std::optional<Length> tried_length = std::nullopt);

// One check alone; the rest of the job is not looked at unless the check is computed from it.
CheckFinding judge(const Snapshot& snapshot, const JobState& state, const Check& check);

}  // namespace pumpwright::job
