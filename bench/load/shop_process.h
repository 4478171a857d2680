// The real program, serving a demonstration shop of its own on a free port of this machine.
#pragma once

#include <cstdint>
#include <filesystem>

#include <sys/types.h>

namespace pumpwright::bench {

class ShopProcess {
 public:
  struct Setting {
    std::filesystem::path program;
    std::filesystem::path directory;  // made; the shop's data and the server's log go into it
    std::filesystem::path jobs;       // the demonstration's job files
  };

  // Fills the shop and serves it. Throws std::runtime_error with the server's own words when that fails.
  explicit ShopProcess(const Setting& setting);
  ~ShopProcess();
  ShopProcess(const ShopProcess&) = delete;
  ShopProcess& operator=(const ShopProcess&) = delete;

  unsigned short port() const { return port_; }
  std::filesystem::path store_file() const { return data_ / "shop.sqlite"; }

  double peak_resident_mib() const;
  double cpu_seconds() const;
  // Transactions committed so far, modulo 2^32: the counter that SQLite keeps in its write-ahead index.
  std::uint32_t transactions() const;

  // Asks it to stop and waits for a minute at most. The exit status; -1 when it had to be killed.
  int stop();

 private:
  void serve(const Setting& setting);
  unsigned short port_in_log() const;

  std::filesystem::path data_, log_;
  pid_t process_ = 0;
  unsigned short port_ = 0;
};

}  // namespace pumpwright::bench
