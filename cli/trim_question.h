// What `pumpwright trim` was asked, and what it found. docs/trim.schema.json publishes the file's format.
#pragma once

#include <string>
#include <string_view>

#include "engine/hydraulics/trim.h"
#include "job/sheets/pump_test_sheet.h"

namespace pumpwright {

struct TrimFile {
  std::string name;
  job::PumpTestSheet test;
  hydraulics::Duty duty;
  hydraulics::Impeller impeller;
  hydraulics::CutSettings settings;
};

struct TrimQuestion {
  std::string file;
  TrimFile sheet;
};

// Whether there is a cut to make now.
enum class TrimAdvice {
  cut,           // the first cut is safe and inside the rule
  leave,         // the duty is not exceeded by enough for any cut to be safe
  too_little,    // the pump gives less than the duty: no cut
  outside_rule,  // the rule does not reach as far as the nominal cut; `limit` is how far it does
  out_of_reach,  // no cut meets the duty within the tested flows
};

struct TrimFinding {
  hydraulics::TrimPlan plan;
  TrimAdvice advice = TrimAdvice::leave;
  Length limit;                 // the least diameter that the rule and the sheet allow
  bool second_is_worth = true;  // nominal and first cut lie further apart than a step worth the set-up
};

// Throws BadInput whose place is a JSON pointer.
TrimFile decode_trim_file(std::string_view bytes);

// BadInput as the engine's, with places in the file.
TrimFinding answer(const TrimQuestion& question);

std::string trim_text(const TrimQuestion& question, const TrimFinding& finding, bool colour);
std::string trim_report_json(const TrimQuestion& question, const TrimFinding& finding);

// "cut", "leave", "too-little", "outside-rule", "out-of-reach".
const char* word_for(TrimAdvice advice);

}  // namespace pumpwright
