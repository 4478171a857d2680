#include "cli/true_file.h"

#include <charconv>
#include <cmath>

#include <nlohmann/json.hpp>

#include "engine/quantity/parse.h"
#include "job/json_quantity.h"
#include "job/json_reader.h"

namespace pumpwright {
namespace {

using job::JsonReader;
using true_running::ClockPosition;
using true_running::Offset;
using true_running::Rotating;
using true_running::Standing;
using true_running::Station;
using true_running::Surface;

constexpr std::string_view format_word = "pumpwright-true";

Length length_of(const JsonReader& json) {
  return metres(written_length(json).si);
}

Length size_of(const JsonReader& json, bool zero_allowed) {
  const auto written = written_length(json);
  if (written.si < 0 || (written.si == 0 && !zero_allowed))
    json.refuse(zero_allowed ? "a length that is not negative" : "a length above zero");
  return metres(written.si);
}

std::optional<Length> optional_size(const JsonReader& json, std::string_view key, bool zero_allowed = false) {
  const auto found = json.optional(key);
  return found ? std::optional<Length>(size_of(*found, zero_allowed)) : std::nullopt;
}

Angle degrees_at(const JsonReader& json) {
  const double number = json.number();
  if (!(number >= -360 && number <= 360)) json.refuse("an angle in degrees from -360 to 360");
  return true_running::wrapped(degrees(number));
}

// "10:00", "9:30", "12": hours and minutes of a clock seen from the impeller end.
ClockPosition clock_at(const JsonReader& json) {
  const auto text = json.text(8);
  int hour = 0, minute = 0;
  const char* const end = text.data() + text.size();
  auto [at, failed] = std::from_chars(text.data(), end, hour);
  bool good = failed == std::errc() && hour >= 1 && hour <= 12;
  if (good && at != end) {
    good = *at == ':' && end - at == 3 && std::from_chars(at + 1, end, minute).ptr == end && minute >= 0 &&
           minute < 60;
  }
  if (!good) json.refuse("a clock position seen from the impeller end, such as 10:00 or 9:30");
  return {true_running::wrapped(degrees(30.0 * (hour % 12) + 0.5 * minute))};
}

int count_of(const JsonReader& json, int least, int most) {
  return static_cast<int>(json.integer(least, most));
}

// Where the high spot is: degrees from the keyway for what turns, a clock position for what stands.
template <class Chain>
constexpr std::string_view high_spot_key = "high_spot_deg";
template <>
constexpr std::string_view high_spot_key<Standing> = "high_spot";

Angle high_spot(Rotating, const JsonReader& json) {
  return degrees_at(json);
}
Angle high_spot(Standing, const JsonReader& json) {
  return clock_at(json).angle;
}

void read_part(const JsonReader& json, Station<Rotating>& s) {
  const auto word = json.word({"shaft", "sleeve", "impeller"});
  s.part = word == "shaft"    ? Rotating::Part::shaft
           : word == "sleeve" ? Rotating::Part::sleeve
                              : Rotating::Part::impeller;
}
void read_part(const JsonReader& json, Station<Standing>& s) {
  const auto word = json.word({"motor", "bracket", "seat"});
  s.part = word == "motor"     ? Standing::Part::motor
           : word == "bracket" ? Standing::Part::bracket
                               : Standing::Part::seat;
}

template <class Chain>
class StationReader {
 public:
  StationReader(const JsonReader& section, const Unit*& unit) : unit_(unit) {
    if (const auto u = section.optional("u")) usual_u_ = size_of(*u, false);
  }

  Station<Chain> read(const JsonReader& json) {
    json.allow_only({"id", "part", "at", "face_radius", "faces", "tir", high_spot_key<Chain>, "u", "limit"});
    Station<Chain> s;
    const auto id = json.required("id");
    s.id = id.text(80);
    if (s.id.empty()) id.refuse("a name");
    read_part(json.required("part"), s);
    s.at = length_of(json.required("at"));
    if (const auto radius = json.optional("face_radius")) {
      s.surface = Surface::face;
      s.radius = size_of(*radius, false);
    }
    if (const auto faces = json.optional("faces")) {
      if (s.surface != Surface::face) faces->refuse("this key with face_radius only");
      s.faces_driver = faces->word({"impeller", "driver"}) == "driver";
    }
    read_vector(json, s);
    if (const auto limit = optional_size(json, "limit")) s.limit = Tir{*limit};
    return s;
  }

 private:
  void read_vector(const JsonReader& json, Station<Chain>& s) {
    const auto tir = json.required("tir");
    const auto written = written_length(tir);
    if (written.si < 0) tir.refuse("a length that is not negative");
    if (unit_ == nullptr) unit_ = written.unit;
    const auto spot =
        written.si > 0 ? json.required(high_spot_key<Chain>) : json.optional(high_spot_key<Chain>);
    const double at_rad = spot ? high_spot(Chain{}, *spot).value() : 0;
    s.vector = Offset<Chain>::from_si(std::polar(written.si / 2, at_rad));
    const auto own = optional_size(json, "u");
    if (!own && !usual_u_) (void)json.required("u");
    const double u_m = (own ? *own : *usual_u_).value();
    s.covariance = {u_m * u_m, 0, 0, u_m * u_m};
  }

  const Unit*& unit_;
  std::optional<Length> usual_u_;
};

template <class Chain>
std::vector<Station<Chain>> read_stations(const JsonReader& json, StationReader<Chain>& reader) {
  std::vector<Station<Chain>> out;
  const auto list = json.required("stations");
  for (const auto& station : list.items(true_running::stations_max))
    out.push_back(reader.read(station));
  if (out.empty()) list.refuse("at least one station");
  return out;
}

void read_after(const JsonReader& json, StationReader<Rotating>& reader, job::TrueQuestion<Rotating>& q) {
  json.allow_only({"impeller_keyway", "sleeve_turned_deg", "stations"});
  job::TrueAfter<Rotating> after;
  if (const auto key = json.optional("impeller_keyway"))
    after.setting.impeller_keyway = count_of(*key, 0, q.moves.impeller_keyways - 1);
  if (const auto turned = json.optional("sleeve_turned_deg"))
    after.setting.sleeve_turned = degrees_at(*turned);
  after.stations = read_stations(json, reader);
  q.after = std::move(after);
}

void read_after(const JsonReader& json, StationReader<Standing>& reader, job::TrueQuestion<Standing>& q) {
  json.allow_only({"moved", "toward", "shim", "shim_at", "holes", "stations"});
  job::TrueAfter<Standing> after;
  if (const auto moved = json.optional("moved"))
    after.setting.shift = Offset<Standing>::from_si(
        std::polar(size_of(*moved, true).value(), clock_at(json.required("toward")).angle.value()));
  if (const auto shim = json.optional("shim")) {
    if (!(q.moves.bolt_circle.value() > 0)) shim->refuse("this key with bolt_circle given only");
    after.setting.shim = true_running::Shim{size_of(*shim, false), clock_at(json.required("shim_at"))};
  }
  if (const auto holes = json.optional("holes"))
    after.setting.holes = count_of(*holes, 0, q.moves.bolt_holes - 1);
  after.stations = read_stations(json, reader);
  q.after = std::move(after);
}

void read_rotating(const JsonReader& json, TrueFile& file) {
  json.allow_only({"bend", "sleeve_seat", "impeller_seat", "sleeve_turns", "impeller_keyways",
                   "shroud_radius", "u", "stations", "after"});
  auto& q = file.rotating;
  if (const auto bend = json.optional("bend")) q.geometry.bend = length_of(*bend);
  if (const auto seat = json.optional("sleeve_seat")) q.geometry.sleeve_seat = length_of(*seat);
  q.geometry.impeller_seat = length_of(json.required("impeller_seat"));
  q.moves.sleeve_turns = q.geometry.sleeve_seat.has_value();
  if (const auto turns = json.optional("sleeve_turns")) q.moves.sleeve_turns = turns->boolean();
  if (const auto keyways = json.optional("impeller_keyways"))
    q.moves.impeller_keyways = count_of(*keyways, 1, 12);
  q.face_radius = optional_size(json, "shroud_radius");
  StationReader<Rotating> reader(json, file.unit);
  q.stations = read_stations(json, reader);
  if (const auto after = json.optional("after")) read_after(*after, reader, q);
}

void read_dial(const JsonReader& json, TrueFile& file) {
  json.allow_only({"station", "at", "change"});
  file.dial = DialLeft{json.required("station").text(80), clock_at(json.required("at")),
                       length_of(json.required("change"))};
}

void read_standing(const JsonReader& json, TrueFile& file) {
  json.allow_only({"seat", "room", "bolt_holes", "bolt_circle", "first_bolt", "shims", "face_radius", "u",
                   "stations", "dial", "after"});
  auto& q = file.standing;
  if (const auto seat = json.optional("seat")) q.geometry.seat = length_of(*seat);
  if (const auto room = json.optional("room")) q.moves.room = size_of(*room, true);
  if (const auto holes = json.optional("bolt_holes")) q.moves.bolt_holes = count_of(*holes, 1, 24);
  if (const auto circle = optional_size(json, "bolt_circle")) q.moves.bolt_circle = *circle;
  if (const auto bolt = json.optional("first_bolt")) q.moves.first_bolt = clock_at(*bolt).angle;
  if (const auto shims = json.optional("shims")) {
    if (!(q.moves.bolt_circle.value() > 0)) (void)json.required("bolt_circle");
    for (const auto& shim : shims->items(20))
      q.moves.shims.push_back(size_of(shim, false));
  }
  q.face_radius = optional_size(json, "face_radius");
  StationReader<Standing> reader(json, file.unit);
  q.stations = read_stations(json, reader);
  if (const auto dial = json.optional("dial")) read_dial(*dial, file);
  if (const auto after = json.optional("after")) read_after(*after, reader, q);
}

}  // namespace

bool looks_like_true_file(std::string_view bytes) {
  // Only what comes before anything else in a file decides here; whether the rest is sound is the decoder's
  // to say.
  const auto json = nlohmann::json::parse(bytes, nullptr, false);
  return json.is_object() && json.contains("format") && json["format"] == format_word;
}

TrueFile decode_true_file(std::string_view bytes) {
  const auto json = JsonReader::parse(bytes);
  json.allow_only({"format", "version", "name", "note", "rotating", "standing"});
  (void)json.required("format").word({format_word});
  (void)json.required("version").integer(true_file_version, true_file_version);
  TrueFile file;
  file.name = json.required("name").text(200);
  if (const auto note = json.optional("note")) (void)note->text();
  const auto rotating = json.optional("rotating");
  const auto standing = json.optional("standing");
  if (!rotating && !standing) (void)json.required("rotating");
  if (rotating) read_rotating(*rotating, file);
  if (standing) read_standing(*standing, file);
  return file;
}

}  // namespace pumpwright
