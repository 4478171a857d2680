// A test of the bench as one sheet. What it goes by stands in the make-up and is frozen with the plan; what
// was read stands in a reading. The two together are the file of the test's own command, decoded by the same
// code, so that a job and the command line can never say different things of one test.
#pragma once

#include <map>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "job/check.h"
#include "job/json_reader.h"

namespace pumpwright::job {

// Objects as they were handed in, as JSON texts.
using BenchSheets = std::map<SheetOf, std::string>;

// Keys of the file by where they stand in a job: of its top level, or "test/points" of a part whose rest
// stands in the other.
struct SheetParts {
  SheetOf of;
  std::string_view format;                    // of the command's file
  std::span<const std::string_view> planned;  // in the make-up
  std::span<const std::string_view> read;     // in the reading; empty: the make-up says everything
  std::string_view instrument_key;  // one of `read` that the reading's instrument fills; may be empty
  bool says_enough_unread = false;  // the make-up alone decides until something is read

  bool takes_reading() const { return !read.empty(); }
};

const SheetParts& parts_of(SheetOf sheet);

// The make-up's `sheets`. What each goes by is tried as a whole, so that a plan never rests on a sheet that
// can not be computed. Throws BadInput at the offending place.
BenchSheets decode_sheets(const JsonReader& at);

// A reading's `sheet`: an object; which test it belongs to is known once its check is.
std::string decode_sheet_reading(const JsonReader& at);

// The file: both parts under one roof. Throws BadInput naming a key that stands in the wrong part. `read` may
// be empty. A refusal of the decoder names a place within the file.
JsonReader whole_sheet(SheetOf sheet, const std::string& planned, const std::string& read);

// In a frozen plan.
nlohmann::json encode_sheets(const BenchSheets& sheets);
BenchSheets decode_frozen_sheets(const JsonReader& at);

// Words that conditions in step data may name: the sheet's own, and what it asks beyond that ("leak-limit").
std::set<std::string> sheet_tags(const BenchSheets& sheets);

// The limits a sheet brings for one figure; empty when it brings none.
std::vector<Limit> sheet_limits(const Check& check, const BenchSheets& sheets);

}  // namespace pumpwright::job
