// The shop vouches for a person's key: its signature over who the person is and what role he has.
#pragma once

#include <string>

#include "shop/person.h"
#include "shop/signing_key.h"

namespace pumpwright::shop {

// Signature over id, name, role and public key, 128 hexadecimal digits.
std::string certify(const SigningKey& shop_key, const Person& person);

// Whether the shop with that public key vouched for the person as described.
bool is_certified(const std::string& shop_public_key, const Person& person);

}  // namespace pumpwright::shop
