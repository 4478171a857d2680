#include "tests/support/live_python.h"

#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

#include <gtest/gtest.h>
#include <unistd.h>

namespace pumpwright::testing {

std::string live_text(const std::string& arguments) {
  const std::string command =
      std::string(PUMPWRIGHT_PYTHON) + " '" + PUMPWRIGHT_LIVE_REFERENCE + "' " + arguments;
  std::FILE* pipe = popen(command.c_str(), "r");  // the sanitizers' run-time does not disturb a child process
  if (pipe == nullptr) {
    ADD_FAILURE() << "can not start " << command;
    return "";
  }
  std::string text;
  std::array<char, 4096> buffer;
  while (const std::size_t got = std::fread(buffer.data(), 1, buffer.size(), pipe))
    text.append(buffer.data(), got);
  EXPECT_EQ(pclose(pipe), 0) << command;
  while (!text.empty() && text.back() == '\n')
    text.pop_back();
  return text;
}

std::vector<std::string> live_words(const std::string& arguments) {
  std::istringstream text(live_text(arguments));
  std::vector<std::string> words;
  for (std::string word; text >> word;)
    words.push_back(word);
  return words;
}

std::string live_versions() {
  return live_text("versions");
}

SampleFile::SampleFile(std::span<const double> values) {
  std::string name = (std::filesystem::temp_directory_path() / "pumpwright-samples-XXXXXX").string();
  const int descriptor = mkstemp(name.data());
  if (descriptor >= 0) close(descriptor);
  path_ = name;
  std::ofstream file(path_, std::ios::binary);
  const auto bytes = std::as_bytes(values);
  file.write(reinterpret_cast<const char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
  EXPECT_TRUE(file.good()) << path_;
}

SampleFile::~SampleFile() {
  std::filesystem::remove(path_);
}

}  // namespace pumpwright::testing
