#include "tests/fault/store/fault_vfs.h"

#include <array>
#include <cerrno>
#include <cstring>
#include <mutex>
#include <new>
#include <vector>

#include <sqlite3.h>

namespace pumpwright::store {
namespace {

constexpr int shm_locks = SQLITE_SHM_NLOCK;

// The write-ahead log's index, shared by the connections of one database.
struct SharedMemory {
  std::vector<std::unique_ptr<char[]>> regions;
  std::array<int, shm_locks> locks{};  // number of shared holders, or -1
  int users = 0;
};

struct FileHandle;

// Locks on the database file itself.
struct FileLocks {
  int shared = 0;
  const FileHandle* reserved = nullptr;
  const FileHandle* pending = nullptr;
  const FileHandle* exclusive = nullptr;
};

thread_local int last_errno = 0;

}  // namespace

struct FaultVfs::State {
  DiskModel& disk;
  sqlite3_vfs* real;
  sqlite3_vfs vfs{};
  std::mutex mutex;  // guards the maps and what is in them
  std::map<std::string, std::shared_ptr<SharedMemory>> memories;
  std::map<std::string, FileLocks> locks;
};

namespace {

struct FileHandle {
  void* state = nullptr;
  std::string name;
  std::shared_ptr<DiskModel::File> file;
  bool removed_at_close = false;
  int level = SQLITE_LOCK_NONE;
  std::shared_ptr<SharedMemory> memory;
  unsigned shared_mask = 0;
  unsigned exclusive_mask = 0;
};

struct SqliteFile {
  sqlite3_file base;
  FileHandle* handle;
};

}  // namespace

struct FaultVfs::Callbacks {
  static State& state_of(sqlite3_vfs* vfs) { return *static_cast<State*>(vfs->pAppData); }
  static FileHandle& handle_of(sqlite3_file* file) { return *reinterpret_cast<SqliteFile*>(file)->handle; }
  static State& state_of(const FileHandle& handle) { return *static_cast<State*>(handle.state); }

  static int code(DiskModel::Outcome outcome, int io_error) {
    switch (outcome) {
      case DiskModel::Outcome::done:
        return SQLITE_OK;
      case DiskModel::Outcome::short_read:
        return SQLITE_IOERR_SHORT_READ;
      case DiskModel::Outcome::full:
        last_errno = ENOSPC;
        return SQLITE_FULL;
      case DiskModel::Outcome::read_only:
        last_errno = EROFS;
        return io_error;
      case DiskModel::Outcome::missing:
        last_errno = ENOENT;
        return io_error == SQLITE_IOERR_DELETE ? SQLITE_IOERR_DELETE_NOENT : io_error;
      case DiskModel::Outcome::io_error:
        last_errno = EIO;
        return io_error;
    }
    return io_error;
  }

  // --- the file system
  static int open(sqlite3_vfs* vfs, const char* name, sqlite3_file* file, int flags, int* out_flags) {
    State& state = state_of(vfs);
    auto* opened = reinterpret_cast<SqliteFile*>(file);
    opened->base.pMethods = nullptr;
    auto handle = std::make_unique<FileHandle>();
    handle->state = &state;
    handle->name = name ? name : "temporary";
    handle->removed_at_close = (flags & SQLITE_OPEN_DELETEONCLOSE) != 0;
    const auto outcome = state.disk.open(handle->name, (flags & SQLITE_OPEN_CREATE) != 0, handle->file);
    if (outcome != DiskModel::Outcome::done) return code(outcome, SQLITE_CANTOPEN);
    if (out_flags) {
      *out_flags = flags;
      if (state.disk.read_only()) *out_flags = (flags & ~SQLITE_OPEN_READWRITE) | SQLITE_OPEN_READONLY;
    }
    opened->handle = handle.release();
    opened->base.pMethods = &methods();
    return SQLITE_OK;
  }
  static int remove(sqlite3_vfs* vfs, const char* name, int sync_directory) {
    return code(state_of(vfs).disk.remove(name, sync_directory != 0), SQLITE_IOERR_DELETE);
  }
  static int access(sqlite3_vfs* vfs, const char* name, int, int* result) {
    *result = state_of(vfs).disk.exists(name) ? 1 : 0;
    return SQLITE_OK;
  }
  static int full_path(sqlite3_vfs* vfs, const char* name, int count, char* out) {
    sqlite3_vfs* real = state_of(vfs).real;
    return real->xFullPathname(real, name, count, out);
  }
  static int randomness(sqlite3_vfs* vfs, int count, char* out) {
    sqlite3_vfs* real = state_of(vfs).real;
    return real->xRandomness(real, count, out);
  }
  static int sleep(sqlite3_vfs* vfs, int microseconds) {
    sqlite3_vfs* real = state_of(vfs).real;
    return real->xSleep(real, microseconds);
  }
  static int time(sqlite3_vfs* vfs, sqlite3_int64* now) {
    sqlite3_vfs* real = state_of(vfs).real;
    return real->xCurrentTimeInt64(real, now);
  }
  static int last_error(sqlite3_vfs*, int, char*) { return last_errno; }

  // --- one file
  static int close(sqlite3_file* file) {
    FileHandle& handle = handle_of(file);
    shm_unmap(file, 0);
    unlock(file, SQLITE_LOCK_NONE);
    if (handle.removed_at_close) state_of(handle).disk.remove(handle.name, false);
    delete &handle;
    return SQLITE_OK;
  }
  static int read(sqlite3_file* file, void* into, int count, sqlite3_int64 offset) {
    FileHandle& handle = handle_of(file);
    return code(state_of(handle).disk.read(*handle.file, static_cast<std::uint64_t>(offset),
                                           static_cast<char*>(into), static_cast<std::size_t>(count)),
                SQLITE_IOERR_READ);
  }
  static int write(sqlite3_file* file, const void* bytes, int count, sqlite3_int64 offset) {
    FileHandle& handle = handle_of(file);
    return code(state_of(handle).disk.write(*handle.file, static_cast<std::uint64_t>(offset),
                                            static_cast<const char*>(bytes), static_cast<std::size_t>(count)),
                SQLITE_IOERR_WRITE);
  }
  static int truncate(sqlite3_file* file, sqlite3_int64 size) {
    FileHandle& handle = handle_of(file);
    return code(state_of(handle).disk.truncate(*handle.file, static_cast<std::uint64_t>(size)),
                SQLITE_IOERR_TRUNCATE);
  }
  static int sync(sqlite3_file* file, int) {
    FileHandle& handle = handle_of(file);
    return code(state_of(handle).disk.sync(*handle.file), SQLITE_IOERR_FSYNC);
  }
  static int size(sqlite3_file* file, sqlite3_int64* out) {
    FileHandle& handle = handle_of(file);
    *out = static_cast<sqlite3_int64>(state_of(handle).disk.size(*handle.file));
    return SQLITE_OK;
  }
  static int control(sqlite3_file*, int, void*) { return SQLITE_NOTFOUND; }
  static int sector(sqlite3_file*) { return 4096; }
  // As SQLite's own for Linux says: writing a few bytes does not harm the bytes beside them.
  static int characteristics(sqlite3_file*) { return SQLITE_IOCAP_POWERSAFE_OVERWRITE; }

  static int lock(sqlite3_file* file, int wanted) {
    FileHandle& handle = handle_of(file);
    State& state = state_of(handle);
    const std::scoped_lock guard(state.mutex);
    FileLocks& locks = state.locks[handle.name];
    if (handle.level >= wanted) return SQLITE_OK;
    const auto by_other = [&](const FileHandle* holder) { return holder != nullptr && holder != &handle; };
    if (wanted == SQLITE_LOCK_SHARED) {
      if (by_other(locks.pending) || by_other(locks.exclusive)) return SQLITE_BUSY;
      ++locks.shared;
    } else if (by_other(locks.reserved) || by_other(locks.pending)) {
      return SQLITE_BUSY;
    } else if (wanted == SQLITE_LOCK_RESERVED) {
      locks.reserved = &handle;
    } else {
      locks.pending = &handle;
      if (locks.shared > 1) {
        handle.level = SQLITE_LOCK_PENDING;
        return SQLITE_BUSY;
      }
      locks.exclusive = &handle;
    }
    handle.level = wanted;
    return SQLITE_OK;
  }
  static int unlock(sqlite3_file* file, int wanted) {
    FileHandle& handle = handle_of(file);
    State& state = state_of(handle);
    const std::scoped_lock guard(state.mutex);
    if (handle.level <= wanted) return SQLITE_OK;
    FileLocks& locks = state.locks[handle.name];
    for (const FileHandle** holder : {&locks.reserved, &locks.pending, &locks.exclusive}) {
      if (*holder == &handle) *holder = nullptr;
    }
    if (wanted == SQLITE_LOCK_NONE) --locks.shared;
    handle.level = wanted;
    return SQLITE_OK;
  }
  static int check_reserved(sqlite3_file* file, int* result) {
    FileHandle& handle = handle_of(file);
    State& state = state_of(handle);
    const std::scoped_lock guard(state.mutex);
    *result = state.locks[handle.name].reserved != nullptr ? 1 : 0;
    return SQLITE_OK;
  }

  // --- shared memory of the write-ahead log
  static int shm_map(sqlite3_file* file, int region, int bytes, int extend, void volatile** out) {
    FileHandle& handle = handle_of(file);
    State& state = state_of(handle);
    const std::scoped_lock guard(state.mutex);
    if (!handle.memory) {
      auto& memory = state.memories[handle.name];
      if (!memory) memory = std::make_shared<SharedMemory>();
      handle.memory = memory;
      ++memory->users;
    }
    auto& regions = handle.memory->regions;
    const auto wanted = static_cast<std::size_t>(region) + 1;
    *out = nullptr;
    if (regions.size() < wanted && extend == 0) return SQLITE_OK;
    while (regions.size() < wanted)
      regions.push_back(std::make_unique<char[]>(static_cast<std::size_t>(bytes)));
    *out = regions[wanted - 1].get();
    return SQLITE_OK;
  }
  static int shm_lock(sqlite3_file* file, int first, int count, int flags) {
    FileHandle& handle = handle_of(file);
    State& state = state_of(handle);
    const std::scoped_lock guard(state.mutex);
    auto& locks = handle.memory->locks;
    const bool exclusive = (flags & SQLITE_SHM_EXCLUSIVE) != 0;
    const bool locking = (flags & SQLITE_SHM_LOCK) != 0;
    for (int i = first; locking && i < first + count; ++i) {
      const int held = locks[static_cast<std::size_t>(i)];
      if (exclusive ? held != 0 && !(handle.exclusive_mask & (1U << i)) : held < 0) return SQLITE_BUSY;
    }
    for (int i = first; i < first + count; ++i)
      change_shm_lock(handle, i, exclusive, locking);
    return SQLITE_OK;
  }
  static void change_shm_lock(FileHandle& handle, int i, bool exclusive, bool locking) {
    int& held = handle.memory->locks[static_cast<std::size_t>(i)];
    unsigned& mask = exclusive ? handle.exclusive_mask : handle.shared_mask;
    const bool mine = (mask & (1U << i)) != 0;
    if (mine == locking) return;
    if (exclusive) {
      held = locking ? -1 : 0;
    } else {
      held += locking ? 1 : -1;
    }
    mask ^= 1U << i;
  }
  static void shm_barrier(sqlite3_file* file) {
    const std::scoped_lock guard(state_of(handle_of(file)).mutex);
  }
  static int shm_unmap(sqlite3_file* file, int) {
    FileHandle& handle = handle_of(file);
    State& state = state_of(handle);
    const std::scoped_lock guard(state.mutex);
    if (!handle.memory) return SQLITE_OK;
    for (int i = 0; i < shm_locks; ++i) {
      change_shm_lock(handle, i, true, false);
      change_shm_lock(handle, i, false, false);
    }
    if (--handle.memory->users == 0) state.memories.erase(handle.name);
    handle.memory.reset();
    return SQLITE_OK;
  }

  static const sqlite3_io_methods& methods() {
    static const sqlite3_io_methods table{
        2,         close,          read,    write,  truncate,        sync,    size,     lock,
        unlock,    check_reserved, control, sector, characteristics, shm_map, shm_lock, shm_barrier,
        shm_unmap, nullptr,        nullptr};
    return table;
  }
};

FaultVfs::FaultVfs(DiskModel& disk) : state_(new State{disk, sqlite3_vfs_find(nullptr), {}, {}, {}, {}}) {
  sqlite3_vfs& vfs = state_->vfs;
  vfs.iVersion = 2;
  vfs.szOsFile = sizeof(SqliteFile);
  vfs.mxPathname = state_->real->mxPathname;
  vfs.zName = "pumpwright-fault";
  vfs.pAppData = state_.get();
  vfs.xOpen = Callbacks::open;
  vfs.xDelete = Callbacks::remove;
  vfs.xAccess = Callbacks::access;
  vfs.xFullPathname = Callbacks::full_path;
  vfs.xRandomness = Callbacks::randomness;
  vfs.xSleep = Callbacks::sleep;
  vfs.xGetLastError = Callbacks::last_error;
  vfs.xCurrentTimeInt64 = Callbacks::time;
  sqlite3_vfs_register(&vfs, 1);
}

FaultVfs::~FaultVfs() {
  sqlite3_vfs_unregister(&state_->vfs);
  sqlite3_vfs_register(state_->real, 1);
}

}  // namespace pumpwright::store
