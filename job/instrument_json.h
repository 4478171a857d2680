// The shop's instruments and its adopted limits, as job files and snapshots write them.
#pragma once

#include <map>
#include <string>

#include <nlohmann/json_fwd.hpp>

#include "job/json_reader.h"
#include "job/snapshot.h"

namespace pumpwright::job {

// One instrument. Throws BadInput for a missing or impossible figure, a due day before the calibration day.
ShopInstrument decode_instrument(const JsonReader& json);

// A list of instruments by id. Throws BadInput for a repeated id and as decode_instrument.
std::map<std::string, ShopInstrument> decode_instruments(const JsonReader& json);
nlohmann::json encode_instrument(const ShopInstrument& instrument);

Adoption decode_adoption(const JsonReader& json);

// A list of adoptions by limit id; the first one of a limit counts.
std::map<std::string, Adoption> decode_adoptions(const JsonReader& json);
nlohmann::json encode_adoption(const Adoption& adoption);

}  // namespace pumpwright::job
