// The log against a model that is a map of vectors: whatever is asked in whatever order, both answer alike.
#include <map>
#include <thread>

#include <fmt/format.h>
#include <rapidcheck.h>

#include "tests/unit/store/scratch_store.h"

namespace pumpwright::store {
namespace {

struct Request {
  int stream = 0;
  std::vector<int> keys;      // few different ones, so that they often meet
  std::vector<int> payloads;  // one for each key
  int expected = 0;           // 0: no head expected, 1: the present one, 2: the empty one
};

rc::Gen<Request> request() {
  return rc::gen::map(
      rc::gen::tuple(rc::gen::inRange(0, 3), rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 12)),
                     rc::gen::inRange(0, 6), rc::gen::inRange(0, 3)),
      [](const auto& drawn) {
        Request made;
        made.stream = std::get<0>(drawn);
        made.keys = std::get<1>(drawn);
        if (made.keys.empty()) made.keys = {0};
        if (made.keys.size() > 6) made.keys.resize(6);
        // Most keys always come with the same payload; sometimes one comes with another.
        for (const int key : made.keys)
          made.payloads.push_back(std::get<2>(drawn) == 0 ? key + 100 : key);
        made.expected = std::get<3>(drawn);
        return made;
      });
}

std::string stream_of(int number) {
  return fmt::format("job/{}", number);
}

Append append_for(const Request& wanted, const Head& present) {
  Append append = append_of(stream_of(wanted.stream), {});
  for (std::size_t i = 0; i < wanted.keys.size(); ++i) {
    append.events.push_back(
        event(fmt::format("k{}", wanted.keys[i]), fmt::format("p{}", wanted.payloads[i])));
  }
  if (wanted.expected == 1) append.expected_head = present;
  if (wanted.expected == 2) append.expected_head = Head{};
  return append;
}

// The same rules, said as simply as possible.
class Model {
 public:
  enum class Answer { appended, head_moved, key_reused };

  Answer append(const Append& wanted) {
    std::map<std::string, std::string> mine;
    std::size_t fresh = 0;
    for (const auto& one : wanted.events) {
      const std::string content = wanted.stream + " " + one.type + " " + one.payload;
      const auto known = contents_.find(one.key);
      const auto [own, is_first] = mine.emplace(one.key, content);
      if (own->second != content || (known != contents_.end() && known->second != content))
        return Answer::key_reused;
      if (is_first && known == contents_.end()) ++fresh;
    }
    auto& keys = streams_[wanted.stream];
    if (fresh > 0 && wanted.expected_head && wanted.expected_head->seq != keys.size())
      return Answer::head_moved;
    for (const auto& one : wanted.events) {
      if (contents_.emplace(one.key, mine.at(one.key)).second) keys.push_back(one.key);
    }
    return Answer::appended;
  }
  const std::vector<std::string>& keys(const std::string& stream) { return streams_[stream]; }

 private:
  std::map<std::string, std::vector<std::string>> streams_;
  std::map<std::string, std::string> contents_;  // by key
};

Model::Answer answer_of(const AppendResult& result) {
  if (std::holds_alternative<Appended>(result)) return Model::Answer::appended;
  if (std::holds_alternative<HeadMoved>(result)) return Model::Answer::head_moved;
  RC_ASSERT(std::holds_alternative<KeyReused>(result));
  return Model::Answer::key_reused;
}

void compare(const Store& store, EventLog& log, Model& model) {
  for (int s = 0; s < 3; ++s) {
    std::vector<std::string> keys;
    for (const auto& one : log.read(stream_of(s)))
      keys.push_back(one.key);
    RC_ASSERT(keys == model.keys(stream_of(s)));
    RC_ASSERT(log.head(stream_of(s)).seq == keys.size());
    RC_ASSERT(!log.verify_stream(stream_of(s)).broken.has_value());
  }
  RC_ASSERT(store.verify().ok());
}

TEST(EventLogProperties, AnswersAsTheModelDoesToAnySequenceOfAppends) {
  EXPECT_TRUE(rc::check("log and model agree", [] {
    const auto requests = *rc::gen::container<std::vector<Request>>(request());
    ScratchStore scratch;
    Model model;
    for (const Request& wanted : requests) {
      const Append append = append_for(wanted, scratch->events().head(stream_of(wanted.stream)));
      const auto result = scratch->events().append(append);
      RC_ASSERT(answer_of(result) == model.append(append));
      if (const auto* appended = std::get_if<Appended>(&result)) {
        RC_ASSERT(appended->events.size() == append.events.size());
        for (std::size_t i = 0; i < append.events.size(); ++i) {
          RC_ASSERT(appended->events[i].key == append.events[i].key);
          RC_ASSERT(appended->events[i].payload == append.events[i].payload);
          RC_ASSERT(scratch->events().find(append.events[i].key) == appended->events[i]);
        }
      }
    }
    compare(*scratch.store, scratch->events(), model);
    scratch.store.reset();
    scratch.store = scratch.open();
    compare(*scratch.store, scratch->events(), model);
  }));
}

// Without expected heads and with one payload a key, the order in which threads come does not matter for what
// is there.
TEST(EventLogProperties, KeepsEachKeyOnceWhateverTheInterleavingOfThreads) {
  EXPECT_TRUE(rc::check("every key once, chains whole", [] {
    const auto parts = *rc::gen::container<std::vector<std::vector<int>>>(
        4, rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 30)));
    ScratchStore scratch;
    std::vector<std::thread> threads;
    threads.reserve(parts.size());
    for (const auto& keys : parts) {
      threads.emplace_back([&scratch, &keys] {
        for (const int key : keys) {
          must_append(*scratch.store, append_of(stream_of(key % 3), {event(fmt::format("k{}", key))}));
        }
      });
    }
    for (auto& thread : threads)
      thread.join();
    std::map<std::string, int> expected;
    for (const auto& keys : parts) {
      for (const int key : keys)
        expected[fmt::format("k{}", key)] = 1;
    }
    std::map<std::string, int> found;
    for (int s = 0; s < 3; ++s) {
      for (const auto& one : scratch->events().read(stream_of(s)))
        ++found[one.key];
    }
    RC_ASSERT(found == expected);
    RC_ASSERT(scratch->verify().ok());
  }));
}

}  // namespace
}  // namespace pumpwright::store
