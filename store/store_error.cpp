#include "store/store_error.h"

namespace pumpwright::store {

std::string_view word_of(StoreErrorCode code) {
  switch (code) {
    case StoreErrorCode::disk_full:
      return "disk-full";
    case StoreErrorCode::read_only:
      return "read-only";
    case StoreErrorCode::busy:
      return "busy";
    case StoreErrorCode::corrupt:
      return "corrupt";
    case StoreErrorCode::io:
      return "io";
    case StoreErrorCode::newer_database:
      return "newer-database";
    case StoreErrorCode::exists:
      return "exists";
    case StoreErrorCode::other:
      return "other";
  }
  return "other";
}

}  // namespace pumpwright::store
