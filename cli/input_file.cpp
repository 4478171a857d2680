#include "cli/input_file.h"

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <istream>
#include <system_error>

#include <fmt/format.h>
#include <unistd.h>

namespace pumpwright {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t tree_files_max = 1000;
constexpr std::size_t tree_file_bytes_max = std::size_t{1024} * 1024;

std::string readable_size(std::size_t bytes) {
  constexpr std::size_t mebi = std::size_t{1024} * 1024;
  return bytes < mebi ? fmt::format("{} bytes", bytes) : fmt::format("{} MiB", bytes / mebi);
}

[[noreturn]] void refuse_size(const std::string& path, const std::string& value, std::size_t bytes_max) {
  throw BadInput({.field = "file size",
                  .place = shown_name(path),
                  .value = value,
                  .expected = fmt::format("a file of at most {}", readable_size(bytes_max))});
}

[[noreturn]] void refuse_file(const std::string& path, const std::string& value) {
  throw BadInput(
      {.field = "file", .place = shown_name(path), .value = value, .expected = "a file that can be read"});
}

std::string read_bounded(std::istream& in, const std::string& path, std::size_t bytes_max) {
  std::string bytes;
  std::array<char, 65536> block{};
  while (in.read(block.data(), block.size()) || in.gcount() > 0) {
    bytes.append(block.data(), static_cast<std::size_t>(in.gcount()));
    if (bytes.size() > bytes_max)
      refuse_size(path, fmt::format("more than {}", readable_size(bytes_max)), bytes_max);
  }
  if (in.bad()) refuse_file(path, "an error while reading");
  return bytes;
}

}  // namespace

std::string shown_name(const std::string& path) {
  return path == "-" ? "standard input" : path;
}

std::string read_input(const std::string& path, std::size_t bytes_max, std::istream& standard_input) {
  if (path == "-") return read_bounded(standard_input, path, bytes_max);
  std::error_code unused;
  const auto status = fs::status(path, unused);
  if (!fs::exists(status)) refuse_file(path, "no such file");
  if (fs::is_directory(status)) refuse_file(path, "a directory");
  if (fs::is_regular_file(status)) {
    const auto size = fs::file_size(path, unused);
    if (!unused && size > bytes_max) refuse_size(path, readable_size(size), bytes_max);
  }
  std::ifstream in(path, std::ios::binary);
  if (!in) refuse_file(path, std::generic_category().message(errno));
  return read_bounded(in, path, bytes_max);
}

std::string beside(const std::string& file, const std::string& named) {
  const std::filesystem::path path(named);
  if (path.is_absolute() || file == "-") return named;
  return (std::filesystem::path(file).parent_path() / path).string();
}

BadInput in_file(const std::string& path, const BadInput& error) {
  BadInput::What what = error.what_was_wrong();
  const auto start = what.place.find_first_not_of(' ');
  const std::string inner = start == std::string::npos ? "" : what.place.substr(start);
  what.place = inner.empty() ? shown_name(path) : shown_name(path) + ": " + inner;
  return BadInput(what);
}

void write_output(const std::string& path, const std::string& content, const std::string& field) {
  const auto refuse = [&](const std::string& why) {
    throw BadInput({.field = field,
                    .place = "",
                    .value = path,
                    .expected = fmt::format("a path that can be written ({})", why)});
  };
  std::error_code failure;
  const auto status = fs::status(path, failure);
  if (fs::is_directory(status)) refuse("this one is a directory");
  if (fs::exists(status) && !fs::is_regular_file(status)) {  // a pipe or a device has no "whole or nothing"
    std::ofstream out(path, std::ios::binary);
    out << content << std::flush;
    if (!out) refuse("writing failed");
    return;
  }
  const std::string unfinished = fmt::format("{}.unfinished-{}", path, ::getpid());
  {
    std::ofstream out(unfinished, std::ios::binary | std::ios::trunc);
    if (!out) refuse(std::generic_category().message(errno));
    out << content << std::flush;
    if (!out) {
      out.close();
      fs::remove(unfinished, failure);
      refuse("writing failed");
    }
  }
  fs::rename(unfinished, path, failure);
  if (failure) {
    const auto why = failure.message();
    fs::remove(unfinished, failure);
    refuse(why);
  }
}

std::vector<FileOfTree> read_tree(const std::string& directory, const std::string& suffix,
                                  const std::string& field) {
  const auto refuse = [&](const std::string& expected) {
    throw BadInput({.field = field, .place = "", .value = directory, .expected = expected});
  };
  std::error_code failure;
  if (!fs::is_directory(directory, failure)) refuse("a directory");
  std::vector<std::string> names;
  fs::recursive_directory_iterator at(directory, failure);
  for (; !failure && at != fs::recursive_directory_iterator(); at.increment(failure)) {
    if (!at->is_regular_file() || !at->path().native().ends_with(suffix)) continue;
    names.push_back(fs::relative(at->path(), directory).generic_string());
    if (names.size() > tree_files_max)
      refuse(fmt::format("a directory with at most {} {} files", tree_files_max, suffix));
  }
  if (failure) refuse(fmt::format("a directory that can be read ({})", failure.message()));
  if (names.empty()) refuse(fmt::format("a directory with {} files", suffix));
  std::sort(names.begin(), names.end());
  std::vector<FileOfTree> files;
  for (const auto& name : names) {
    const std::string path = (fs::path(directory) / name).string();
    std::ifstream in(path, std::ios::binary);
    if (!in) refuse_file(path, std::generic_category().message(errno));
    files.push_back({.name = name, .bytes = read_bounded(in, path, tree_file_bytes_max)});
  }
  return files;
}

}  // namespace pumpwright
