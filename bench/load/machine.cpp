#include "bench/load/machine.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdint>
#include <fstream>
#include <stdexcept>
#include <thread>
#include <vector>

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/utsname.h>
#include <sys/vfs.h>
#include <unistd.h>

namespace pumpwright::bench {
namespace {

namespace fs = std::filesystem;

std::string processor_name() {
  std::ifstream in("/proc/cpuinfo");
  for (std::string line; std::getline(in, line);)
    if (line.starts_with("model name")) return line.substr(line.find(':') + 2);
  return "not known";
}

std::string file_system_name(const fs::path& directory) {
  struct statfs about {};
  if (::statfs(directory.c_str(), &about) != 0) return "not known";
  switch (static_cast<std::uint64_t>(about.f_type)) {
    case 0xEF53:
      return "ext4";
    case 0x58465342:
      return "xfs";
    case 0x9123683E:
      return "btrfs";
    case 0x794C7630:
      return "overlay";
    case 0x01021994:
      return "memory file system";
    default:
      return fmt::format("type {:#x}", about.f_type);
  }
}

double middle_sync_ms(const fs::path& directory) {
  constexpr std::size_t syncs = 50;
  const fs::path file = directory / "sync-probe";
  const int handle = ::open(file.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
  if (handle < 0) throw std::runtime_error(file.string() + " can not be written");
  const std::array<char, 4096> page{};
  std::vector<double> times;
  for (std::size_t i = 0; i < syncs; ++i) {
    const auto start = std::chrono::steady_clock::now();
    if (::write(handle, page.data(), page.size()) < 0 || ::fdatasync(handle) != 0) break;
    times.push_back(std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count());
  }
  ::close(handle);
  fs::remove(file);
  if (times.size() < syncs) throw std::runtime_error(file.string() + " can not be synced");
  std::sort(times.begin(), times.end());
  return 1e3 * times[times.size() / 2];
}

double load_of_last_minute() {
  double load = 0.0;
  std::ifstream("/proc/loadavg") >> load;
  return load;
}

}  // namespace

Machine describe_machine(const fs::path& directory) {
  utsname about{};
  ::uname(&about);
  const double pages = static_cast<double>(::sysconf(_SC_PHYS_PAGES));
  return {.processor = processor_name(),
          .cores = std::thread::hardware_concurrency(),
          .memory_gib = pages * static_cast<double>(::sysconf(_SC_PAGESIZE)) / (1024.0 * 1024.0 * 1024.0),
          .system = fmt::format("{} {}", about.sysname, about.release),
          .file_system = file_system_name(directory),
          .load_1min = load_of_last_minute(),
          .sync_ms = middle_sync_ms(directory)};
}

}  // namespace pumpwright::bench
