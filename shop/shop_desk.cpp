#include "shop/shop_desk.h"

#include <algorithm>

#include <nlohmann/json.hpp>

#include "engine/quantity/bad_input.h"
#include "job/json_reader.h"
#include "shop/appending.h"
#include "shop/certificate.h"
#include "shop/shop_log.h"

namespace pumpwright::shop {
namespace {

constexpr const char* password_kind = "password";
constexpr const char* signing_key_kind = "signing-key";
constexpr const char* pin_kind = "pin";

std::string pin_id(const std::string& person, const std::string& device) {
  return device + "/" + person;
}

[[noreturn]] void refuse_wrong_password() {
  throw Refused(Refusal::not_allowed, {"The password is not right.", "La contraseña no es correcta."});
}

void want_id(const std::string& id) {
  const auto control = [](char c) { return static_cast<unsigned char>(c) < 0x21 || c == '/' || c == 0x7F; };
  if (id.empty() || id.size() > 16 || std::any_of(id.begin(), id.end(), control))
    throw BadInput({.field = "id",
                    .place = "",
                    .value = id,
                    .expected = "initials, at most 16 characters without spaces"});
}

}  // namespace

ShopDesk::ShopDesk(store::Store& store, const Foundations& foundations)
    : store_(store), foundations_(foundations), shop_key_(shop_key_in(foundations.key_file)) {
  auto state = std::make_shared<ShopState>();
  for (const auto& event : store_.events().read(shop_stream)) {
    apply(*state, event);
    head_ = {event.seq, event.hash};
  }
  state_ = state;
}

std::shared_ptr<const ShopState> ShopDesk::state() const {
  const std::lock_guard lock(mutex_);
  return state_;
}

std::optional<Person> ShopDesk::check_password(const std::string& id, std::string_view password) const {
  const auto shop = state();
  const auto person = shop->people.find(id);
  const auto hash = person != shop->people.end() && person->second.active
                        ? store_.secrets().get(password_kind, id)
                        : std::nullopt;
  if (!hash) {
    spend_equal_time(password, foundations_.effort);
    return std::nullopt;
  }
  if (!matches_secret(hash->bytes, password)) return std::nullopt;
  return person->second;
}

std::optional<Person> ShopDesk::check_pin(const std::string& id, const std::string& device,
                                          std::string_view pin) const {
  const auto shop = state();
  const auto person = shop->people.find(id);
  const auto enrolled = shop->devices.find(device);
  const bool known = person != shop->people.end() && person->second.active &&
                     enrolled != shop->devices.end() && enrolled->second.active;
  const auto hash = known ? store_.secrets().get(pin_kind, pin_id(id, device)) : std::nullopt;
  if (!hash) {
    spend_equal_time(pin, foundations_.effort);
    return std::nullopt;
  }
  if (!matches_secret(hash->bytes, pin)) return std::nullopt;
  return person->second;
}

SigningKey ShopDesk::key_of(const Person& person, std::string_view password) const {
  const auto wrapped = store_.secrets().get(signing_key_kind, person.id);
  const auto seed = wrapped ? unwrap(wrapped->bytes, password) : std::nullopt;
  const auto key = seed ? SigningKey::from_seed(*seed) : std::nullopt;
  if (!key || key->public_key() != person.public_key) refuse_wrong_password();
  return *key;
}

void ShopDesk::set_pin(const Person& person, const std::string& device, std::string_view password,
                       std::string_view pin) {
  want_pin(pin);
  const auto shop = state();
  const auto enrolled = shop->devices.find(device);
  if (enrolled == shop->devices.end() || !enrolled->second.active)
    throw Refused(Refusal::not_allowed, {"A PIN works only on a device the shop has enrolled.",
                                         "Un PIN solo vale en un dispositivo registrado del taller."});
  if (!check_password(person.id, password)) refuse_wrong_password();
  store_.secrets().put(pin_kind,
                       {pin_id(person.id, device), hash_secret(pin, foundations_.effort), std::nullopt});
}

void ShopDesk::keep_secrets(const Person& person, const SigningKey& key, std::string_view password) {
  store_.secrets().put(signing_key_kind,
                       {person.id, wrap(key.seed(), password, foundations_.effort), std::nullopt});
  store_.secrets().put(password_kind, {person.id, hash_secret(password, foundations_.effort), std::nullopt});
}

void ShopDesk::set_password(const Person& person, std::string_view password, std::string_view new_password) {
  want_password(new_password);
  const SigningKey key = key_of(person, password);
  keep_secrets(person, key, new_password);
}

store::Appended ShopDesk::append(const std::string& actor, const std::string& device, const HandedIn& event) {
  const store::Append append{
      .stream = shop_stream,
      .events = {{event.type, actor, device, event.device_seq, event.key, event.payload}},
      .expected_head = head_,
      .index_change = {}};
  store::Appended done = appended_or_throw(store_.events(), append);
  if (done.fresh == 0) return done;
  auto next = std::make_shared<ShopState>(*state());
  apply(*next, done.events.back());
  head_ = done.head;
  const std::lock_guard lock(mutex_);
  state_ = next;
  return done;
}

Person ShopDesk::make_person(const NewPerson& wanted) const {
  want_id(wanted.id);
  want_password(wanted.password);
  if (wanted.name.empty() || wanted.name.size() > 128)
    throw BadInput(
        {.field = "name", .place = "", .value = wanted.name, .expected = "a name of 1 to 128 bytes"});
  if (state()->people.count(wanted.id) != 0)
    throw Refused(Refusal::conflict, {wanted.id + " is, or was, somebody here already.",
                                      wanted.id + " ya es, o fue, alguien de aquí."});
  Person person;
  person.id = wanted.id;
  person.name = wanted.name;
  person.role = wanted.role;
  return person;
}

Receipt ShopDesk::add_person(const Hand& hand, const NewPerson& wanted) {
  const std::lock_guard lock(writing_);
  Receipt receipt;
  // Handed in again after an answer was lost: the person is there, the key tells.
  if (const auto known = store_.events().find(wanted.envelope.key); known && known->stream == shop_stream &&
                                                                    known->type == "person-added" &&
                                                                    known->actor == hand.person.id) {
    receipt.accepted.push_back({known->key, known->seq, store::to_hex(known->hash)});
    return receipt;
  }
  Person person = make_person(wanted);
  const SigningKey key = SigningKey::generate();
  person.public_key = key.public_key();
  person.certificate = certify(shop_key_, person);
  const nlohmann::ordered_json payload{{"id", person.id},
                                       {"name", person.name},
                                       {"role", word_of(person.role)},
                                       {"public_key", person.public_key},
                                       {"certificate", person.certificate}};
  keep_secrets(person, key, wanted.password);
  const auto done = append(hand.person.id, hand.device,
                           {wanted.envelope.key, wanted.envelope.device_seq, "person-added", payload.dump()});
  receipt.accepted.push_back(
      {wanted.envelope.key, done.events.back().seq, store::to_hex(done.events.back().hash)});
  receipt.seq = done.head.seq;
  receipt.head = store::to_hex(done.head.hash);
  return receipt;
}

Person ShopDesk::add_first_person(const NewPerson& wanted, const std::string& device) {
  if (!state()->people.empty())
    throw Refused(Refusal::conflict, {"The shop has people already.", "El taller ya tiene gente."});
  NewPerson lead = wanted;
  lead.role = Role::lead_hand;
  Person self;
  self.id = wanted.id;
  add_person({self, device}, lead);
  return state()->people.at(wanted.id);
}

// A changed role carries the shop's word for it, which only the shop can give.
std::string ShopDesk::completed(const HandedIn& event) const {
  if (event.type != "person-changed") return event.payload;
  const auto at = job::JsonReader::parse(event.payload);
  at.allow_only({"id", "role", "active"});
  const auto role = at.optional("role");
  const auto shop = state();
  const auto known = shop->people.find(at.required("id").text(16));
  if (!role || known == shop->people.end()) return event.payload;
  Person person = known->second;
  const auto wanted = role_from(role->text(32));
  if (!wanted) role->refuse("technician, lead-hand, office or read-only");
  person.role = *wanted;
  nlohmann::ordered_json json = at.raw();
  json["certificate"] = certify(shop_key_, person);
  return json.dump();
}

Receipt ShopDesk::hand_in(const Hand& hand, std::span<const HandedIn> events) {
  const std::lock_guard lock(writing_);
  Receipt receipt;
  for (const auto& event : events) {
    try {
      if (event.type == "person-added")
        throw BadInput({.field = "type",
                        .place = "",
                        .value = event.type,
                        .expected = "people are added with a password"});
      const HandedIn full{event.key, event.device_seq, event.type, completed(event)};
      if (!store_.events().find(event.key)) {
        // Tried on a copy first: what does not fit is not written.
        ShopState trial = *state();
        store::StoredEvent candidate;
        candidate.type = full.type;
        candidate.actor = hand.person.id;
        candidate.payload = full.payload;
        candidate.accepted_at = second_text(foundations_.now_ms()).substr(0, 19) + ".000Z";
        apply(trial, candidate);
      }
      const auto done = append(hand.person.id, hand.device, full);
      receipt.accepted.push_back({event.key, done.events.back().seq, store::to_hex(done.events.back().hash)});
    } catch (...) {
      receipt.refused.push_back({event.key, std::current_exception()});
    }
  }
  receipt.seq = head_.seq;
  receipt.head = store::to_hex(head_.hash);
  return receipt;
}

}  // namespace pumpwright::shop
