#include "store/store.h"

#include <cassert>
#include <chrono>
#include <utility>

#include "store/backup.h"
#include "store/connection.h"
#include "store/group_commit.h"
#include "store/reader_pool.h"
#include "store/schema.h"
#include "store/verify.h"

namespace pumpwright::store {
namespace {

std::int64_t system_now_ms() {
  const auto now = std::chrono::system_clock::now().time_since_epoch();
  return std::chrono::duration_cast<std::chrono::milliseconds>(now).count();
}

ConnectionSettings settings_for(const std::filesystem::path& file, Access access,
                                const StoreOptions& options) {
  return {file, access, options.busy_timeout_ms, options.checkpoint_pages};
}

Connection open_writer(const std::filesystem::path& file, const StoreOptions& options) {
  Connection connection(settings_for(file, Access::write, options));
  migrate(connection, migrations());
  return connection;
}

}  // namespace

// The readers are closed before the writer, which then moves the log into the file.
class Store::Impl {
 public:
  Impl(const std::filesystem::path& file, StoreOptions options)
      : now_ms_(options.now_ms ? options.now_ms : system_now_ms),
        reader_settings_(settings_for(file, Access::read, options)),
        writer_(open_writer(file, options)),
        readers_(reader_settings_, options.readers_max),
        events_(writer_, readers_, now_ms_),
        index_(writer_, readers_),
        secrets_(writer_, readers_, now_ms_),
        attachments_(writer_, readers_) {}

  const std::function<std::int64_t()> now_ms_;
  const ConnectionSettings reader_settings_;
  GroupCommit writer_;
  ReaderPool readers_;
  EventLog events_;
  Index index_;
  Secrets secrets_;
  Attachments attachments_;
};

Store::Store(std::unique_ptr<Impl> impl) : impl_(std::move(impl)) {}
Store::~Store() = default;

std::unique_ptr<Store> Store::open(const std::filesystem::path& file, StoreOptions options) {
  assert(options.readers_max >= 1 && options.readers_max <= 64 && options.checkpoint_pages >= 1);
  return std::unique_ptr<Store>(new Store(std::make_unique<Impl>(file, std::move(options))));
}

EventLog& Store::events() {
  return impl_->events_;
}
Index& Store::index() {
  return impl_->index_;
}
Secrets& Store::secrets() {
  return impl_->secrets_;
}
Attachments& Store::attachments() {
  return impl_->attachments_;
}

// Both take long, so they have a connection of their own and leave the pool to the others.
StoreReport Store::verify() const {
  Connection connection(impl_->reader_settings_);
  return verify_all(connection);
}

BackupReport Store::backup(const std::filesystem::path& to) const {
  Connection connection(impl_->reader_settings_);
  return back_up(connection, to);
}

}  // namespace pumpwright::store
