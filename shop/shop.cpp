#include "shop/shop.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "job/json_reader.h"
#include "shop/appending.h"
#include "shop/job_desk.h"
#include "shop/job_fold.h"
#include "shop/job_index.h"
#include "shop/record.h"
#include "shop/shop_desk.h"
#include "shop/shop_log.h"

namespace pumpwright::shop {
namespace {

constexpr std::size_t search_count_max = 200;
constexpr std::size_t past_builds_max = 10;

void want_lead(const Hand& hand) {
  if (!may(hand.person.role, Act::answer_for))
    throw Refused(Refusal::not_allowed, {"Only a lead hand changes what the shop owns.",
                                         "Solo un encargado cambia lo que es del taller."});
}

std::vector<JobCard> cards_in(const std::vector<store::IndexEntry>& entries) {
  std::vector<JobCard> out;
  out.reserve(entries.size());
  for (const auto& entry : entries)
    out.push_back(card_in(entry));
  return out;
}

}  // namespace

class Shop::Impl {
 public:
  Impl(store::Store& the_store, Foundations given)
      : store(the_store),
        foundations(std::move(given)),
        shop(store, foundations),
        jobs(store, foundations, shop),
        book(store.index()) {}

  Record record_of(const std::string& number) const {
    Record record;
    record.stream = job_stream(number);
    record.shop = shop.state()->name;
    record.exported_at = second_text(foundations.now_ms());
    record.events = store.events().read(record.stream);
    if (record.events.empty())
      throw Refused(Refusal::not_found,
                    {"There is no job " + number + ".", "No hay trabajo " + number + "."});
    seal(record, shop.shop_key());
    return record;
  }

  store::Store& store;
  Foundations foundations;
  ShopDesk shop;
  JobDesk jobs;
  LifeBook book;
};

Shop::Shop(store::Store& store, Foundations foundations)
    : impl_(std::make_unique<Impl>(store, std::move(foundations))) {
  const auto entry = store.index().first_entry();
  if (entry && !is_current(*entry)) rebuild_index();
}
Shop::~Shop() = default;

std::shared_ptr<const ShopState> Shop::state() const {
  return impl_->shop.state();
}

bool Shop::has_people() const {
  return !impl_->shop.state()->people.empty();
}

std::optional<Person> Shop::check_password(const std::string& id, std::string_view password) const {
  return impl_->shop.check_password(id, password);
}

std::optional<Person> Shop::check_pin(const std::string& id, const std::string& device,
                                      std::string_view pin) const {
  return impl_->shop.check_pin(id, device, pin);
}

void Shop::set_pin(const Person& person, const std::string& device, std::string_view password,
                   std::string_view pin) {
  impl_->shop.set_pin(person, device, password, pin);
}

void Shop::set_password(const Person& person, std::string_view password, std::string_view new_password) {
  impl_->shop.set_password(person, password, new_password);
}

Person Shop::add_first_person(const NewPerson& wanted, const std::string& device) {
  return impl_->shop.add_first_person(wanted, device);
}

Receipt Shop::add_person(const Hand& hand, const NewPerson& wanted) {
  want_lead(hand);
  return impl_->shop.add_person(hand, wanted);
}

Receipt Shop::hand_in_to_shop(const Hand& hand, std::span<const HandedIn> events) {
  want_lead(hand);
  Receipt receipt = impl_->shop.hand_in(hand, events);
  for (const auto& event : events) {
    const bool taken = std::any_of(receipt.accepted.begin(), receipt.accepted.end(),
                                   [&](const Accepted& a) { return a.key == event.key; });
    if (!taken || event.type != "limit-adopted") continue;
    const std::string limit = job::JsonReader::parse(event.payload).required("limit").text(256);
    const auto state = impl_->shop.state();
    impl_->jobs.spread_adoption(hand, limit, job::format_utc_time(state->adoptions.at(limit).time));
  }
  return receipt;
}

std::string Shop::open_job(const Hand& hand, const NewJob& wanted) {
  return impl_->jobs.open_job(hand, wanted);
}

Receipt Shop::hand_in(const Hand& hand, const std::string& number, std::span<const HandedIn> events) {
  return impl_->jobs.hand_in(hand, number, events);
}

Receipt Shop::release(const Hand& hand, const std::string& number, const HandedIn& envelope,
                      std::string_view password, const std::string& statement) {
  return impl_->jobs.release(hand, number, envelope, password, statement);
}

std::shared_ptr<const JobPicture> Shop::job(const std::string& number) const {
  return impl_->jobs.picture(number);
}

TriedReading Shop::try_reading(const Hand& hand, const std::string& number,
                               const std::string& payload) const {
  return impl_->jobs.try_reading(hand, number, payload);
}

job::Snapshot Shop::preview_plan(const std::string& make_up_json) const {
  return impl_->jobs.plan_for_make_up(make_up_json);
}

std::vector<JobCard> Shop::open_jobs() const {
  return cards_in(impl_->store.index().open_entries());
}

std::vector<JobCard> Shop::search(const std::string& text, std::size_t count_max) const {
  return cards_in(impl_->store.index().search(text, std::min(count_max, search_count_max)));
}

std::vector<JobCard> Shop::earlier(const std::string& pump, const std::string& serial) const {
  const auto found = search(serial.empty() ? pump : serial, search_count_max);
  std::vector<JobCard> out;
  std::copy_if(found.begin(), found.end(), std::back_inserter(out), [&](const JobCard& card) {
    return serial.empty() ? card.pump == pump : card.serial == serial;
  });
  // Old records come to the store after jobs that are younger.
  std::stable_sort(out.begin(), out.end(),
                   [](const JobCard& a, const JobCard& b) { return a.opened > b.opened; });
  return out;
}

PumpPast Shop::past_of(const std::string& number) const {
  const auto picture = job(number);
  const job::JobHeader& header = picture->logged.file.header;
  if (header.serial.empty()) return {};
  // What stands behind this one was opened before it.
  auto cards = earlier(header.pump, header.serial);
  const auto itself = std::find_if(cards.begin(), cards.end(),
                                   [&](const JobCard& card) { return card.number == number && !card.old; });
  cards.erase(cards.begin(), itself == cards.end() ? cards.begin() : std::next(itself));
  if (cards.size() > past_builds_max) cards.resize(past_builds_max);
  return {past_builds(impl_->store.events(), cards), values_of(picture->state, job_stream(number))};
}

OldTaken Shop::take_old_jobs(const Hand& hand, std::span<const OldJob> jobs) {
  want_lead(hand);
  return shop::take_old_jobs(impl_->store.events(), hand.person.id, hand.device, jobs);
}

Lives Shop::lives() const {
  return impl_->book.lives(impl_->foundations.now_ms() / 1000);
}

std::vector<job::Check> Shop::held_back_by_limits() const {
  const auto state = impl_->shop.state();
  std::map<std::string, job::Check> by_limit;
  for (const auto& card : open_jobs()) {
    const auto picture = job(card.number);
    for (const auto& step : picture->snapshot.plan.steps)
      for (const auto& check : step.checks) {
        if (check.limits.empty()) continue;
        const job::Limit& limit = check.limits.front();
        if (!may_decide(limit.source.obtained, state->adoptions.count(limit.id) != 0))
          by_limit.emplace(limit.id, check);
      }
  }
  std::vector<job::Check> out;
  out.reserve(by_limit.size());
  for (auto& [id, check] : by_limit)
    out.push_back(std::move(check));
  return out;
}

std::string Shop::record_json(const std::string& number) const {
  return encode_record(impl_->record_of(number));
}

std::string Shop::public_key_file() const {
  return public_key_text(impl_->shop.shop_key().public_key());
}

void Shop::rebuild_index() {
  impl_->store.index().rebuild([this](const std::string& stream) -> store::StreamIndex {
    if (is_old(stream)) {
      const auto told = impl_->store.events().read(stream);
      return {entry_of(card_of(decode_old_job(told.back().payload), told.back())), {}};
    }
    if (number_of(stream).empty()) return {};
    const auto events = impl_->store.events().read(stream);
    const job::JobLog log = log_of(events);
    return {entry_of(card_of(log, events.back())), values_of(log)};
  });
  impl_->book.forget();
}

}  // namespace pumpwright::shop
