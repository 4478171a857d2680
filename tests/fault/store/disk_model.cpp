#include "tests/fault/store/disk_model.h"

#include <algorithm>

namespace pumpwright::store {
namespace {

constexpr std::size_t sector_bytes = 512;

void put(std::string& file, std::uint64_t offset, std::string_view bytes) {
  if (file.size() < offset + bytes.size()) file.resize(offset + bytes.size(), '\0');
  std::copy(bytes.begin(), bytes.end(), file.begin() + static_cast<std::ptrdiff_t>(offset));
}

void apply_whole(std::string& file, const DiskModel::File::Change& change) {
  if (change.truncates) {
    file.resize(change.offset, '\0');
  } else {
    put(file, change.offset, change.bytes);
  }
}

}  // namespace

bool DiskModel::fails_now() {
  ++calls_;
  if (power_is_cut_) return true;
  if (!fail_at_ || calls_ < *fail_at_) return false;
  return fail_for_good_ || calls_ == *fail_at_;
}

bool DiskModel::cut_now() {
  ++changing_calls_;
  if (!cut_at_ || changing_calls_ != *cut_at_) return false;
  lose_power();
  return true;
}

void DiskModel::cut_power_now() {
  const std::scoped_lock lock(mutex_);
  if (!power_is_cut_) lose_power();
}

// Decides what has reached the platter.
void DiskModel::lose_power() {
  power_is_cut_ = true;
  const auto names_kept = luck_() % (name_changes_.size() + 1);
  for (std::size_t i = 0; i < names_kept; ++i)
    apply(lasting_names_, name_changes_[i]);
  name_changes_.clear();
  for (auto& [name, file] : lasting_names_)
    survive_by_luck(*file);
}

void DiskModel::survive_by_luck(File& file) {
  for (const auto& change : file.unsynced) {
    const auto luck = luck_() % 3;
    if (luck == 0) continue;
    if (luck == 1 || change.truncates) {
      apply_whole(file.lasting, change);
      continue;
    }
    for (std::size_t from = 0; from < change.bytes.size();) {
      const auto offset = change.offset + from;
      const auto count =
          std::min<std::size_t>(sector_bytes - offset % sector_bytes, change.bytes.size() - from);
      if (heads()) put(file.lasting, offset, std::string_view(change.bytes).substr(from, count));
      from += count;
    }
  }
  file.unsynced.clear();
}

void DiskModel::start_again() {
  const std::scoped_lock lock(mutex_);
  if (power_is_cut_) {
    names_ = lasting_names_;
    for (auto& [name, file] : names_)
      file->now = file->lasting;
  }
  power_is_cut_ = false;
  cut_at_.reset();
  fail_at_.reset();
  capacity_.reset();
  read_only_ = false;
  ignore_syncs_ = false;
}

void DiskModel::apply(Names& names, const NameChange& change) {
  if (change.file) {
    names[change.name] = change.file;
  } else {
    names.erase(change.name);
  }
}

void DiskModel::make_names_last() {
  for (const auto& change : name_changes_)
    apply(lasting_names_, change);
  name_changes_.clear();
}

std::uint64_t DiskModel::bytes_used() const {
  const std::scoped_lock lock(mutex_);
  std::uint64_t bytes = 0;
  for (const auto& [name, file] : names_)
    bytes += file->now.size();
  return bytes;
}

DiskModel::Outcome DiskModel::open(const std::string& name, bool create, std::shared_ptr<File>& file) {
  const std::scoped_lock lock(mutex_);
  if (fails_now()) return Outcome::io_error;
  const auto found = names_.find(name);
  if (found != names_.end()) {
    file = found->second;
    return Outcome::done;
  }
  if (!create) return Outcome::missing;
  if (read_only_) return Outcome::read_only;
  file = std::make_shared<File>();
  names_[name] = file;
  name_changes_.push_back({name, file});
  return cut_now() ? Outcome::io_error : Outcome::done;
}

DiskModel::Outcome DiskModel::remove(const std::string& name, bool sync_directory) {
  const std::scoped_lock lock(mutex_);
  if (fails_now()) return Outcome::io_error;
  if (read_only_) return Outcome::read_only;
  if (names_.erase(name) == 0) return Outcome::missing;
  name_changes_.push_back({name, nullptr});
  if (cut_now()) return Outcome::io_error;
  if (sync_directory && !ignore_syncs_) make_names_last();
  return Outcome::done;
}

bool DiskModel::exists(const std::string& name) {
  const std::scoped_lock lock(mutex_);
  return names_.contains(name);
}

DiskModel::Outcome DiskModel::read(File& file, std::uint64_t offset, char* into, std::size_t count) {
  const std::scoped_lock lock(mutex_);
  if (fails_now()) return Outcome::io_error;
  const std::size_t there = offset < file.now.size() ? std::min(count, file.now.size() - offset) : 0;
  std::fill_n(std::copy_n(file.now.begin() + static_cast<std::ptrdiff_t>(offset * (there > 0 ? 1U : 0U)),
                          there, into),
              count - there, '\0');
  return there == count ? Outcome::done : Outcome::short_read;
}

DiskModel::Outcome DiskModel::write(File& file, std::uint64_t offset, const char* bytes, std::size_t count) {
  const std::scoped_lock lock(mutex_);
  if (fails_now()) return Outcome::io_error;
  if (read_only_) return Outcome::read_only;
  std::uint64_t used = 0;
  for (const auto& [name, each] : names_)
    used += each->now.size();
  const std::uint64_t end = offset + count;
  const std::uint64_t growth = end > file.now.size() ? end - file.now.size() : 0;
  const std::uint64_t room = capacity_ ? (*capacity_ > used ? *capacity_ - used : 0) : growth;
  const bool fits = growth <= room;
  // A disk that gets full in the middle of a write keeps the part before.
  if (!fits) count = static_cast<std::size_t>(std::max(file.now.size() + room, offset) - offset);
  if (count > 0) {
    file.unsynced.push_back({offset, std::string(bytes, count), false});
    put(file.now, offset, {bytes, count});
  }
  if (cut_now()) return Outcome::io_error;
  return fits ? Outcome::done : Outcome::full;
}

DiskModel::Outcome DiskModel::truncate(File& file, std::uint64_t size) {
  const std::scoped_lock lock(mutex_);
  if (fails_now()) return Outcome::io_error;
  if (read_only_) return Outcome::read_only;
  file.unsynced.push_back({size, {}, true});
  file.now.resize(size, '\0');
  return cut_now() ? Outcome::io_error : Outcome::done;
}

DiskModel::Outcome DiskModel::sync(File& file) {
  const std::scoped_lock lock(mutex_);
  if (fails_now()) {
    // The pages are marked clean although they never arrived: no later sync will write them.
    if (!power_is_cut_ && heads()) survive_by_luck(file);
    return Outcome::io_error;
  }
  if (ignore_syncs_) return Outcome::done;
  if (cut_now()) return Outcome::io_error;
  for (const auto& change : file.unsynced)
    apply_whole(file.lasting, change);
  file.unsynced.clear();
  make_names_last();
  return Outcome::done;
}

std::uint64_t DiskModel::size(const File& file) {
  const std::scoped_lock lock(mutex_);
  return file.now.size();
}

}  // namespace pumpwright::store
