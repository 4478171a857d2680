// The shop's own stream and its people: who is there, what they can prove, and changes to what the shop owns.
#pragma once

#include <memory>
#include <mutex>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "shop/shop.h"
#include "shop/signing_key.h"

namespace pumpwright::shop {

class ShopDesk {
 public:
  ShopDesk(store::Store& store, const Foundations& foundations);

  std::shared_ptr<const ShopState> state() const;
  const SigningKey& shop_key() const { return shop_key_; }

  std::optional<Person> check_password(const std::string& id, std::string_view password) const;
  std::optional<Person> check_pin(const std::string& id, const std::string& device,
                                  std::string_view pin) const;
  void set_pin(const Person& person, const std::string& device, std::string_view password,
               std::string_view pin);
  void set_password(const Person& person, std::string_view password, std::string_view new_password);
  // The person's key; Refused::not_allowed when the password is not his.
  SigningKey key_of(const Person& person, std::string_view password) const;

  Person add_first_person(const NewPerson& wanted, const std::string& device);
  Receipt add_person(const Hand& hand, const NewPerson& wanted);
  Receipt hand_in(const Hand& hand, std::span<const HandedIn> events);

 private:
  Person make_person(const NewPerson& wanted) const;
  void keep_secrets(const Person& person, const SigningKey& key, std::string_view password);
  store::Appended append(const std::string& actor, const std::string& device, const HandedIn& event);
  std::string completed(const HandedIn& event) const;

  store::Store& store_;
  const Foundations& foundations_;
  SigningKey shop_key_;
  std::mutex writing_;  // held from looking at the state to having changed it
  mutable std::mutex mutex_;
  std::shared_ptr<const ShopState> state_;
  store::Head head_;
};

}  // namespace pumpwright::shop
