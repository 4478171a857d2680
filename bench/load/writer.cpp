#include "bench/load/writer.h"

#include <ctime>
#include <utility>

#include <fmt/chrono.h>
#include <fmt/format.h>

namespace pumpwright::bench {

Writer::Writer(boost::asio::io_context& io, Visitor& visitor, WriterSetting setting, Faults& faults)
    : exchange_(io, visitor),
      setting_(std::move(setting)),
      faults_(faults),
      pause_(io),
      random_(setting_.seed) {}

void Writer::write_until(Clock::time_point end) {
  end_ = end;
  finished_ = false;
  think();
}

// Between nothing and twice the average, so that the tablets do not march in step.
void Writer::think() {
  if (setting_.think.count() == 0) return hand_in();
  std::uniform_int_distribution<std::int64_t> pause_us(0, 2000 * setting_.think.count());
  pause_.expires_after(std::chrono::microseconds(pause_us(random_)));
  pause_.async_wait([this](const auto& error) {
    if (!error) hand_in();
  });
}

void Writer::hand_in() {
  if (Clock::now() >= end_) {
    finished_ = true;
    exchange_.close();
    return;
  }
  body_ = body_of_next();
  send(false);
}

std::string Writer::body_of_next() {
  ++device_seq_;
  key_ = fmt::format("{}-{}", setting_.key_prefix, device_seq_);
  auto reading = (*setting_.readings)[(setting_.first_reading + device_seq_) % setting_.readings->size()];
  reading["id"] = key_;
  reading["actor"] = setting_.actor;
  reading["time"] = fmt::format("{:%Y-%m-%dT%H:%M:%SZ}", fmt::gmtime(std::time(nullptr)));
  const nlohmann::json event{
      {"key", key_}, {"device_seq", device_seq_}, {"type", "reading"}, {"payload", reading.dump()}};
  return nlohmann::json{{"device", setting_.device}, {"events", nlohmann::json::array({event})}}.dump();
}

void Writer::send(bool again) {
  sent_ = Clock::now();
  exchange_.ask({"POST", "/api/jobs/" + setting_.job + "/events", body_},
                [this, again](const Answer& answer) { on_answer(answer, again); });
}

void Writer::on_answer(const Answer& answer, bool again) {
  if (answer.status != 200) return fail(fmt::format("{}: {}", answer.status, answer.body.substr(0, 300)));
  const auto receipt = nlohmann::json::parse(answer.body, nullptr, false);
  if (!receipt.is_object() || !receipt.contains("accepted") || !receipt["refused"].empty())
    return fail("refused: " + answer.body.substr(0, 300));
  take(receipt, again);
  const bool twice = !again && setting_.resend_every != 0 && device_seq_ % setting_.resend_every == 0;
  twice ? send(true) : think();
}

void Writer::take(const nlohmann::json& receipt, bool again) {
  const auto now = Clock::now();
  bool own = false;
  for (const auto& entry : receipt["accepted"]) {
    const auto key = entry["key"].get<std::string>();
    const auto seq = entry["seq"].get<std::uint64_t>();
    own = own || key == key_;
    if (again) {
      if (key != key_ || seq != seq_)
        faults_.add(fmt::format("{} was handed in twice and stands at {} and {}", key, seq_, seq));
      continue;
    }
    acknowledged_.push_back({key, seq, key == key_ ? device_seq_ : 0, sent_, now});
    if (key == key_) seq_ = seq;
  }
  if (!own) faults_.add(key_ + " is not in its own receipt");
  if (again) ++resent_;
}

// A tablet that met a fault says so and stops.
void Writer::fail(const std::string& what) {
  faults_.add(fmt::format("{} handing in {}: {}", setting_.device, key_, what));
  finished_ = true;
  exchange_.close();
}

}  // namespace pumpwright::bench
