#include "live_lives.h"

#include <algorithm>
#include <sstream>

#include <gtest/gtest.h>

#include "tests/support/live_python.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {

using reliability::Ending;
using reliability::Life;

LiveRows::LiveRows(const std::string& arguments) : arguments_(arguments) {
  std::istringstream text(live_text(arguments));
  for (std::string line; std::getline(text, line);) {
    std::istringstream words(line);
    std::string name;
    words >> name;
    for (std::string word; words >> word;)
      rows_[name].push_back(word);
  }
}

const std::vector<std::string>& LiveRows::words(const std::string& name) const {
  static const std::vector<std::string> none;
  const auto found = rows_.find(name);
  if (found != rows_.end()) return found->second;
  ADD_FAILURE() << "no row " << name << " from " << arguments_;
  return none;
}

std::vector<double> LiveRows::numbers(const std::string& name) const {
  std::vector<double> values;
  for (const auto& word : words(name))
    values.push_back(std::stod(word));
  return values;
}

std::vector<Life> LiveRows::lives() const {
  const auto times = numbers("time");
  const auto ended = numbers("ended");
  std::vector<Life> lives;
  for (std::size_t i = 0; i < std::min(times.size(), ended.size()); ++i)
    lives.push_back({seconds(times[i]), ended[i] == 1   ? Ending::returned
                                        : ended[i] == 2 ? Ending::replaced
                                                        : Ending::running});
  return lives;
}

std::vector<std::vector<Life>> LiveRows::groups() const {
  const auto all = lives();
  const auto group = numbers("group");
  std::vector<std::vector<Life>> groups;
  for (std::size_t i = 0; i < std::min(all.size(), group.size()); ++i) {
    const auto number = static_cast<std::size_t>(group[i]);
    if (groups.size() < number) groups.resize(number);
    groups[number - 1].push_back(all[i]);
  }
  return groups;
}

void LiveRows::expect(const std::string& what, const std::string& row, std::size_t index, double computed,
                      int digits) const {
  static const std::string versions = live_versions();
  const auto& printed = words(row);
  ASSERT_LT(index, printed.size()) << row;
  expect_outside({what, versions + ": " + arguments_, Obtained::live, printed[index], computed, "", digits});
}

}  // namespace pumpwright::testing
