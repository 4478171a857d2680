// Turning one standing reading into a number with its doubt, ready to be judged. Used only inside job/.
#pragma once

#include <limits>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "job/judgement.h"

namespace pumpwright::job {

// What a reading says before any limit is looked at.
struct Measurement {
  double value = 0;  // of the judged number, in the SI unit of the check's quantity
  double u = 0;      // standard uncertainty
  double dof = std::numeric_limits<double>::infinity();
  std::optional<double> graduation;
  double u_graduation = 0;
  double u_scatter = 0;
  bool never_negative = false;
  bool in_date = true;
  bool bounds_below_only = false;  // the smallest of several sizes: only a lower bound concerns it
  bool bounds_above_only = false;
};

// A reading, its numbers to be judged (one, or smallest and largest of a size), and what stands in the way.
struct MeasuredReading {
  JudgedReading shown;               // as_written, remarks, sweep, size; verdict still open
  std::vector<Measurement> numbers;  // empty when `blocked`
  std::optional<Reason> blocked;     // the reading can not prove anything, whatever its value
  std::optional<bool> kept;          // of a figure without a number: it is as it must be, or not
};

// What sheets came to in one judgement, by sheet and reading (empty where none is taken).
using SheetResults = std::map<std::pair<SheetOf, std::string>, std::shared_ptr<const SheetResult>>;

struct JudgeContext {
  const Snapshot& snapshot;
  const JobState& state;
  std::optional<Length> tried_length = std::nullopt;  // of the seal, in place of the measured one
  std::shared_ptr<SheetResults> sheets = std::make_shared<SheetResults>();
};

MeasuredReading measure(const Check& check, const Reading& reading,
                        const JudgeContext& in);  // value, size, sweep
MeasuredReading measure_sweep(const Check& check, const Reading& reading, const JudgeContext& in);
MeasuredReading measure_size(const Check& check, const Reading& reading, const JudgeContext& in);
MeasuredReading measure_value(const Check& check, const Reading& reading, const JudgeContext& in);

struct ChainMeasured {
  MeasuredReading measured;
  std::vector<ChainShare> shares;
};
ChainMeasured measure_chain(const Check& check, const JudgeContext& in);
MeasuredReading measure_elapsed(const Check& check, const JudgeContext& in);
MeasuredReading measure_preload(const Check& check, const JudgeContext& in);
MeasuredReading measure_service(const Check& check, const JudgeContext& in);

// The instrument a reading names. Throws BadInput when the shop has none of that id or it measures something
// else.
const ShopInstrument& instrument_of(const Reading& reading, Kind quantity, const Snapshot& snapshot);

const Unit* unit_of(const ShopInstrument& instrument);

// The same for the engine, with its being in date at the reading's time. SI numbers of any kind pass through
// as if they were lengths: the arithmetic of an uncertainty budget does not depend on the unit.
Instrument engine_instrument(const ShopInstrument& instrument, UtcTime at);

// The one number a chain takes from a check: the mean of sizes or repeats of its last standing reading.
struct MeanValue {
  double value_si = 0;
  double u_si = 0;
  bool in_date = true;         // of the instrument at the reading's time
  const Unit* unit = nullptr;  // of the instrument
};
std::optional<MeanValue> mean_of(const Check& check, const JudgeContext& in);

}  // namespace pumpwright::job
