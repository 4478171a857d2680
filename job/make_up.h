// The make-up: what this pump is made of and what it is for. Everything in the plan is derived from it.
#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>

#include "catalog/catalog.h"
#include "engine/quantity/parse.h"
#include "engine/seal/chamber_pressure.h"
#include "job/bench_sheet.h"
#include "job/json_reader.h"
#include "job/liquid_sheet.h"
#include "job/seal_sheet.h"

namespace pumpwright::job {

// A length of this pump from a sheet, a drawing or the catalog. Not a reading: it was not measured on this
// job.
struct Dimension {
  std::string text;  // as written
  Length nominal = metres(0);
  std::optional<Length> lower, upper;  // permissible sizes, where the sheet gives them
  std::optional<Source> source;        // absent: as entered for the job
};

// Seen from the impeller end.
enum class Rotation { clockwise, counter_clockwise };

enum class Hand { right, left };

struct Driver {
  std::string standard;   // "nema" or "iec"
  std::string frame;      // row of the frame table: "184JM", "112M"
  std::string flange;     // iec: row of the flange table, "FF215"; may be empty
  bool shaft_up = false;  // stands with the shaft up on the bench (a sweep from the shaft then has no sag)
  std::optional<Rotation> rotation;  // of the shaft, seen from the impeller end
};

struct Seal {
  std::string kind;          // "elastomer-bellows", "o-ring-pusher", "conical-spring"
  std::string elastomer;     // ISO 1629: "EPDM", "FKM", "NBR" …
  std::string lubricant;     // assembly lubricant, row of the lubricants table
  std::string ring, seat;    // rows of the face materials table (code letters of EN 12756); empty: not given
  std::optional<Hand> coil;  // of a spring that drives by its grip
  std::optional<SealSheet> sheet;
};

struct Fastener {
  std::string thread;     // "1/2-13", "M12"
  std::string grade;      // row of the fastener strengths table
  std::string condition;  // row of the friction table: "dry-steel", "oiled-steel", …
  std::optional<Written> torque_lower, torque_upper;  // from the pump's sheet
  Hand hand = Hand::right;
};

struct Service {
  std::string fluid;  // "water", "water-glycol", "sea-water"
  std::optional<Written> temperature;
  std::optional<Written> suction_pressure;
  std::optional<Written> head_pressure;  // what the pump adds between suction and discharge
  std::optional<Written> altitude;       // of the site
  std::string glycol;                    // "ethylene", "propylene"; empty: not given
  std::optional<Written> concentration;  // of glycol or of salt, by mass
  std::optional<LiquidSheet> liquid;     // of a liquid the program does not know by name
};

struct MakeUp {
  Driver driver;
  bool sleeve = false;
  Seal seal;
  int keyways = 1;  // of the impeller
  std::optional<seal::ImpellerBack> impeller_back;
  std::optional<Fastener> fastener;
  Service service;
  Written speed;
  BenchSheets sheets;                           // of the tests this pump is to pass
  std::map<std::string, Dimension> dimensions;  // by name; see dimension_names()

  const Dimension* dimension(std::string_view name) const;  // null when unknown
};

struct DimensionName {
  std::string_view name;   // key in the job file: "shaft_diameter"
  std::string_view title;  // what it is, for messages and documentation
};

// Every dimension a make-up may give.
std::span<const DimensionName> dimension_names();

// Reads the `make_up` object of a job file. Throws BadInput for anything missing, unknown or of the wrong
// kind.
MakeUp decode_make_up(const JsonReader& json);

// The same make-up with the dimensions that the catalog knows for its driver filled in (never over one that
// was entered). Throws BadInput when the catalog has no such frame.
MakeUp complete_from_catalog(MakeUp make_up, const Catalog& catalog);

// The words of a job file for what the impeller's back does to the pressure at the seal: "plain",
// "balance-holes", "back-vanes", "ring-removed", "double-suction".
using BackWord = std::pair<std::string_view, seal::ImpellerBack>;
std::span<const BackWord> impeller_back_words();
seal::ImpellerBack decode_impeller_back(const JsonReader& json);

// The catalog table that holds frames of the driver's standard: "frames-nema" or "frames-iec".
std::string frame_table_of(const Driver& driver);

// The words that conditions in step data may name: "nema", "jm", "sleeve", "no-sleeve", "elastomer-bellows",
// "hot", "sea-water", "fastener", …
std::set<std::string> tags_of(const MakeUp& make_up);

}  // namespace pumpwright::job
