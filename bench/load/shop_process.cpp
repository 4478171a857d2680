#include "bench/load/shop_process.h"

#include <array>
#include <chrono>
#include <csignal>
#include <cstring>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <thread>
#include <utility>
#include <vector>

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

namespace pumpwright::bench {
namespace {

namespace fs = std::filesystem;

constexpr int wait_steps = 1200;  // of wait_step: a minute
constexpr std::chrono::milliseconds wait_step{50};

std::string text_of(const fs::path& file) {
  std::ostringstream text;
  text << std::ifstream(file, std::ios::binary).rdbuf();
  return std::move(text).str();
}

// Both outputs of the program go to the end of `log`.
pid_t start(std::vector<std::string> words, const fs::path& log) {
  std::vector<char*> arguments;
  arguments.reserve(words.size() + 1);
  for (auto& word : words)
    arguments.push_back(word.data());
  arguments.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  ::posix_spawn_file_actions_init(&actions);
  ::posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, log.c_str(), O_WRONLY | O_CREAT | O_APPEND,
                                     0600);
  ::posix_spawn_file_actions_adddup2(&actions, STDOUT_FILENO, STDERR_FILENO);
  pid_t process = 0;
  const int error =
      ::posix_spawn(&process, words.front().c_str(), &actions, nullptr, arguments.data(), environ);
  ::posix_spawn_file_actions_destroy(&actions);
  if (error != 0) throw std::runtime_error(words.front() + ": " + std::strerror(error));
  return process;
}

int status_of(int waited) {
  return WIFEXITED(waited) ? WEXITSTATUS(waited) : -1;
}

}  // namespace

ShopProcess::ShopProcess(const Setting& setting)
    : data_(setting.directory / "shop"), log_(setting.directory / "server.log") {
  fs::create_directories(setting.directory);
  const pid_t filling = start(
      {setting.program.string(), "demo", "--data", data_.string(), "--jobs", setting.jobs.string()}, log_);
  int waited = 0;
  ::waitpid(filling, &waited, 0);
  if (status_of(waited) != 0) throw std::runtime_error("the shop was not made:\n" + text_of(log_));
  serve(setting);
}

void ShopProcess::serve(const Setting& setting) {
  process_ = start(
      {setting.program.string(), "serve", "--data", data_.string(), "--listen", "127.0.0.1:0", "--quiet"},
      log_);
  for (int i = 0; i < wait_steps && port_ == 0; ++i) {
    std::this_thread::sleep_for(wait_step);
    port_ = port_in_log();
  }
  if (port_ != 0) return;
  stop();
  throw std::runtime_error("the server did not start:\n" + text_of(log_));
}

unsigned short ShopProcess::port_in_log() const {
  const std::string text = text_of(log_);
  const std::string before = "Listening on http://127.0.0.1:";
  const auto at = text.find(before);
  if (at == std::string::npos || text.find('\n', at) == std::string::npos) return 0;
  return static_cast<unsigned short>(std::stoul(text.substr(at + before.size())));
}

ShopProcess::~ShopProcess() {
  if (process_ != 0) stop();
}

double ShopProcess::peak_resident_mib() const {
  std::ifstream in("/proc/" + std::to_string(process_) + "/status");
  for (std::string line; std::getline(in, line);)
    if (line.starts_with("VmHWM:")) return std::stod(line.substr(6)) / 1024.0;
  return 0.0;
}

double ShopProcess::cpu_seconds() const {
  const std::string text = text_of("/proc/" + std::to_string(process_) + "/stat");
  // The name in brackets may hold spaces; utime and stime are the 12th and 13th fields after it.
  std::istringstream fields(text.substr(text.rfind(')') + 1));
  std::string skipped;
  for (int i = 0; i < 11; ++i)
    fields >> skipped;
  double user = 0;
  double system = 0;
  fields >> user >> system;
  return (user + system) / static_cast<double>(::sysconf(_SC_CLK_TCK));
}

std::uint32_t ShopProcess::transactions() const {
  // "iChange" of the first header in the write-ahead index (sqlite.org/walformat.html, section 2.1).
  constexpr std::streamoff change_counter_at = 8;
  std::ifstream in(store_file().string() + "-shm", std::ios::binary);
  std::array<char, sizeof(std::uint32_t)> bytes{};
  if (!in.seekg(change_counter_at).read(bytes.data(), bytes.size()))
    throw std::runtime_error("the store has no write-ahead index");
  std::uint32_t count = 0;
  std::memcpy(&count, bytes.data(), sizeof count);
  return count;
}

int ShopProcess::stop() {
  ::kill(process_, SIGINT);
  int waited = 0;
  for (int i = 0; i < wait_steps; ++i) {
    if (::waitpid(process_, &waited, WNOHANG) == process_) {
      process_ = 0;
      return status_of(waited);
    }
    std::this_thread::sleep_for(wait_step);
  }
  ::kill(process_, SIGKILL);
  ::waitpid(process_, &waited, 0);
  process_ = 0;
  return -1;
}

}  // namespace pumpwright::bench
