// A PDF as programs outside the project read it.
#pragma once

#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>

namespace pumpwright::report::testing {

// The document as poppler's programs see it, run as separate processes on a file in a directory of its own.
class Outside {
 public:
  explicit Outside(const std::string& pdf) {
    std::string pattern = (std::filesystem::temp_directory_path() / "record-XXXXXX").string();
    if (mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("no temporary directory");
    folder_ = pattern;
    std::ofstream(folder_ / "record.pdf", std::ios::binary) << pdf;
  }
  ~Outside() { std::filesystem::remove_all(folder_); }
  Outside(const Outside&) = delete;
  Outside& operator=(const Outside&) = delete;

  std::string info() const { return output("pdfinfo " + file()); }
  std::string fonts() const { return output("pdffonts " + file()); }
  std::string text() const { return output("pdftotext -layout " + file() + " -"); }
  std::string raw_text() const { return output("pdftotext -raw " + file() + " -"); }
  int pages() const {
    const std::string all = info();
    const auto at = all.find("Pages:");
    return at == std::string::npos ? 0 : std::stoi(all.substr(at + 6));
  }

 private:
  std::string file() const { return (folder_ / "record.pdf").string(); }
  static std::string output(const std::string& command) {
    std::string all;
    FILE* pipe = popen((command + " 2>&1").c_str(), "r");
    if (pipe == nullptr) return all;
    std::array<char, 4096> buffer{};
    for (std::size_t n = 0; (n = std::fread(buffer.data(), 1, buffer.size(), pipe)) > 0;)
      all.append(buffer.data(), n);
    pclose(pipe);
    return all;
  }
  std::filesystem::path folder_;
};

inline bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace pumpwright::report::testing
