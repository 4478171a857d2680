#include "shop/certificate.h"

#include <array>

namespace pumpwright::shop {
namespace {

std::string vouched(const Person& person) {
  const std::array<std::string, 4> fields{person.id, person.name, std::string(word_of(person.role)),
                                          person.public_key};
  return signed_bytes("pumpwright-person-1", fields);
}

}  // namespace

std::string certify(const SigningKey& shop_key, const Person& person) {
  return shop_key.sign(vouched(person));
}

bool is_certified(const std::string& shop_public_key, const Person& person) {
  return signature_holds(shop_public_key, vouched(person), person.certificate);
}

}  // namespace pumpwright::shop
