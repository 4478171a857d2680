#include "server/change_hub.h"

#include <algorithm>
#include <charconv>
#include <utility>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "server/random_token.h"
#include "shop/job_index.h"
#include "store/event_hash.h"

namespace pumpwright::server {
namespace {

// The check an event is about; empty when it is about none.
std::string check_of(const store::StoredEvent& event) {
  if (event.type != "reading" && event.type != "deviation-accepted") return {};
  const auto payload = nlohmann::json::parse(event.payload, nullptr, false);
  if (!payload.is_object()) return {};
  const auto check = payload.find("check");
  return check != payload.end() && check->is_string() ? check->get<std::string>() : std::string();
}

std::string job_text(const store::StoredEvent& event) {
  nlohmann::json data{
      {"seq", event.seq}, {"head", store::to_hex(event.hash)}, {"type", event.type}, {"actor", event.actor}};
  if (auto check = check_of(event); !check.empty()) data["check"] = std::move(check);
  return event_text("change", std::to_string(event.seq),
                    data.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace));
}

std::string shop_data(const std::string& stream, std::uint64_t seq) {
  return nlohmann::json{{"stream", stream}, {"seq", seq}}.dump(-1, ' ', false,
                                                               nlohmann::json::error_handler_t::replace);
}

bool gone(const std::weak_ptr<EventChannel>& channel) {
  const auto open = channel.lock();
  return !open || open->closed();
}

}  // namespace

ChangeHub::ChangeHub(store::EventLog& events) : events_(events), run_(random_token().substr(0, 12)) {}

void ChangeHub::on_committed(std::span<const store::StoredEvent> events) {
  for (const auto& event : events) {
    if (shop::is_old(event.stream)) continue;  // thousands at once, and no list of a tablet shows them
    std::vector<std::shared_ptr<Listener>> to_job;
    std::vector<std::shared_ptr<Listener>> to_shop;
    std::string shop_text;
    std::uint64_t number = 0;
    {
      const std::lock_guard lock(mutex_);
      number = next_number_;
      shop_text = next_shop_text(event);
      const auto [first, last] = of_jobs_.equal_range(event.stream);
      for (auto at = first; at != last; ++at)
        to_job.push_back(at->second);
      to_shop = of_shop_;
    }
    if (!to_job.empty()) {
      const auto text = job_text(event);
      for (const auto& listener : to_job)
        tell(*listener, event.seq, text);
    }
    for (const auto& listener : to_shop)
      tell(*listener, number, shop_text);
  }
}

std::string ChangeHub::next_shop_text(const store::StoredEvent& event) {
  auto text =
      event_text("change", fmt::format("{}-{}", run_, next_number_), shop_data(event.stream, event.seq));
  recent_.push_back({.number = next_number_++, .text = text});
  if (recent_.size() > replay_max) recent_.pop_front();
  return text;
}

void ChangeHub::tell(Listener& listener, std::uint64_t seq, const std::string& text) const {
  const std::lock_guard lock(listener.mutex);
  if (listener.catching_up) {
    if (listener.early.size() < replay_max)
      listener.early.emplace_back(seq, text);
    else
      listener.missed = true;
    return;
  }
  if (seq <= listener.sent_seq) return;
  listener.sent_seq = seq;
  if (const auto channel = listener.channel.lock()) channel->push(text);
}

std::shared_ptr<EventChannel> ChangeHub::listen_to_job(const std::string& stream,
                                                       std::optional<std::uint64_t> after_seq,
                                                       Listening listening) {
  auto channel = std::make_shared<EventChannel>(std::move(listening.still_allowed));
  auto listener = std::make_shared<Listener>();
  listener->channel = channel;
  listener->session = std::move(listening.session);
  listener->catching_up = true;
  {
    const std::lock_guard lock(mutex_);
    std::erase_if(of_jobs_, [](const auto& entry) { return gone(entry.second->channel); });
    of_jobs_.emplace(stream, listener);
  }
  catch_up(stream, after_seq, *listener);
  return channel;
}

// What is committed while the log is being read waits in `early`, so that order holds and nothing comes
// twice.
void ChangeHub::catch_up(const std::string& stream, std::optional<std::uint64_t> after_seq,
                         Listener& listener) const {
  const auto head = events_.head(stream).seq;
  auto after = after_seq.value_or(head == 0 ? 0 : head - 1);
  if (after < head && head - after > replay_max) after = head - 1;
  const auto missed =
      after < head ? events_.read(stream, after + 1, replay_max) : std::vector<store::StoredEvent>{};

  const std::lock_guard lock(listener.mutex);
  const auto channel = listener.channel.lock();
  // An id from a stream that never got so far (another shop's) must not silence what comes.
  listener.sent_seq = std::min(after, head);
  for (const auto& event : missed) {
    listener.sent_seq = event.seq;
    channel->push(job_text(event));
  }
  for (const auto& [seq, text] : std::exchange(listener.early, {})) {
    if (seq <= listener.sent_seq) continue;
    listener.sent_seq = seq;
    channel->push(text);
  }
  listener.catching_up = false;
  // Resuming lets the listener find what it missed.
  if (listener.missed) channel->close();
}

std::shared_ptr<EventChannel> ChangeHub::listen_to_shop(const std::string& last_id, Listening listening) {
  auto channel = std::make_shared<EventChannel>(std::move(listening.still_allowed));
  auto listener = std::make_shared<Listener>();
  listener->channel = channel;
  listener->session = std::move(listening.session);
  const auto shop_seq = events_.head("shop").seq;

  const std::lock_guard lock(mutex_);
  std::erase_if(of_shop_, [](const auto& entry) { return gone(entry->channel); });
  std::uint64_t last = 0;
  const auto prefix = run_ + "-";
  const bool known =
      last_id.starts_with(prefix) &&
      std::from_chars(last_id.data() + prefix.size(), last_id.data() + last_id.size(), last).ec ==
          std::errc() &&
      last < next_number_ && (recent_.empty() || last + 1 >= recent_.front().number);
  if (known) {
    for (const auto& change : recent_)
      if (change.number > last) channel->push(change.text);
  } else {
    channel->push(
        event_text("change", fmt::format("{}-{}", run_, next_number_ - 1), shop_data("shop", shop_seq)));
  }
  listener->sent_seq = next_number_ - 1;
  of_shop_.push_back(std::move(listener));
  return channel;
}

void ChangeHub::end_session(const std::string& session) {
  const std::lock_guard lock(mutex_);
  const auto end = [&](const Listener& listener) {
    if (listener.session != session) return;
    if (const auto channel = listener.channel.lock()) channel->close();
  };
  for (const auto& [stream, listener] : of_jobs_)
    end(*listener);
  for (const auto& listener : of_shop_)
    end(*listener);
}

void ChangeHub::end_all() {
  const std::lock_guard lock(mutex_);
  for (const auto& [stream, listener] : of_jobs_)
    if (const auto channel = listener->channel.lock()) channel->close();
  for (const auto& listener : of_shop_)
    if (const auto channel = listener->channel.lock()) channel->close();
  of_jobs_.clear();
  of_shop_.clear();
}

std::size_t ChangeHub::listeners() const {
  const std::lock_guard lock(mutex_);
  return of_jobs_.size() + of_shop_.size();
}

}  // namespace pumpwright::server
