#include "job/make_up.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "engine/quantity/format.h"
#include "job/decode.h"

namespace pumpwright::job {
namespace {

constexpr std::array dimension_table{
    DimensionName{"shaft_diameter", "diameter of the bare shaft where the sleeve, seal or impeller sits"},
    DimensionName{"shaft_length", "mounting face to the end of the shaft"},
    DimensionName{"shaft_shoulder", "mounting face to the shoulder that the sleeve or impeller sits against"},
    DimensionName{"register_diameter", "diameter of the motor's register"},
    DimensionName{"register_height", "how far the register stands off the mounting face"},
    DimensionName{"face_diameter", "outside diameter of the motor's mounting face"},
    DimensionName{"shim_thickness", "shim between the shaft's shoulder and what sits against it"},
    DimensionName{"sleeve_bore", "bore of the shaft sleeve"},
    DimensionName{"sleeve_outside_diameter", "outside diameter of the shaft sleeve"},
    DimensionName{"sleeve_length", "length of the shaft sleeve"},
    DimensionName{"seal_size", "diameter the seal head is made for"},
    DimensionName{"seal_head_outside_diameter", "outside diameter of the seal head"},
    DimensionName{"seal_working_length",
                  "seat face to the shoulder that holds the spring, as the seal's sheet gives it"},
    DimensionName{"seat_outside_diameter", "outside diameter of the stationary seat"},
    DimensionName{"seat_thickness", "seat shoulder to seat face"},
    DimensionName{"seat_depth", "mounting face to the shoulder the seat sits on"},
    DimensionName{"seat_bore", "bore of the bracket that takes the seat"},
    DimensionName{"seal_chamber_bore", "bore of the seal chamber"},
    DimensionName{"bracket_depth", "mounting face to the bracket's casing flange"},
    DimensionName{"bracket_outside_diameter", "outside diameter of the bracket's casing flange"},
    DimensionName{"impeller_diameter", "outside diameter of the impeller"},
    DimensionName{"impeller_width", "hub face to the front of the impeller's shroud"},
    DimensionName{"impeller_eye_diameter", "outside diameter of the impeller's eye ring"},
    DimensionName{"impeller_outlet_width", "width of the passage at the impeller's rim"},
    DimensionName{"hub_diameter", "outside diameter of the impeller's hub"},
    DimensionName{"hub_length", "length of the impeller's bore"},
    DimensionName{"key_width", "width of the impeller's key"},
    DimensionName{"key_length", "length of the impeller's key"},
    DimensionName{"keyway_length", "length of keyway in the hub"},
    DimensionName{"gasket_thickness", "casing gasket, compressed"},
    DimensionName{"wear_ring_bore", "bore of the casing wear ring"},
    DimensionName{"wear_ring_length", "length of the casing wear ring"},
    DimensionName{"impeller_standout", "bracket's casing flange to the front of the impeller"},
    DimensionName{"axial_clearance",
                  "front of the impeller to the casing wall, as the pump's sheet allows it"},
    DimensionName{"casing_depth", "casing flange to the wall in front of the impeller"},
    DimensionName{"suction_bore", "bore of the suction"},
};

bool is_dimension_name(std::string_view name) {
  return std::any_of(dimension_table.begin(), dimension_table.end(),
                     [&](const auto& d) { return d.name == name; });
}

Dimension decode_range(const JsonReader& json) {
  json.allow_only({"nominal", "lower", "upper"});
  const Written lower = decode_positive_length(json.required("lower"));
  const Written upper = decode_positive_length(json.required("upper"));
  if (upper.si < lower.si) json.required("upper").refuse("not smaller than \"lower\"");
  const Length middle = metres((lower.si + upper.si) / 2);
  return {format_significant(AnyQuantity(middle), *lower.unit, 6),
          middle,
          metres(lower.si),
          metres(upper.si),
          {}};
}

Dimension decode_dimension(const JsonReader& json) {
  // A permissible range without a nominal: the middle stands for it.
  if (json.is_object() && !json.optional("nominal")) return decode_range(json);
  if (json.is_string()) {
    const Written w = decode_positive_length(json);
    return {w.text, metres(w.si), {}, {}, {}};
  }
  json.allow_only({"nominal", "lower", "upper"});
  const Written nominal = decode_positive_length(json.required("nominal"));
  Dimension d{nominal.text, metres(nominal.si), {}, {}, {}};
  if (const auto lower = json.optional("lower")) d.lower = metres(decode_positive_length(*lower).si);
  if (const auto upper = json.optional("upper")) d.upper = metres(decode_positive_length(*upper).si);
  if (d.lower && d.upper && *d.upper < *d.lower) json.required("upper").refuse("not smaller than \"lower\"");
  return d;
}

std::map<std::string, Dimension> decode_dimensions(const JsonReader& json) {
  std::map<std::string, Dimension> out;
  for (const auto& name : json.keys()) {
    const JsonReader at = json.required(name);
    if (!is_dimension_name(name)) at.refuse("the name of a dimension (docs/job.schema.json lists them)");
    out.emplace(name, decode_dimension(at));
  }
  return out;
}

Driver decode_driver(const JsonReader& json) {
  json.allow_only({"standard", "frame", "flange", "stands", "rotation"});
  Driver d;
  d.standard = json.required("standard").word({"nema", "iec"});
  d.frame = json.required("frame").text(64);
  if (const auto flange = json.optional("flange")) d.flange = flange->text(32);
  if (const auto stands = json.optional("stands"))
    d.shaft_up = stands->word({"horizontal", "shaft-up"}) == "shaft-up";
  if (const auto rotation = json.optional("rotation"))
    d.rotation = rotation->word({"clockwise", "counter-clockwise"}) == "clockwise"
                     ? Rotation::clockwise
                     : Rotation::counter_clockwise;
  return d;
}

Hand decode_hand(const JsonReader& json) {
  return json.word({"right", "left"}) == "left" ? Hand::left : Hand::right;
}

std::optional<Written> optional_positive(const JsonReader& json, std::string_view key, Kind kind) {
  const auto at = json.optional(key);
  return at ? std::optional(decode_positive(*at, kind)) : std::nullopt;
}

Seal decode_seal(const JsonReader& json) {
  json.allow_only({"kind", "elastomer", "lubricant", "ring", "seat", "coil", "sheet"});
  Seal s;
  s.kind = json.required("kind").word({"elastomer-bellows", "o-ring-pusher", "conical-spring"});
  s.elastomer = json.required("elastomer").text(32);
  s.lubricant = json.required("lubricant").text(64);
  if (const auto ring = json.optional("ring")) s.ring = ring->text(16);
  if (const auto seat = json.optional("seat")) s.seat = seat->text(16);
  if (const auto coil = json.optional("coil")) s.coil = decode_hand(*coil);
  if (const auto sheet = json.optional("sheet")) s.sheet = decode_seal_sheet(*sheet);
  return s;
}

Fastener decode_fastener(const JsonReader& json) {
  json.allow_only({"thread", "grade", "condition", "torque", "hand"});
  Fastener f;
  f.thread = json.required("thread").text(32);
  f.grade = json.required("grade").text(32);
  f.condition = json.required("condition").text(64);
  if (const auto hand = json.optional("hand")) f.hand = decode_hand(*hand);
  if (const auto torque = json.optional("torque")) {
    torque->allow_only({"lower", "upper"});
    f.torque_lower = decode_positive(torque->required("lower"), Kind::torque);
    f.torque_upper = decode_positive(torque->required("upper"), Kind::torque);
    if (f.torque_upper->si < f.torque_lower->si)
      torque->required("upper").refuse("not smaller than \"lower\"");
  }
  return f;
}

Service decode_service(const JsonReader& json) {
  json.allow_only({"fluid", "temperature", "suction_pressure", "head_pressure", "altitude", "glycol",
                   "concentration", "liquid"});
  Service s;
  s.fluid = json.required("fluid").text(64);
  if (const auto t = json.optional("temperature")) s.temperature = decode_written(*t, Kind::temperature);
  if (const auto p = json.optional("suction_pressure"))
    s.suction_pressure = decode_written(*p, Kind::pressure_gauge);
  s.head_pressure = optional_positive(json, "head_pressure", Kind::pressure_difference);
  if (const auto altitude = json.optional("altitude")) s.altitude = decode_written(*altitude, Kind::length);
  if (const auto glycol = json.optional("glycol")) s.glycol = glycol->word({"ethylene", "propylene"});
  if (const auto liquid = json.optional("liquid")) s.liquid = decode_liquid_sheet(*liquid, s.fluid);
  s.concentration = optional_positive(json, "concentration", Kind::percent);
  if (s.concentration && s.concentration->si >= 1) json.required("concentration").refuse("below 100 %");
  return s;
}

constexpr std::array<BackWord, 5> back_words{{{"plain", seal::ImpellerBack::plain},
                                              {"balance-holes", seal::ImpellerBack::balance_holes},
                                              {"back-vanes", seal::ImpellerBack::back_vanes},
                                              {"ring-removed", seal::ImpellerBack::wear_ring_removed},
                                              {"double-suction", seal::ImpellerBack::double_suction}}};

// Above this a wetted part burns at a touch; used to choose cautions, not to judge. Common practice, no
// source.
constexpr double hot_k = 273.15 + 60;

bool is_water_based(const std::string& fluid) {
  return fluid == "water" || fluid == "water-glycol" || fluid == "sea-water";
}

// Which column of which row fills which dimension.
struct ColumnFor {
  std::string_view dimension, column;
};
constexpr std::array frame_columns{
    ColumnFor{"shaft_diameter", "shaft_diameter"}, ColumnFor{"register_diameter", "register_diameter"},
    ColumnFor{"register_height", "register_depth"}, ColumnFor{"shaft_length", "extension"},
    ColumnFor{"shaft_length", "shaft_length"}};
constexpr std::array flange_columns{ColumnFor{"register_diameter", "spigot_diameter"},
                                    ColumnFor{"register_height", "spigot_height"},
                                    ColumnFor{"face_diameter", "outside_diameter"}};

const Row& wanted_row(const Catalog& catalog, const std::string& table, const std::string& id,
                      const char* field) {
  const Row* row = catalog.find(table, id);
  if (row == nullptr)
    throw BadInput(
        {.field = field,
         .place = fmt::format("/make_up/driver/{}", field),
         .value = id,
         .expected = fmt::format("a row of the catalog table {0} (`pumpwright catalog show {0}`)", table)});
  return *row;
}

void fill(MakeUp& make_up, const Row& row, const ColumnFor& from) {
  const std::string name(from.dimension);
  const Value* value = row.value(from.column);
  if (value == nullptr || make_up.dimensions.count(name) != 0) return;
  make_up.dimensions.emplace(name, Dimension{value->text, metres(value->si), {}, {}, *value->source});
}

}  // namespace

std::span<const DimensionName> dimension_names() {
  return dimension_table;
}

const Dimension* MakeUp::dimension(std::string_view name) const {
  const auto at = dimensions.find(std::string(name));
  return at == dimensions.end() ? nullptr : &at->second;
}

MakeUp decode_make_up(const JsonReader& json) {
  json.allow_only({"driver", "sleeve", "seal", "impeller", "service", "speed", "dimensions", "sheets"});
  MakeUp m;
  m.driver = decode_driver(json.required("driver"));
  m.sleeve = json.required("sleeve").word({"fitted", "none"}) == "fitted";
  m.seal = decode_seal(json.required("seal"));
  const JsonReader impeller = json.required("impeller");
  impeller.allow_only({"keyways", "fastener", "back"});
  m.keyways = static_cast<int>(impeller.required("keyways").integer(1, 4));
  if (const auto fastener = impeller.optional("fastener")) m.fastener = decode_fastener(*fastener);
  if (const auto back = impeller.optional("back")) m.impeller_back = decode_impeller_back(*back);
  m.service = decode_service(json.required("service"));
  m.speed = decode_positive(json.required("speed"), Kind::speed);
  if (const auto sheets = json.optional("sheets")) m.sheets = decode_sheets(*sheets);
  if (const auto dimensions = json.optional("dimensions")) m.dimensions = decode_dimensions(*dimensions);
  return m;
}

std::span<const BackWord> impeller_back_words() {
  return back_words;
}

seal::ImpellerBack decode_impeller_back(const JsonReader& json) {
  const std::string word =
      json.word({"plain", "balance-holes", "back-vanes", "ring-removed", "double-suction"});
  return std::find_if(back_words.begin(), back_words.end(),
                      [&](const BackWord& w) { return w.first == word; })
      ->second;
}

std::string frame_table_of(const Driver& driver) {
  return driver.standard == "nema" ? "frames-nema" : "frames-iec";
}

MakeUp complete_from_catalog(MakeUp make_up, const Catalog& catalog) {
  const Row& frame = wanted_row(catalog, frame_table_of(make_up.driver), make_up.driver.frame, "frame");
  for (const auto& column : frame_columns)
    fill(make_up, frame, column);
  if (!make_up.driver.flange.empty()) {
    const Row& flange = wanted_row(catalog, "flanges-iec", make_up.driver.flange, "flange");
    for (const auto& column : flange_columns)
      fill(make_up, flange, column);
  }
  return make_up;
}

std::set<std::string> tags_of(const MakeUp& m) {
  std::set<std::string> tags{m.driver.standard, m.sleeve ? "sleeve" : "no-sleeve", m.seal.kind,
                             m.service.fluid, m.driver.shaft_up ? "shaft-up" : "horizontal"};
  if (m.fastener) tags.insert("fastener");
  const auto add_if = [&](bool holds, const char* tag) {
    if (holds) tags.insert(tag);
  };
  add_if(m.service.temperature && m.service.temperature->si >= hot_k, "hot");
  add_if(m.service.temperature.has_value(), "temperature-known");
  add_if(m.service.suction_pressure.has_value(), "suction-known");
  add_if(is_water_based(m.service.fluid), "water-based");
  add_if(!m.seal.ring.empty() && !m.seal.seat.empty(), "faces");
  add_if(m.seal.sheet.has_value(), "seal-sheet");
  add_if(m.seal.sheet && m.seal.sheet->pv_limit, "pv-limit");
  add_if(m.seal.sheet && m.seal.sheet->seat_face_outer, "seat-face");
  add_if(m.seal.sheet && m.seal.sheet->head == seal::HeadStyle::stationary, "standing-head");
  add_if(m.driver.rotation.has_value(), "rotation");
  add_if(m.dimension("shim_thickness") != nullptr, "shim");
  tags.merge(sheet_tags(m.sheets));
  return tags;
}

}  // namespace pumpwright::job
