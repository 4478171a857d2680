// A disk in memory that behaves as badly as a real one may. What was written and not synced can be lost, kept
// or torn at a sector when the power fails, each write by its own luck, so writes between two syncs are
// reordered in effect. New and removed names become lasting in their order, at the latest with the next sync
// of any file. Beside power cuts it knows calls that fail (once or from then on; a failed sync may forget its
// writes for good, as Linux does), a full disk and a disk that can only be read.
#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <random>
#include <string>
#include <vector>

namespace pumpwright::store {

class DiskModel {
 public:
  struct File;

  // What a call came to; the caller turns it into its own codes.
  enum class Outcome { done, short_read, io_error, full, read_only, missing };

  explicit DiskModel(std::uint64_t seed) : luck_(seed) {}

  // --- faults, each from the next call on
  // The power fails in the n-th changing call from now (1 is the next): nothing works from there on.
  void cut_power_at(std::uint64_t n) { cut_at_ = changing_calls_ + n; }
  void cut_power_now();
  enum class Lasting { once, for_good };
  // The n-th call of any kind from now fails.
  void fail_at(std::uint64_t n, Lasting lasting) {
    fail_at_ = calls_ + n;
    fail_for_good_ = lasting == Lasting::for_good;
  }
  void set_capacity(std::optional<std::uint64_t> bytes) { capacity_ = bytes; }
  void set_read_only(bool read_only) { read_only_ = read_only; }
  // Syncs return at once and do nothing, as if nobody had asked for them.
  void ignore_syncs() { ignore_syncs_ = true; }
  // No more faults; the power is back and what survived is what is there. Nobody may have a file open.
  void start_again();

  std::uint64_t changing_calls() const { return changing_calls_; }
  std::uint64_t calls() const { return calls_; }
  bool power_is_cut() const { return power_is_cut_; }
  std::uint64_t bytes_used() const;

  // --- calls of programs
  Outcome open(const std::string& name, bool create, std::shared_ptr<File>& file);
  Outcome remove(const std::string& name, bool sync_directory);
  bool exists(const std::string& name);
  Outcome read(File& file, std::uint64_t offset, char* into, std::size_t count);
  Outcome write(File& file, std::uint64_t offset, const char* bytes, std::size_t count);
  Outcome truncate(File& file, std::uint64_t size);
  Outcome sync(File& file);
  std::uint64_t size(const File& file);
  bool read_only() const { return read_only_; }

 private:
  struct NameChange {
    std::string name;
    std::shared_ptr<File> file;  // nothing: the name was removed
  };
  using Names = std::map<std::string, std::shared_ptr<File>>;

  bool fails_now();
  bool cut_now();
  void lose_power();
  void survive_by_luck(File& file);
  bool heads() { return (luck_() & 1U) != 0; }
  static void apply(Names& names, const NameChange& change);
  void make_names_last();

  mutable std::mutex mutex_;
  std::mt19937_64 luck_;
  Names names_;
  Names lasting_names_;
  std::vector<NameChange> name_changes_;
  std::uint64_t calls_ = 0;
  std::uint64_t changing_calls_ = 0;
  std::optional<std::uint64_t> cut_at_;
  std::optional<std::uint64_t> fail_at_;
  bool fail_for_good_ = false;
  std::optional<std::uint64_t> capacity_;
  bool read_only_ = false;
  bool ignore_syncs_ = false;
  bool power_is_cut_ = false;
};

struct DiskModel::File {
  struct Change {
    std::uint64_t offset = 0;
    std::string bytes;       // written there
    bool truncates = false;  // the file ends at offset
  };
  std::string now;               // what programs see
  std::string lasting;           // what is on the platter
  std::vector<Change> unsynced;  // between the two
};

}  // namespace pumpwright::store
