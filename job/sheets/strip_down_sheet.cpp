#include "job/sheets/strip_down_sheet.h"

#include <algorithm>
#include <set>

#include "job/decode.h"
#include "job/json_quantity.h"

namespace pumpwright::job {
namespace {

constexpr std::size_t most_things = 200;
constexpr double usual_graduation_m = 5e-5;  // a calliper's, when the file names none

std::string optional_text(const JsonReader& json, const char* key, std::size_t longest) {
  const auto at = json.optional(key);
  return at ? at->text(longest) : std::string();
}

std::string finding_word(const JsonReader& json) {
  std::string word = json.text(60);
  const bool fits = !word.empty() && std::all_of(word.begin(), word.end(),
                                                 [](char c) { return (c >= 'a' && c <= 'z') || c == '-'; });
  if (!fits) json.refuse("the word of a finding, such as heat-checks");
  return word;
}

class Things {
 public:
  std::vector<FoundThing> read(const JsonReader& list) {
    std::vector<FoundThing> out;
    for (const auto& item : list.items(most_things)) {
      FoundThing thing;
      if (item.is_object()) {
        item.allow_only({"finding", "said", "where", "note"});
        thing.finding = finding_word(item.required("finding"));
        thing.said = optional_text(item, "said", 200);
        thing.where = optional_text(item, "where", 200);
        thing.note = optional_text(item, "note", 500);
      } else {
        thing.finding = finding_word(item);
      }
      thing.pointer = item.pointer();
      if (!named_.insert(thing.finding).second) item.refuse("each finding once");
      out.push_back(std::move(thing));
    }
    return out;
  }

 private:
  std::set<std::string> named_;
};

void read_measured(const JsonReader& json, StripDownSheet& sheet) {
  json.allow_only({"track_width", "narrow_face", "read_to", "hardness", "hardness_new", "wear_depth",
                   "end_float", "shaft_runout", "working_length"});
  const auto length = [&](const char* key) {
    const auto at = json.optional(key);
    return at ? std::optional(decode_positive(*at, Kind::length)) : std::nullopt;
  };
  const auto track = length("track_width"), face = length("narrow_face"), read_to = length("read_to");
  if (track.has_value() != face.has_value()) json.refuse("track_width and narrow_face together");
  if (track)
    sheet.track = {*track, *face, metres(read_to ? read_to->si : usual_graduation_m)};
  else if (read_to)
    json.refuse("read_to only beside track_width and narrow_face");
  const auto shore = [&](const char* key) {
    const auto at = json.optional(key);
    return at ? std::optional(written_between(*at, Kind::number, 0, 100, "a Shore A hardness from 0 to 100"))
              : std::nullopt;
  };
  const auto found = shore("hardness"), fresh = shore("hardness_new");
  if (found.has_value() != fresh.has_value()) json.refuse("hardness and hardness_new together");
  if (found) sheet.hardness = {*found, *fresh};
  sheet.as_found = {length("end_float"), length("shaft_runout"), length("working_length"),
                    length("wear_depth")};
}

}  // namespace

StripDownSheet decode_strip_down(const JsonReader& json) {
  json.allow_only(
      {"format", "version", "name", "note", "complaint", "hours_run", "found", "not_found", "measured"});
  (void)json.required("format").word({"pumpwright-strip-down"});
  (void)json.required("version").integer(strip_down_file_version, strip_down_file_version);
  if (const auto note = json.optional("note")) (void)note->text();
  StripDownSheet sheet;
  sheet.name = json.required("name").text(200);
  sheet.complaint = optional_text(json, "complaint", 500);
  if (const auto hours = json.optional("hours_run")) sheet.hours_run = decode_positive(*hours, Kind::time);
  Things things;
  if (const auto list = json.optional("found")) sheet.found = things.read(*list);
  if (const auto list = json.optional("not_found")) sheet.not_found = things.read(*list);
  if (const auto measured = json.optional("measured")) read_measured(*measured, sheet);
  return sheet;
}

}  // namespace pumpwright::job
