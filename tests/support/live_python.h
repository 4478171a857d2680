// Runs live_reference.py beside the test and reads back the numbers it prints.
#pragma once

#include <span>
#include <string>
#include <vector>

namespace pumpwright::testing {

// Standard output of `live_reference.py arguments`; fails the running test when the program does not succeed.
std::string live_text(const std::string& arguments);

// The same, as the printed words: numbers keep all the digits Python printed.
std::vector<std::string> live_words(const std::string& arguments);

// "NumPy 1.24.2 SciPy 1.10.1", for the source of a check.
std::string live_versions();

// Samples in a file of raw doubles that is removed again.
class SampleFile {
 public:
  explicit SampleFile(std::span<const double> values);
  ~SampleFile();
  SampleFile(const SampleFile&) = delete;
  SampleFile& operator=(const SampleFile&) = delete;
  const std::string& path() const { return path_; }

 private:
  std::string path_;
};

}  // namespace pumpwright::testing
