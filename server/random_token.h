// Random names that nobody can guess, and what is kept of them.
#pragma once

#include <string>
#include <string_view>

namespace pumpwright::server {

// 256 random bits as 64 hexadecimal digits.
std::string random_token();

// BLAKE2b-256 of a token in hexadecimal: all that is ever written to the disk, so that a stolen file opens no
// session.
std::string token_hash(std::string_view token);

// A token derived from another one under a key: BLAKE2b-256 keyed, hexadecimal. `key` has 64 hexadecimal
// digits.
std::string derived_token(std::string_view key, std::string_view token);

// Takes the same time wherever the two differ.
bool same_token(std::string_view a, std::string_view b);

// A code to be read from one screen and typed on another: 12 letters and digits in groups of four, none of
// which look alike (59 bits).
std::string random_code();
// As random_code gives it: hyphens, spaces and case do not matter.
std::string code_as_compared(std::string_view typed);

}  // namespace pumpwright::server
