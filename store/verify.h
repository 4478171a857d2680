// Looks at everything a store holds and says what does not fit. Internal to this folder.
#pragma once

#include "store/connection.h"
#include "store/store.h"

namespace pumpwright::store {

// As of one moment. Damage becomes a line of the report; StoreError only when the disk can not be read.
StoreReport verify_all(Connection& connection);

}  // namespace pumpwright::store
