#include "job/sheets/alignment_sheet.h"

#include <charconv>

#include <fmt/format.h>

#include "job/json_quantity.h"

namespace pumpwright::job {
namespace {

constexpr double tiny = 1e-12;  // "over 0"
constexpr double place_max_m = 100;
constexpr std::size_t readings_in_file_max = 1000;

Length place_along(const JsonReader& json) {
  return quantity_between<Length>(json, -place_max_m, place_max_m, "a length of at most 100 m");
}
Length size(const JsonReader& json, double most_m = 1) {
  return quantity_between<Length>(json, 0, most_m, fmt::format("a length from 0 to {:g} m", most_m));
}
Length size_over_0(const JsonReader& json, double most_m = 1) {
  return quantity_between<Length>(json, tiny, most_m, fmt::format("a length over 0 up to {:g} m", most_m));
}

Instrument read_indicator(const JsonReader& json) {
  json.allow_only({"graduation", "mpe", "repeatability", "in_date"});
  Instrument i;
  i.graduation = size_over_0(json.required("graduation"), 0.01);
  if (const auto mpe = json.optional("mpe")) i.mpe = size(*mpe, 0.01);
  if (const auto repeatability = json.optional("repeatability")) i.repeatability = size(*repeatability, 0.01);
  if (const auto in_date = json.optional("in_date")) i.in_date = in_date->boolean();
  return i;
}

Angle place_round(const JsonReader& json) {
  if (const auto clock = clock_position(json.text(20))) return *clock;
  return quantity_between<Angle>(json, -1e-9, 4 * pi + 1e-9,
                                 "a clock position such as 12, 4:30, or an angle from 0 to 720 degrees");
}

std::vector<SweepReading> read_readings(const JsonReader& json) {
  std::vector<SweepReading> readings;
  double turns_rad = 0;
  for (const auto& item : json.items(readings_in_file_max)) {
    item.allow_only({"at", "reading"});
    const Angle at = place_round(item.required("at"));
    // The zero is read a second time at the end of a turn: 12 o'clock again is 360 degrees.
    if (!readings.empty() && at == readings.front().angle && turns_rad == 0) turns_rad = 2 * pi;
    readings.push_back({at + radians(turns_rad), quantity_between<Length>(item.required("reading"), -0.1, 0.1,
                                                                          "a length of at most 100 mm")});
  }
  if (readings.size() < alignment::fewest_places) json.refuse("readings at four places or more");
  return readings;
}

BarSag read_sag(const JsonReader& json) {
  json.allow_only({"at_bottom", "u"});
  BarSag sag;
  sag.at_bottom =
      quantity_between<Length>(json.required("at_bottom"), -0.01, 0.01, "a length of at most 10 mm");
  if (const auto u = json.optional("u")) sag.u = size(*u, 0.01);
  return sag;
}

void read_face(const JsonReader& json, alignment::Dial& dial) {
  if (dial.on == alignment::DialOn::rim) {
    for (const char* key : {"radius", "far_side"})
      if (const auto found = json.optional(key)) found->refuse("this key with a face only");
    return;
  }
  dial.radius = size_over_0(json.required("radius"), 2);
  if (const auto far = json.optional("far_side")) dial.far_side = far->boolean();
  if (const auto sag = json.optional("sag")) sag->refuse("this key with a rim only");
}

alignment::Dial read_dial(const JsonReader& json) {
  json.allow_only({"name", "on", "base", "at", "radius", "far_side", "plunger_in", "sag", "readings"});
  alignment::Dial dial;
  dial.on =
      json.required("on").word({"rim", "face"}) == "rim" ? alignment::DialOn::rim : alignment::DialOn::face;
  dial.base = json.required("base").word({"fixed shaft", "moved shaft"}) == "fixed shaft"
                  ? alignment::BaseOn::fixed_shaft
                  : alignment::BaseOn::moved_shaft;
  dial.at = place_along(json.required("at"));
  read_face(json, dial);
  if (const auto in = json.optional("plunger_in"))
    dial.plunger_in = in->word({"plus", "minus"}) == "plus" ? PlungerIn::plus : PlungerIn::minus;
  if (const auto sag = json.optional("sag")) dial.sag = read_sag(*sag);
  dial.readings = read_readings(json.required("readings"));
  return dial;
}

void read_dials(const JsonReader& json, AlignmentSheet& file) {
  const auto items = json.items(2);
  if (items.size() != 2) json.refuse("two indicators: two rims, or a rim and a face");
  std::vector<std::string> names;
  for (std::size_t d = 0; d < 2; ++d) {
    file.dials[d] = read_dial(items[d]);
    file.dial_names[d] = new_name(items[d].required("name"), names);
    names.push_back(file.dial_names[d]);
  }
  const auto& [a, b] = file.dials;
  const bool two_faces = a.on == alignment::DialOn::face && b.on == alignment::DialOn::face;
  const bool one_plane = a.on == b.on && a.at == b.at;
  if (two_faces || one_plane) json.refuse("two rims in planes that lie apart, or a rim and a face");
}

Length read_growth(const JsonReader& json) {
  if (json.is_string()) return quantity_between<Length>(json, -0.01, 0.01, "a length of at most 10 mm");
  json.allow_only({"height", "expansion", "rise"});
  return alignment::thermal_growth(
      quantity_between<Expansion>(json.required("expansion"), 0, 1e-4, "an expansion from 0 to 100 um/(m.K)"),
      size(json.required("height"), 10),
      quantity_between<TemperatureDifference>(json.required("rise"), -200, 1000,
                                              "a rise from -200 to 1000 K"));
}

struct FootInFile {
  Length at;
  Length growth{};
  alignment::FootRoom room;
};

FootInFile read_moved_foot(const JsonReader& json) {
  json.allow_only({"at", "growth", "shims_under", "bolt_play"});
  FootInFile foot{.at = place_along(json.required("at")), .room = {}};
  if (const auto growth = json.optional("growth")) foot.growth = read_growth(*growth);
  if (const auto shims = json.optional("shims_under")) foot.room.shims_under = size(*shims, 0.1);
  if (const auto play = json.optional("bolt_play")) foot.room.bolt_play = size(*play, 0.1);
  return foot;
}

void require_apart(const JsonReader& json, const alignment::Feet& feet) {
  if (feet.front == feet.back) json.refuse("front and back feet that stand apart");
}

void read_moved(const JsonReader& json, AlignmentSheet& file) {
  json.allow_only({"front", "back"});
  const FootInFile front = read_moved_foot(json.required("front"));
  const FootInFile back = read_moved_foot(json.required("back"));
  file.moved = {front.at, back.at, front.growth, back.growth};
  file.front_room = front.room;
  file.back_room = back.room;
  require_apart(json, file.moved);
}

FootInFile read_fixed_foot(const JsonReader& json) {
  json.allow_only({"at", "growth"});
  return {.at = place_along(json.required("at")), .growth = read_growth(json.required("growth")), .room = {}};
}

alignment::Feet read_fixed(const JsonReader& json) {
  json.allow_only({"front", "back"});
  const FootInFile front = read_fixed_foot(json.required("front"));
  const FootInFile back = read_fixed_foot(json.required("back"));
  alignment::Feet feet{front.at, back.at, front.growth, back.growth};
  require_apart(json, feet);
  return feet;
}

ShimDrawer read_shims(const JsonReader& json) {
  json.allow_only({"stock", "most"});
  ShimDrawer drawer;
  const auto stock = json.required("stock");
  for (const auto& item : stock.items(alignment::stock_max))
    drawer.stock.push_back(written_between(item, Kind::length, tiny, 0.1, "a thickness over 0 up to 100 mm"));
  if (drawer.stock.empty()) stock.refuse("at least one thickness");
  if (const auto most = json.optional("most"))
    drawer.most =
        static_cast<std::size_t>(most->integer(1, static_cast<std::int64_t>(alignment::shims_per_pack_max)));
  return drawer;
}

void read_soft_foot(const JsonReader& json, AlignmentSheet& file) {
  json.allow_only({"front left", "front right", "back left", "back right", "limit"});
  std::array<Length, 4> rises;
  for (std::size_t i = 0; i < rises.size(); ++i)
    rises[i] = size(json.required(alignment::word_for(static_cast<alignment::Foot>(i))), 0.01);
  file.soft_foot = rises;
  if (const auto limit = json.optional("limit")) file.soft_foot_limit = size_over_0(*limit, 0.01);
}

void read_tolerance(const JsonReader& json, AlignmentSheet& file) {
  json.allow_only({"offset", "angularity"});
  file.offset_tolerance =
      written_between(json.required("offset"), Kind::length, tiny, 0.01, "a length over 0 up to 10 mm");
  file.angularity_tolerance =
      written_between(json.required("angularity"), Kind::angle, tiny, 0.1,
                      "a slope over 0 up to 100 mil/in, such as 0.5 mil/in or 0.5 mrad");
  file.tolerance = {file.offset_tolerance.quantity().as<Length>(),
                    file.angularity_tolerance.quantity().as<Angle>()};
}

void read_header(const JsonReader& json) {
  json.allow_only({"format", "version", "name", "note", "seen_from", "tolerance", "coupling", "indicator",
                   "sweep_tolerance", "dials", "moved", "fixed", "shims", "soft_foot"});
  (void)json.required("format").word({"pumpwright-align"});
  (void)json.required("version").integer(align_file_version, align_file_version);
  if (const auto note = json.optional("note")) (void)note->text();
}

std::optional<int> small_number(std::string_view text, int least, int most) {
  int number = 0;
  const auto [stopped, failure] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (failure != std::errc() || stopped != text.data() + text.size() || text.empty() || text.size() > 2)
    return std::nullopt;
  if (number < least || number > most) return std::nullopt;
  return number;
}

}  // namespace

std::optional<Angle> clock_position(std::string_view text) {
  const auto colon = text.find(':');
  const auto hour = small_number(text.substr(0, colon), 1, 12);
  if (!hour) return std::nullopt;
  std::optional<int> minute = 0;
  if (colon != std::string_view::npos) minute = small_number(text.substr(colon + 1), 0, 59);
  if (!minute) return std::nullopt;
  return degrees(*hour % 12 * 30 + *minute * 0.5);
}

AlignmentSheet alignment_plan(const JsonReader& json) {
  read_header(json);
  AlignmentSheet sheet;
  sheet.name = json.required("name").text(200);
  sheet.seen_from = json.required("seen_from").word({"fixed machine", "moved machine"}) == "fixed machine"
                        ? SeenFrom::fixed_machine
                        : SeenFrom::moved_machine;
  read_tolerance(json.required("tolerance"), sheet);
  if (const auto coupling = json.optional("coupling")) sheet.coupling = place_along(*coupling);
  if (const auto tolerance = json.optional("sweep_tolerance"))
    sheet.sweep_tolerance = size_over_0(*tolerance, 0.01);
  read_moved(json.required("moved"), sheet);
  if (const auto fixed = json.optional("fixed")) sheet.fixed = read_fixed(*fixed);
  if (const auto shims = json.optional("shims")) sheet.shims = read_shims(*shims);
  return sheet;
}

AlignmentSheet decode_alignment(const JsonReader& json) {
  AlignmentSheet sheet = alignment_plan(json);
  sheet.instrument = read_indicator(json.required("indicator"));
  read_dials(json.required("dials"), sheet);
  if (const auto soft = json.optional("soft_foot")) read_soft_foot(*soft, sheet);
  return sheet;
}

}  // namespace pumpwright::job
