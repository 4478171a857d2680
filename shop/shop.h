// The shop at work: takes what people hand in, refuses what does not fit, writes it into the log, and gives
// back jobs with their verdicts. The one service that server and command line call.
//
// All functions may be called from many threads. Every reading that was accepted is in the store, synced,
// before the call returns. Throws BadInput for what was handed in, Refused for what may not be done,
// store::StoreError when the store can not.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "job/job_log.h"
#include "job/judgement.h"
#include "shop/job_card.h"
#include "shop/life_book.h"
#include "shop/old_shelf.h"
#include "shop/passwords.h"
#include "shop/past_builds.h"
#include "shop/person.h"
#include "shop/refused.h"
#include "shop/shop_state.h"
#include "store/store.h"

namespace pumpwright::shop {

// What the shop works with besides its store.
struct Foundations {
  std::vector<NamedBytes> catalog_files;  // the bytes must outlive the shop
  std::vector<NamedBytes> step_files;
  std::string program;                   // version and build
  std::string key_file;                  // holds the shop's own signing key; made when missing, mode 0600
  std::function<std::int64_t()> now_ms;  // milliseconds since 1970-01-01T00:00:00Z
  Effort effort = Effort::interactive;
};

// One event as a device hands it in.
struct HandedIn {
  std::string key;  // idempotency key, made by the device, at most 64 characters
  std::uint64_t device_seq = 0;
  std::string type;
  std::string payload;  // JSON text; kept byte for byte
};

struct Accepted {
  std::string key;
  std::uint64_t seq = 0;
  std::string hash;  // hexadecimal
};

struct NotAccepted {
  std::string key;
  std::exception_ptr why;  // BadInput, Refused or store::StoreError
};

struct Receipt {
  std::vector<Accepted> accepted;
  std::vector<NotAccepted> refused;
  std::uint64_t seq = 0;  // of the stream afterwards
  std::string head;       // hash of its last event, hexadecimal
};

// Who does it, on what.
struct Hand {
  Person person;
  std::string device;
};

// A job as it stands.
struct JobPicture {
  job::LoggedJob logged;
  job::Snapshot snapshot;  // what it is judged with
  job::JobState state;
  job::Judgement judgement;
  std::uint64_t seq = 0;
  std::string head;
};

// A reading that was judged and not kept.
struct TriedReading {
  job::Reading reading;
  job::CheckFinding finding;  // of its check, with this one reading
};

struct NewJob {
  HandedIn envelope;    // key and device_seq; type and payload are not used
  std::string payload;  // {"job": {number, customer, pump, serial, reason}, "make_up": {…}, "bench": …}
};

struct NewPerson {
  HandedIn envelope;
  std::string id, name, password;
  Role role = Role::technician;
};

class Shop {
 public:
  // Makes the derived tables anew when an older program made them.
  Shop(store::Store& store, Foundations foundations);
  ~Shop();
  Shop(const Shop&) = delete;
  Shop& operator=(const Shop&) = delete;

  // --- people
  std::shared_ptr<const ShopState> state() const;
  bool has_people() const;
  // Nothing when the person is unknown, not active, or the password is wrong; takes the same time for all.
  std::optional<Person> check_password(const std::string& id, std::string_view password) const;
  // Nothing likewise, or when the person has no PIN on that device. Throttling is the caller's.
  std::optional<Person> check_pin(const std::string& id, const std::string& device,
                                  std::string_view pin) const;
  // Refused::not_allowed when the password is wrong.
  void set_pin(const Person& person, const std::string& device, std::string_view password,
               std::string_view pin);
  void set_password(const Person& person, std::string_view password, std::string_view new_password);
  // Makes the lead hand with whom a shop begins. Refused::conflict when it has people already.
  Person add_first_person(const NewPerson& wanted, const std::string& device);
  Receipt add_person(const Hand& hand, const NewPerson& wanted);

  // --- the shop's own data; each event stands alone
  Receipt hand_in_to_shop(const Hand& hand, std::span<const HandedIn> events);

  // --- jobs
  std::string open_job(const Hand& hand, const NewJob& wanted);  // gives the number
  Receipt hand_in(const Hand& hand, const std::string& number, std::span<const HandedIn> events);
  // Signs everything up to now and releases the pump. Refused::conflict while points are open.
  Receipt release(const Hand& hand, const std::string& number, const HandedIn& envelope,
                  std::string_view password, const std::string& statement);
  std::shared_ptr<const JobPicture> job(const std::string& number) const;
  // Judges a reading as if it were handed in; keeps nothing.
  TriedReading try_reading(const Hand& hand, const std::string& number, const std::string& payload) const;
  // The plan a make-up would give under today's catalog and the shop's own limits and texts.
  job::Snapshot preview_plan(const std::string& make_up_json) const;

  std::vector<JobCard> open_jobs() const;
  // Old ones among them.
  std::vector<JobCard> search(const std::string& text, std::size_t count_max) const;
  // Earlier jobs of the same serial, else of the same pump, old ones among them; opened last comes first.
  std::vector<JobCard> earlier(const std::string& pump, const std::string& serial) const;
  // What is remembered of the pump in that job, from at most 10 jobs of its serial number that were opened
  // before it. Refused::not_found as job().
  PumpPast past_of(const std::string& number) const;

  // --- records older than this program
  // Refused::not_allowed but for a lead hand. Otherwise as shop/old_shelf.h.
  OldTaken take_old_jobs(const Hand& hand, std::span<const OldJob> jobs);

  // How long each pump stayed out, now. The first call reads every job there is; then only what changed.
  Lives lives() const;

  // Checks of open jobs whose deciding limit may not decide until the shop stands behind it; one for each
  // such limit.
  std::vector<job::Check> held_back_by_limits() const;

  // --- the record
  std::string record_json(const std::string& number) const;  // see shop/record.h
  std::string public_key_file() const;                       // what `verify --trust` takes

  // Makes the derived tables anew from the log.
  void rebuild_index();

 private:
  class Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace pumpwright::shop
