// How many events a second the store takes, each acknowledged after its sync, beside plain SQLite that
// inserts the same rows in transactions of the same sizes with the same settings; and how long a search takes
// beside a plain FTS5 table.
#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <functional>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

#include <fmt/format.h>
#include <sqlite3.h>
#include <unistd.h>

#include "bench/plain_sqlite.h"
#include "store/event_hash.h"
#include "store/store.h"

namespace {

using namespace pumpwright::store;
namespace bench = pumpwright::bench;
using Clock = std::chrono::steady_clock;

double seconds_since(Clock::time_point start) {
  return std::chrono::duration<double>(Clock::now() - start).count();
}

double quantile_ms(std::vector<double>& seconds, double share) {
  if (seconds.empty()) return 0.0;
  std::sort(seconds.begin(), seconds.end());
  return 1e3 * seconds[static_cast<std::size_t>(share * static_cast<double>(seconds.size() - 1))];
}

// A payload as a reading of a bench is: about 400 bytes.
NewEvent reading(int thread, int i) {
  return {"reading",
          "jm",
          fmt::format("bench-{}", thread),
          static_cast<std::uint64_t>(i),
          fmt::format("{:08x}-{}-{}",
                      (static_cast<unsigned>(i) * 2654435761U) ^ static_cast<unsigned>(thread), thread, i),
          R"({"event": "reading", "id": "r31", "check": "impeller-sweep", "points": [)" +
              std::string(330, '1') + "]}"};
}

struct Run {
  double events_per_s = 0.0;
  double p50_ms = 0.0;
  double p99_ms = 0.0;
  std::vector<StoredEvent> rows;         // in the order they were committed
  std::vector<std::size_t> group_sizes;  // events in each transaction
};

Run run_store(const std::filesystem::path& file, int threads, int events_each, bool with_index) {
  const auto store = Store::open(file);
  Run run;
  store->events().set_listener([&](std::span<const StoredEvent> events) {
    run.group_sizes.push_back(events.size());
    run.rows.insert(run.rows.end(), events.begin(), events.end());
  });
  std::mutex guard;
  std::vector<double> latencies;
  const auto start = Clock::now();
  std::vector<std::thread> running;
  for (int t = 0; t < threads; ++t) {
    running.emplace_back([&, t] {
      std::vector<double> mine;
      for (int i = 0; i < events_each; ++i) {
        Append append;
        append.stream = fmt::format("job/{}", t);
        append.events = {reading(t, i)};
        if (with_index) {
          append.index_change = [&](std::span<const StoredEvent> appended) {
            const std::string fields =
                R"({"number": "J-1042", "last_at": ")" + appended.back().accepted_at + "\"}";
            return IndexChange{IndexEntry{append.stream, "J-1042", fields, "J-1042 greenhouse HC-40", true},
                               {},
                               {{append.stream, "impeller-sweep", appended.back().accepted_at,
                                 appended.back().key, 3.5, "{}"}}};
          };
        }
        const auto before = Clock::now();
        if (!std::holds_alternative<Appended>(store->events().append(append))) std::abort();
        mine.push_back(seconds_since(before));
      }
      const std::scoped_lock lock(guard);
      latencies.insert(latencies.end(), mine.begin(), mine.end());
    });
  }
  for (auto& one : running)
    one.join();
  run.events_per_s = static_cast<double>(threads * events_each) / seconds_since(start);
  run.p50_ms = quantile_ms(latencies, 0.50);
  run.p99_ms = quantile_ms(latencies, 0.99);
  return run;
}

void bench_appends(const std::filesystem::path& directory, int threads, bool with_index) {
  const int events_each = std::max(60, 3000 / threads);
  std::vector<double> ratios;
  // Three turns each, one after the other, since a shared disk changes its speed; the middle ratio is what
  // counts.
  for (int turn = 0; turn < 3; ++turn) {
    const std::string name = fmt::format("t{}-{}-{}", threads, with_index, turn);
    const Run run = run_store(directory / (name + ".db"), threads, events_each, with_index);
    const double plain = bench::plain_rows_per_s(directory / (name + "-plain.db"),
                                                 {.rows = run.rows, .transactions = run.group_sizes});
    const double mean_group =
        static_cast<double>(run.rows.size()) / static_cast<double>(run.group_sizes.size());
    fmt::print(
        "{:2} threads{}: {:7.0f} events/s  p50 {:6.2f} ms  p99 {:6.2f} ms  mean group {:4.1f}   plain SQLite "
        "{:7.0f}/s"
        "   ratio {:.2f}\n",
        threads, with_index ? ", with index change" : "", run.events_per_s, run.p50_ms, run.p99_ms,
        mean_group, plain, run.events_per_s / plain);
    std::fflush(stdout);
    ratios.push_back(run.events_per_s / plain);
  }
  std::sort(ratios.begin(), ratios.end());
  fmt::print("{:2} threads{}: middle ratio {:.2f}\n", threads, with_index ? ", with index change" : "",
             ratios[1]);
}

// --- search

constexpr int search_entries = 200'000;

std::string search_text(int i) {
  static constexpr const char* customers[] = {"Greenhouse North", "Greenhouse South", "Aquarium",
                                              "Orchard packing line"};
  const auto mixed = static_cast<unsigned>(i) * 2654435761U;
  return fmt::format("J-{} {} HC-{} S{:08x}", i, customers[static_cast<unsigned>(i) % 4U], mixed % 97U,
                     mixed);
}

// One event a stream, then the index in one transaction.
void fill_store(Store& store) {
  constexpr int threads = 64;
  std::vector<std::thread> running;
  for (int t = 0; t < threads; ++t) {
    running.emplace_back([&store, t] {
      for (int i = t; i < search_entries; i += threads) {
        Append append;
        append.stream = fmt::format("job/{}", i);
        append.events = {{"opened", "jm", "bench-1", 1, fmt::format("k{}", i), "{}"}};
        if (!std::holds_alternative<Appended>(store.events().append(append))) std::abort();
      }
    });
  }
  for (auto& thread : running)
    thread.join();
  store.index().rebuild([](const std::string& stream) {
    return StreamIndex{IndexEntry{stream, stream, "{}", search_text(std::atoi(stream.c_str() + 4)), false},
                       {}};
  });
}

sqlite3* fill_plain(const std::filesystem::path& file) {
  sqlite3* database = bench::opened(file);
  bench::execute(database,
                 "CREATE VIRTUAL TABLE s USING fts5 (search, tokenize = 'unicode61 remove_diacritics 2',"
                 " prefix = '1 2 3', columnsize = 0); BEGIN");
  auto* insert = bench::prepared(database, "INSERT INTO s (rowid, search) VALUES (?1, ?2)");
  for (int i = 0; i < search_entries; ++i) {
    const std::string text = search_text(i);
    sqlite3_bind_int64(insert, 1, i + 1);
    bench::bind_text(insert, 2, text);
    bench::step_once(database, insert);
  }
  sqlite3_finalize(insert);
  bench::execute(database, "COMMIT");
  return database;
}

double middle_ms(const std::function<std::size_t()>& search, std::size_t& hits) {
  std::vector<double> times;
  for (int i = 0; i < 60; ++i) {
    const auto start = Clock::now();
    hits = search();
    times.push_back(seconds_since(start));
  }
  return quantile_ms(times, 0.5);
}

void bench_search(const std::filesystem::path& directory) {
  const auto store = Store::open(directory / "search.db");
  fill_store(*store);
  sqlite3* plain = fill_plain(directory / "search-plain.db");
  auto* select =
      bench::prepared(plain, "SELECT rowid, search FROM s WHERE s MATCH ?1 ORDER BY rowid DESC LIMIT 20");
  struct Question {
    const char* typed;
    const char* expression;
  };
  for (const Question& question :
       {Question{"J-1234", "\"J-1234\"*"}, Question{"gre", "\"gre\"*"}, Question{"j", "\"j\"*"},
        Question{"orchard hc-4", "\"orchard\"* AND \"hc-4\"*"}, Question{"s00", "\"s00\"*"}}) {
    std::size_t ours = 0;
    std::size_t theirs = 0;
    const double own_ms = middle_ms([&] { return store->index().search(question.typed, 20).size(); }, ours);
    const double plain_ms = middle_ms(
        [&] {
          std::size_t rows = 0;
          bench::bind_text(select, 1, question.expression);
          while (sqlite3_step(select) == SQLITE_ROW)
            rows += sqlite3_column_bytes(select, 1) > 0 ? 1U : 0U;
          sqlite3_reset(select);
          return rows;
        },
        theirs);
    fmt::print("search {:14} of {} entries: {:7.3f} ms, {} hits   plain FTS5 {:7.3f} ms, {} hits\n",
               question.typed, search_entries, own_ms, ours, plain_ms, theirs);
  }
  sqlite3_finalize(select);
  sqlite3_close(plain);
}

}  // namespace

// store_bench [append|search] [DIRECTORY]: the directory decides which disk is measured. Both without a word.
int main(int count, char** arguments) {
  const std::string what = count > 1 ? arguments[1] : "";
  const std::filesystem::path base = count > 2 ? arguments[2] : std::filesystem::temp_directory_path();
  if (!what.empty() && what != "append" && what != "search") {
    fmt::print(stderr, "usage: store_bench [append|search] [DIRECTORY]\n");
    return 2;
  }
  const auto directory = base / fmt::format("pumpwright-store-bench-{}", ::getpid());
  std::filesystem::create_directories(directory);
  if (what != "search")
    for (const bool with_index : {false, true})
      for (const int threads : {1, 8, 50})
        bench_appends(directory, threads, with_index);
  if (what != "append") bench_search(directory);
  std::filesystem::remove_all(directory);
  return 0;
}
