// A shop's data directory as the command line opens it: the same files the server uses.
#pragma once

#include <functional>
#include <memory>
#include <string>

#include "shop/shop.h"
#include "store/store.h"

namespace pumpwright {

// "DIR/shop.sqlite" and "DIR/shop.key".
std::string store_file_in(const std::string& directory);
std::string key_file_in(const std::string& directory);

struct OpenShop {
  std::unique_ptr<store::Store> store;
  std::unique_ptr<shop::Shop> shop;
};

// Opens the store of a shop that is there already. `now_ms` is the shop's clock. Throws BadInput (field
// "--data").
OpenShop open_shop(const std::string& directory, std::function<std::int64_t()> now_ms,
                   shop::Effort effort = shop::Effort::interactive);
// The same, made when it is not there.
OpenShop make_shop(const std::string& directory, std::function<std::int64_t()> now_ms, shop::Effort effort);

std::int64_t system_now_ms();

// Runs `work`; a StoreError that leaves it becomes a BadInput about `field`, so that it is told in one line.
template <class Work>
auto telling_store_errors(const std::string& field, const std::string& value, const Work& work) {
  try {
    return work();
  } catch (const store::StoreError& e) {
    throw BadInput({.field = field,
                    .place = "",
                    .value = value,
                    .expected = std::string("a shop's data that can be used: ") + e.what()});
  }
}

}  // namespace pumpwright
