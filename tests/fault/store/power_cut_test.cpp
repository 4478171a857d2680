// The power fails in every single writing call of a workload. Locking mode: normal, with the shared memory of
// the write-ahead log on the heap (fault_vfs.h).
#include <thread>

#include <SQLiteCpp/SQLiteCpp.h>

#include "tests/fault/store/fault_vfs.h"
#include "tests/fault/store/workload.h"
#include "tests/unit/store/scratch_store.h"

namespace pumpwright::store {
namespace {

std::uint64_t changing_calls_of_the_workload() {
  const ScratchDirectory directory;
  DiskModel disk(1);
  const FaultVfs vfs(disk);
  Ledger ledger;
  open_and_work(directory / "shop.db", ledger, 0);
  EXPECT_TRUE(ledger.errors.empty());
  EXPECT_EQ(findings(directory / "shop.db", ledger), std::vector<std::string>{});
  return disk.changing_calls();
}

TEST(PowerCut, AtAnyWriteLosesNothingAcknowledged) {
  const std::uint64_t calls = changing_calls_of_the_workload();
  ASSERT_GT(calls, 300U);
  std::size_t acknowledged = 0;
  for (std::uint64_t n = 1; n <= calls; ++n) {
    const ScratchDirectory directory;
    DiskModel disk(n);
    const FaultVfs vfs(disk);
    Ledger ledger;
    disk.cut_power_at(n);
    open_and_work(directory / "shop.db", ledger, 0);
    disk.cut_power_now();  // the last calls may not come: closing writes less when there is less to move
    disk.start_again();
    acknowledged += ledger.acknowledged.size();
    ASSERT_EQ(findings(directory / "shop.db", ledger), std::vector<std::string>{}) << "cut at call " << n;
  }
  EXPECT_GT(acknowledged, calls) << "the sweep must reach deep into the workload";
}

TEST(PowerCut, DuringTheRecoveryFromAPowerCutLosesNothingEither) {
  const std::uint64_t calls = changing_calls_of_the_workload();
  for (std::uint64_t n = 60; n <= calls; n += 11) {
    const ScratchDirectory directory;
    DiskModel disk(1000 + n);
    const FaultVfs vfs(disk);
    Ledger ledger;
    disk.cut_power_at(n);
    open_and_work(directory / "shop.db", ledger, 0);
    disk.cut_power_now();
    for (int again = 1; again <= 3; ++again) {
      disk.start_again();
      disk.cut_power_at(1 + (n * 7 + static_cast<std::uint64_t>(again) * 13) % 90);
      open_and_work(directory / "shop.db", ledger, again);
      disk.cut_power_now();
    }
    disk.start_again();
    ASSERT_EQ(findings(directory / "shop.db", ledger), std::vector<std::string>{}) << "cut at call " << n;
  }
}

TEST(PowerCut, WhileManyThreadsShareTransactionsLosesNothingAcknowledged) {
  for (std::uint64_t n = 1; n <= 60; ++n) {
    const ScratchDirectory directory;
    DiskModel disk(n);
    const FaultVfs vfs(disk);
    Ledger empty;
    open_and_work(directory / "shop.db", empty, 0);
    std::vector<Ledger> ledgers(4);
    {
      const auto store = Store::open(directory / "shop.db", fault_options());
      disk.cut_power_at(n * 5);
      std::vector<std::thread> threads;
      for (std::size_t t = 0; t < ledgers.size(); ++t) {
        threads.emplace_back([&, t] { work(*store, ledgers[t], static_cast<int>(t) + 1); });
      }
      for (auto& thread : threads)
        thread.join();
    }
    disk.cut_power_now();
    disk.start_again();
    for (const Ledger& ledger : ledgers) {
      empty.attempted.insert(empty.attempted.end(), ledger.attempted.begin(), ledger.attempted.end());
      empty.acknowledged.insert(empty.acknowledged.end(), ledger.acknowledged.begin(),
                                ledger.acknowledged.end());
      // They all write the same secret, so any of their values may be the last.
      for (int step = 0; step < 20; ++step) {
        for (int round = 0; round < 5; ++round) {
          empty.secrets_attempted.insert("r" + std::to_string(round) + "-s" + std::to_string(step));
        }
      }
    }
    ASSERT_EQ(findings(directory / "shop.db", empty), std::vector<std::string>{}) << "cut at call " << n * 5;
  }
}

// --- the harness itself must be able to see a loss

// Rows that were acknowledged and are not there after a cut at call n.
int rows_lost_by_plain_sqlite(const char* synchronous, std::uint64_t n) {
  const ScratchDirectory directory;
  const std::string file = directory / "plain.db";
  DiskModel disk(n);
  const FaultVfs vfs(disk);
  int acknowledged = 0;
  try {
    SQLite::Database database(file, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    database.exec("PRAGMA journal_mode = WAL; CREATE TABLE t (x)");
    database.exec(std::string("PRAGMA synchronous = ") + synchronous);
    disk.cut_power_at(n);
    for (; acknowledged < 20; ++acknowledged)
      database.exec("INSERT INTO t VALUES (1)");
  } catch (const SQLite::Exception&) {
    EXPECT_TRUE(disk.power_is_cut());
  }
  disk.cut_power_now();
  disk.start_again();
  try {
    SQLite::Database database(file, SQLite::OPEN_READWRITE);
    return acknowledged - database.execAndGet("SELECT count(*) FROM t").getInt();
  } catch (const SQLite::Exception&) {
    return acknowledged + 1;  // the file is damaged: the table itself is lost
  }
}

TEST(FaultHarness, SeesTheLossThatPlainSqliteWithoutSyncSuffers) {
  int losses_without = 0;
  for (std::uint64_t n = 1; n <= 60; ++n) {
    losses_without += rows_lost_by_plain_sqlite("OFF", n) > 0 ? 1 : 0;
    ASSERT_LE(rows_lost_by_plain_sqlite("FULL", n), 0) << "cut at call " << n;
  }
  EXPECT_GT(losses_without, 10);
}

TEST(FaultHarness, SeesTheLossWhenTheStoresSyncsAreIgnored) {
  int runs_with_loss = 0;
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    const ScratchDirectory directory;
    DiskModel disk(seed);
    const FaultVfs vfs(disk);
    Ledger ledger;
    open_and_work(directory / "shop.db", ledger, 0);
    disk.ignore_syncs();
    disk.cut_power_at(150);
    open_and_work(directory / "shop.db", ledger, 1);
    disk.cut_power_now();
    disk.start_again();
    runs_with_loss += findings(directory / "shop.db", ledger).empty() ? 0 : 1;
  }
  EXPECT_GT(runs_with_loss, 5);
}

}  // namespace
}  // namespace pumpwright::store
