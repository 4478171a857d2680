// One fingerprint for a set of data files, kept with every job that was judged by them.
#pragma once

#include <span>
#include <string>

#include "catalog/catalog.h"

namespace pumpwright {

// BLAKE2b-256 (RFC 7693) as 64 hexadecimal digits. Hashed are, in the order of the names, for each file:
// length of the name, name, length of the bytes, bytes; lengths as 8 bytes, least first. The order in which
// files are given plays no part. Names must differ.
std::string digest_of(std::span<const NamedBytes> files);

}  // namespace pumpwright
