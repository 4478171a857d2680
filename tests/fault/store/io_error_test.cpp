// Calls that fail, a disk that gets full, a disk that can only be read. Nothing acknowledged may get lost,
// nothing may be half there, and the error must be told by its right name.
#include "tests/fault/store/fault_vfs.h"
#include "tests/fault/store/workload.h"
#include "tests/unit/store/scratch_store.h"

namespace pumpwright::store {
namespace {

struct Plain {
  std::uint64_t calls = 0;
  std::uint64_t bytes = 0;
};

Plain plain_run() {
  const ScratchDirectory directory;
  DiskModel disk(1);
  const FaultVfs vfs(disk);
  Ledger ledger;
  Plain plain;
  const auto store = Store::open(directory / "shop.db", fault_options());
  work(*store, ledger, 0);
  EXPECT_TRUE(ledger.errors.empty());
  plain.bytes = disk.bytes_used();
  plain.calls = disk.calls();
  return plain;
}

void sweep_failing_calls(DiskModel::Lasting lasting, std::uint64_t stride) {
  const std::uint64_t calls = plain_run().calls;
  ASSERT_GT(calls, 300U);
  std::size_t runs_with_error = 0;
  for (std::uint64_t n = 1; n <= calls; n += stride) {
    const ScratchDirectory directory;
    DiskModel disk(n);
    const FaultVfs vfs(disk);
    Ledger ledger;
    disk.fail_at(n, lasting);
    open_and_work(directory / "shop.db", ledger, 0);
    runs_with_error += ledger.errors.empty() ? 0U : 1U;
    for (const auto code : ledger.errors)
      ASSERT_EQ(word_of(code), "io") << "call " << n << " failed";
    // And the power fails afterwards: what a failed sync forgot must not have been acknowledged.
    disk.cut_power_now();
    disk.start_again();
    ASSERT_EQ(findings(directory / "shop.db", ledger), std::vector<std::string>{})
        << "call " << n << " failed";
  }
  EXPECT_GT(runs_with_error, calls / stride / 3);
}

TEST(IoError, InAnyOneCallLosesNothingAcknowledged) {
  sweep_failing_calls(DiskModel::Lasting::once, 1);
}

TEST(IoError, FromAnyCallOnLosesNothingAcknowledged) {
  sweep_failing_calls(DiskModel::Lasting::for_good, 5);
}

TEST(FullDisk, AtAnyByteIsSaidSoAndLosesNothing) {
  const std::uint64_t bytes = plain_run().bytes;
  std::size_t runs_full = 0;
  for (std::uint64_t capacity = 0; capacity < bytes; capacity += 2477) {
    const ScratchDirectory directory;
    DiskModel disk(capacity);
    const FaultVfs vfs(disk);
    Ledger ledger;
    disk.set_capacity(capacity);
    open_and_work(directory / "shop.db", ledger, 0);
    runs_full += ledger.errors.empty() ? 0U : 1U;
    for (const auto code : ledger.errors)
      ASSERT_EQ(word_of(code), "disk-full") << capacity << " bytes";
    disk.set_capacity(std::nullopt);
    ASSERT_EQ(findings(directory / "shop.db", ledger), std::vector<std::string>{}) << capacity << " bytes";
  }
  EXPECT_GT(runs_full, bytes / 2477 / 2);
}

TEST(FullDisk, IsWorkedOnAgainOnceThereIsRoom) {
  const ScratchDirectory directory;
  DiskModel disk(1);
  const FaultVfs vfs(disk);
  Ledger ledger;
  const auto store = Store::open(directory / "shop.db", fault_options());
  work(*store, ledger, 0);
  EXPECT_TRUE(ledger.errors.empty());
  disk.set_capacity(disk.bytes_used());
  work(*store, ledger, 1);
  EXPECT_EQ(ledger.errors, std::set{StoreErrorCode::disk_full});
  ledger.errors.clear();
  disk.set_capacity(std::nullopt);
  const std::size_t before = ledger.acknowledged.size();
  work(*store, ledger, 2);
  EXPECT_TRUE(ledger.errors.empty());
  EXPECT_GT(ledger.acknowledged.size(), before);
  EXPECT_TRUE(store->verify().ok());
}

TEST(ReadOnlyDisk, IsSaidSoWhenTheStoreIsOpened) {
  const ScratchDirectory directory;
  DiskModel disk(1);
  const FaultVfs vfs(disk);
  Ledger ledger;
  open_and_work(directory / "shop.db", ledger, 0);
  ASSERT_TRUE(ledger.errors.empty());
  disk.set_read_only(true);
  open_and_work(directory / "shop.db", ledger, 1);
  EXPECT_EQ(ledger.errors, std::set{StoreErrorCode::read_only});
  disk.set_read_only(false);
  EXPECT_EQ(findings(directory / "shop.db", ledger), std::vector<std::string>{});
}

TEST(ReadOnlyDisk, IsSaidSoWhenItBecomesSoAndReadingGoesOn) {
  const ScratchDirectory directory;
  DiskModel disk(1);
  const FaultVfs vfs(disk);
  Ledger ledger;
  {
    const auto store = Store::open(directory / "shop.db", fault_options());
    work(*store, ledger, 0);
    ASSERT_TRUE(ledger.errors.empty());
    disk.set_read_only(true);
    work(*store, ledger, 1);
    EXPECT_EQ(ledger.errors, std::set{StoreErrorCode::read_only});
    EXPECT_FALSE(store->events().read("job/1").empty());
    disk.set_read_only(false);
    work(*store, ledger, 2);
  }
  EXPECT_EQ(findings(directory / "shop.db", ledger), std::vector<std::string>{});
}

}  // namespace
}  // namespace pumpwright::store
