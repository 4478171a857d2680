// Appends from several threads until it is killed, and writes a line for every acknowledged event: "key
// hash".
#include <cstdlib>
#include <string>
#include <thread>
#include <vector>

#include <fmt/format.h>
#include <unistd.h>

#include "store/event_hash.h"
#include "store/store.h"

namespace {

using namespace pumpwright::store;

// One write below PIPE_BUF is one piece: lines of threads never mix, and a line is there whole or not at all.
void acknowledge(const StoredEvent& event) {
  const std::string line = event.key + " " + to_hex(event.hash) + "\n";
  if (::write(STDOUT_FILENO, line.data(), line.size()) != static_cast<ssize_t>(line.size())) std::_Exit(3);
}

void append_for_good(Store& store, const std::string& round, int thread) {
  for (int i = 0;; ++i) {
    Append append;
    append.stream = fmt::format("job/{}", i % 4);
    for (int e = 0; e < 2; ++e) {
      append.events.push_back({"reading", "jm", fmt::format("bench-{}", thread),
                               static_cast<std::uint64_t>(i), fmt::format("{}-{}-{}-{}", round, thread, i, e),
                               std::string(300, 'p')});
    }
    const AppendResult result = store.events().append(append);
    for (const auto& event : std::get<Appended>(result).events)
      acknowledge(event);
  }
}

}  // namespace

int main(int count, char** arguments) {
  if (count != 3) return 2;
  StoreOptions options;
  options.checkpoint_pages = 50;
  const auto store = Store::open(arguments[1], options);
  std::vector<std::thread> threads;
  threads.reserve(4);
  for (int t = 0; t < 4; ++t)
    threads.emplace_back([&, t] { append_for_good(*store, arguments[2], t); });
  for (auto& thread : threads)
    thread.join();
  return 0;
}
