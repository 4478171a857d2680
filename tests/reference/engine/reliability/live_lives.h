// What live_reference.R printed: named rows of numbers, and the lives among them.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "engine/reliability/life.h"

namespace pumpwright::testing {

class LiveRows {
 public:
  // Runs `live_reference.R arguments`; fails the running test when it does not succeed.
  explicit LiveRows(const std::string& arguments);

  // As printed; fails the running test when there is no such row.
  const std::vector<std::string>& words(const std::string& name) const;
  std::vector<double> numbers(const std::string& name) const;

  // From the rows "time" and "ended" (0 running, 1 returned, 2 replaced); one day there is one second here.
  std::vector<reliability::Life> lives() const;
  // Cut by the row "group" (1, 2, ...).
  std::vector<std::vector<reliability::Life>> groups() const;

  // Compares with a printed number to `digits` significant digits.
  void expect(const std::string& what, const std::string& row, std::size_t index, double computed,
              int digits) const;

 private:
  std::string arguments_;
  std::map<std::string, std::vector<std::string>> rows_;
};

}  // namespace pumpwright::testing
