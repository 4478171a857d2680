// The steps a plan can be made of, as the data files under catalog/data/steps write them: texts in every
// language, the make-ups they are for, their checks, and where each check's limits come from. docs/steps.md
// explains the format.
#pragma once

#include <optional>
#include <set>
#include <span>
#include <string>
#include <vector>

#include "catalog/catalog.h"
#include "job/plan.h"

namespace pumpwright::job {

// All of `when` and none of `unless` must be among the make-up's tags.
struct Condition {
  std::vector<std::string> when;
  std::vector<std::string> unless;

  bool holds(const std::set<std::string>& tags) const;
};

// Where a bound's value is found. Exactly one of the three ways is used.
struct BoundFrom {
  // A catalog table. One of: `row` names the row; `group` takes every row of a group (sources that disagree);
  // `at` names the dimension whose size chooses the rows of a table of ranges; `frame` takes the driver's own
  // row.
  std::string table, row, group, at;
  bool frame = false;
  std::string column;
  std::string
      below;  // a dimension the value is taken off ("nothing above nominal, 2 thou below"); empty: none
  std::string fit_at;  // the cells `hole` and `shaft` of a fits table give the clearance at this dimension;
                       // see `part`
  std::string times;   // a dimension the value is multiplied by ("0.0005 in per in of bore"); empty: none

  std::string dimension;  // a dimension of the make-up
  // "nominal", "lower" or "upper" of the dimension; of the clearance for `fit_at`; of the size for an ISO 286
  // class
  std::string part;

  std::string text;      // a value as hands write it
  std::string fastener;  // "torque-lower" or "torque-upper" of the make-up's fastener
  std::string sheet;     // "force-lower", "force-upper" or "pv-limit" of the seal's sheet
};

struct LimitFrom {
  Rank rank = Rank::standard;
  DecisionRule decision;
  Condition condition;
  std::optional<BoundFrom> lower, upper;
  std::optional<Source> source;  // for bounds that do not come from the catalog
};

struct ChainPartText {
  ChainPart part;
  Condition condition;
};

struct CheckText {
  Check check;               // without limits and chain
  std::optional<Pair> pair;  // for a pairing, which brings its own limit
  std::vector<ChainPartText> chain;
  Condition condition;
  std::vector<LimitFrom> limits;
};

struct StepText {
  Step step;  // without checks
  Condition condition;
  std::vector<CheckText> checks;
};

// Every step of the files, in the order of the stages and within a stage in the order of the files' names and
// lines. Throws BadInput naming file, line and what would be valid: unknown keys, a text without one of the
// languages, an unknown place or stage, a step without source. An id may stand twice for make-ups that
// exclude each other.
std::vector<StepText> load_step_texts(std::span<const NamedBytes> files);

}  // namespace pumpwright::job
