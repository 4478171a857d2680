#include "tests/fault/store/workload.h"

#include <algorithm>

#include <fmt/format.h>

#include "store/event_hash.h"

namespace pumpwright::store {
namespace {

constexpr int steps = 14;

template <typename Function>
void noting_errors(Ledger& ledger, Function function) {
  try {
    function();
  } catch (const StoreError& error) {
    ledger.errors.insert(error.code());
  }
}

Append step_append(int round, int step) {
  Append append;
  append.stream = fmt::format("job/{}", step % 3);
  for (int i = 0; i <= step % 3; ++i) {
    append.events.push_back({"reading", "jm", "bench-3", static_cast<std::uint64_t>(step),
                             fmt::format("r{}-s{}-{}", round, step, i),
                             std::string(static_cast<std::size_t>(200 + 1700 * (step % 4)), 'p')});
  }
  append.index_change = [stream = append.stream](std::span<const StoredEvent> appended) {
    IndexChange change;
    change.entry = IndexEntry{stream, stream, std::to_string(appended.back().seq),
                              "greenhouse loop " + std::to_string(appended.back().seq), true};
    for (const auto& one : appended) {
      change.put_values.push_back({stream, "shaft-runout", one.accepted_at, one.key, 1.5, "{}"});
    }
    return change;
  };
  return append;
}

void append_step(Store& store, Ledger& ledger, int round, int step) {
  const Append append = step_append(round, step);
  auto& keys = ledger.attempted.emplace_back();
  for (const auto& one : append.events)
    keys.push_back(one.key);
  const auto result = store.events().append(append);
  const auto& events = std::get<Appended>(result).events;
  ledger.acknowledged.insert(ledger.acknowledged.end(), events.begin(), events.end());
}

void put_secret(Store& store, Ledger& ledger, int round, int step) {
  const std::string value = fmt::format("r{}-s{}", round, step);
  ledger.secrets_attempted.insert(value);
  store.secrets().put("session", {"jm", value, std::nullopt});
  ledger.secret_acknowledged = value;
  ledger.secrets_attempted = {value};
}

void find_missing_events(Store& store, const Ledger& ledger, std::vector<std::string>& found) {
  for (const auto& event : ledger.acknowledged) {
    const auto stored = store.events().find(event.key);
    if (!stored) found.push_back("acknowledged event " + event.key + " is missing");
    if (stored && *stored != event) found.push_back("acknowledged event " + event.key + " differs");
  }
  for (const auto& keys : ledger.attempted) {
    const auto there = std::count_if(keys.begin(), keys.end(),
                                     [&](const auto& key) { return store.events().find(key).has_value(); });
    if (there != 0 && there != static_cast<std::ptrdiff_t>(keys.size())) {
      found.push_back("half of the append of " + keys.front() + " is there");
    }
  }
}

void find_other_losses(Store& store, const Ledger& ledger, std::vector<std::string>& found) {
  for (const auto& hash : ledger.attachments_acknowledged) {
    if (!store.attachments().get(hash)) found.push_back("an acknowledged attachment is missing");
  }
  const auto secret = store.secrets().get("session", "jm");
  const bool fits = secret ? ledger.secrets_attempted.contains(secret->bytes) : !ledger.secret_acknowledged;
  if (!fits) found.emplace_back("the secret is not the last one acknowledged");
  std::size_t values = 0;
  for (const auto& stream : store.events().streams()) {
    const auto entry = store.index().entry(stream.stream);
    if (!entry || entry->fields != std::to_string(stream.head.seq)) {
      found.push_back("the index of " + stream.stream + " does not fit it");
    }
    values += stream.head.seq;
  }
  if (store.index().series("shaft-runout", SIZE_MAX).size() != values) {
    found.emplace_back("the values do not fit the events");
  }
}

}  // namespace

StoreOptions fault_options() {
  StoreOptions options;
  options.checkpoint_pages = 12;
  options.busy_timeout_ms = 1000;
  return options;
}

void work(Store& store, Ledger& ledger, int round) {
  for (int step = 0; step < steps; ++step) {
    noting_errors(ledger, [&] { append_step(store, ledger, round, step); });
    if (step % 5 == 0) noting_errors(ledger, [&] { put_secret(store, ledger, round, step); });
    if (step % 4 == 1) noting_errors(ledger, [&] { store.events().read("job/1"); });
    if (step == 6) {
      noting_errors(ledger, [&] {
        const std::string photo(20'000, static_cast<char>('a' + round));
        ledger.attachments_acknowledged.push_back(store.attachments().put({"image/png", photo}));
      });
    }
  }
}

void open_and_work(const std::filesystem::path& file, Ledger& ledger, int round) {
  noting_errors(ledger, [&] {
    const auto store = Store::open(file, fault_options());
    work(*store, ledger, round);
  });
}

std::vector<std::string> findings(const std::filesystem::path& file, const Ledger& ledger) {
  std::vector<std::string> found;
  try {
    const auto store = Store::open(file, fault_options());
    found = store->verify().problems;
    find_missing_events(*store, ledger, found);
    find_other_losses(*store, ledger, found);
    const auto last =
        store->events().append({"job/after", {{"note", "jm", "bench-3", 1, "after", "{}"}}, {}, {}});
    if (!std::holds_alternative<Appended>(last)) found.emplace_back("the store takes nothing any more");
  } catch (const StoreError& error) {
    found.push_back(fmt::format("{}: {}", word_of(error.code()), error.what()));
  }
  return found;
}

}  // namespace pumpwright::store
