#include "job/event_json.h"

#include <cmath>

#include "job/bench_sheet.h"
#include "job/decode.h"

namespace pumpwright::job {
namespace {

// What the readings of one instrument are: their kind, and the unit of a bare number.
struct Scale {
  Kind kind;
  const Unit* unit;
};

UtcTime decode_time(const JsonReader& at) {
  try {
    return parse_utc_time(at.text(64), at.field());
  } catch (const BadInput& e) {
    throw e.at(at.pointer());
  }
}

std::string decode_name(const JsonReader& at) {
  std::string name = at.text(128);
  if (name.empty()) at.refuse("a text that is not empty");
  return name;
}

double decode_degrees(const JsonReader& at) {
  const double deg = at.number();
  if (std::fabs(deg) > 36000) at.refuse("degrees from -36000 to 36000");
  return deg;
}

Scale scale_of(const JsonReader& at, const std::map<std::string, ShopInstrument>& instruments) {
  const auto found = instruments.find(at.text(64));
  if (found == instruments.end()) at.refuse("the id of one of this file's instruments");
  return {found->second.quantity, find_unit(found->second.unit, found->second.quantity)};
}

Written decode_length(const JsonReader& at, const Scale& scale) {
  return decode_written(at, Kind::length, scale.kind == Kind::length ? scale.unit : nullptr);
}

Written decode_positive_reading(const JsonReader& at, const Scale& scale) {
  return decode_positive(at, Kind::length, scale.kind == Kind::length ? scale.unit : nullptr);
}

ValueReading decode_values(const JsonReader& at, const Scale& scale) {
  ValueReading out;
  if (at.is_string()) {
    out.values.push_back(decode_written(at, scale.kind, scale.unit));
    return out;
  }
  for (const auto& item : at.items(1000))
    out.values.push_back(decode_written(item, scale.kind, scale.unit));
  if (out.values.empty()) at.refuse("at least one value");
  return out;
}

SizeReading decode_size(const JsonReader& at, const Scale& scale) {
  at.allow_only({"points", "part_temperature", "material"});
  SizeReading out;
  for (const auto& p : at.required("points").items(100000)) {
    p.allow_only({"section", "clock_deg", "diameter"});
    SizePoint point;
    if (const auto section = p.optional("section")) point.section = section->text(64);
    if (const auto clock = p.optional("clock_deg")) point.clock_deg = decode_degrees(*clock);
    point.diameter = decode_positive_reading(p.required("diameter"), scale);
    out.points.push_back(point);
  }
  if (out.points.empty()) at.required("points").refuse("at least one diameter");
  if (const auto t = at.optional("part_temperature"))
    out.part_temperature = decode_written(*t, Kind::temperature);
  if (const auto m = at.optional("material")) out.material = decode_name(*m);
  return out;
}

TurnedAngles decode_turned(const JsonReader& at) {
  at.allow_only({"moved", "in_rotation", "marks_rise_with_rotation", "first_place_deg"});
  TurnedAngles out;
  out.indicator_moved = at.required("moved").word({"shaft", "indicator"}) == "indicator";
  out.in_rotation = at.required("in_rotation").boolean();
  if (const auto marks = at.optional("marks_rise_with_rotation"))
    out.marks_rise_with_rotation = marks->boolean();
  if (const auto first = at.optional("first_place_deg")) out.first_place_deg = decode_degrees(*first);
  return out;
}

SweepRemedy decode_remedy(const JsonReader& at) {
  at.allow_only({"impeller_keyway", "sleeve_turned_deg", "moved", "toward_deg", "holes"});
  constexpr int most = 24;
  SweepRemedy out;
  if (const auto keyway = at.optional("impeller_keyway"))
    out.impeller_keyway = static_cast<int>(keyway->integer(0, most - 1));
  if (const auto turned = at.optional("sleeve_turned_deg")) out.sleeve_turned_deg = decode_degrees(*turned);
  if (const auto moved = at.optional("moved")) {
    out.moved = decode_positive(*moved, Kind::length);
    out.toward_deg = decode_degrees(at.required("toward_deg"));
  }
  if (const auto holes = at.optional("holes")) out.holes = static_cast<int>(holes->integer(0, most - 1));
  const bool turns = at.optional("impeller_keyway") || out.sleeve_turned_deg;
  if (turns == (out.moved || out.holes))
    at.refuse("impeller_keyway or sleeve_turned_deg of what turns, or moved or holes of what stands");
  return out;
}

void decode_points(const JsonReader& at, const Scale& scale, SweepReading& out) {
  for (const auto& p : at.items(1000000)) {
    p.allow_only({"angle_deg", "reading", "opposite"});
    out.points.push_back(
        {decode_degrees(p.required("angle_deg")), decode_length(p.required("reading"), scale)});
    if (const auto opposite = p.optional("opposite")) out.opposite.push_back(decode_length(*opposite, scale));
  }
  if (out.points.empty()) at.refuse("at least three readings");
  if (!out.opposite.empty() && out.opposite.size() != out.points.size())
    at.refuse("an \"opposite\" at every point or at none");
}

void decode_seating(const JsonReader& at, const Scale& scale, SweepReading& out) {
  if (const auto mount = at.optional("mount")) out.mount = mount->word({"shaft", "housing"});
  if (const auto base = at.optional("base"))
    out.base = base->word({"motor-face", "rigid-frame", "shaft", "bench", "resilient-foot", "non-magnetic"});
  if (const auto plunger = at.optional("plunger_in"))
    out.plunger_in_is_plus = plunger->word({"plus", "minus"}) == "plus";
  if (const auto surface = at.optional("surface"))
    out.inside_surface = surface->word({"outside", "inside"}) == "inside";
  if (const auto turned = at.optional("turned")) out.turned = decode_turned(*turned);
  if (const auto stylus = at.optional("stylus_deg")) out.stylus_angle_deg = decode_degrees(*stylus);
  if (const auto radius = at.optional("radius")) out.radius = decode_positive(*radius, Kind::length);
  if (const auto held = at.optional("held_toward")) out.held_toward = held->word({"driver", "impeller"});
  if (const auto zero = at.optional("zero_return")) out.zero_return = decode_length(*zero, scale);
  if (const auto sag = at.optional("bar_sag")) out.bar_sag = decode_length(*sag, scale);
}

SweepReading decode_sweep(const JsonReader& at, const Scale& scale) {
  at.allow_only({"mount", "base", "plunger_in", "surface", "turned", "stylus_deg", "radius", "held_toward",
                 "zero_return", "bar_sag", "remedy", "gaps", "points"});
  SweepReading out;
  decode_seating(at, scale, out);
  if (const auto remedy = at.optional("remedy")) out.remedy = decode_remedy(*remedy);
  if (const auto gaps = at.optional("gaps"))
    for (const auto& gap : gaps->items(100)) {
      gap.allow_only({"from_deg", "to_deg"});
      out.gaps.push_back({decode_degrees(gap.required("from_deg")), decode_degrees(gap.required("to_deg"))});
    }
  decode_points(at.required("points"), scale, out);
  return out;
}

Confirmation decode_confirmation(const JsonReader& done, const JsonReader& event) {
  const auto note = event.optional("note");
  return {done.boolean(), note ? note->text() : ""};
}

// A reading carries exactly one kind of content.
void want_one_content(const JsonReader& at) {
  int contents = 0;
  for (const auto* key : {"done", "value", "values", "size", "sweep", "sheet"})
    contents += at.optional(key) ? 1 : 0;
  if (contents != 1) at.refuse("a reading with one of done, value, values, size, sweep, sheet");
}

Reading decode_reading(const JsonReader& at, const std::map<std::string, ShopInstrument>& instruments) {
  at.allow_only({"event", "id", "check", "time", "actor", "instrument", "replaces", "done", "note", "value",
                 "values", "size", "sweep", "sheet"});
  want_one_content(at);
  Reading r;
  r.id = decode_name(at.required("id"));
  r.check = decode_name(at.required("check"));
  r.time = decode_time(at.required("time"));
  r.actor = decode_name(at.required("actor"));
  if (const auto replaces = at.optional("replaces")) r.replaces = decode_name(*replaces);
  if (const auto done = at.optional("done")) {
    r.body = decode_confirmation(*done, at);
    return r;
  }
  // Not every bench test is read with one; which must be, its check says (job/job_state.cpp).
  if (const auto sheet = at.optional("sheet"); sheet && !at.optional("instrument")) {
    r.body = SheetReading{decode_sheet_reading(*sheet)};
    return r;
  }
  const JsonReader instrument = at.required("instrument");
  const Scale scale = scale_of(instrument, instruments);
  r.instrument = instrument.text(64);
  if (const auto value = at.optional("value"))
    r.body = decode_values(*value, scale);
  else if (const auto values = at.optional("values"))
    r.body = decode_values(*values, scale);
  else if (const auto size = at.optional("size"))
    r.body = decode_size(*size, scale);
  else if (const auto sheet = at.optional("sheet"))
    r.body = SheetReading{decode_sheet_reading(*sheet)};
  else
    r.body = decode_sweep(at.required("sweep"), scale);
  return r;
}

}  // namespace

Event decode_event(const JsonReader& at, const std::map<std::string, ShopInstrument>& instruments) {
  const std::string what =
      at.required("event").word({"reading", "step-done", "hold-released", "deviation-accepted"});
  if (what == "reading") return ReadingTaken{decode_reading(at, instruments)};
  if (what == "deviation-accepted") {
    at.allow_only({"event", "check", "reason", "time", "actor"});
    return DeviationAccepted{decode_name(at.required("check")), decode_name(at.required("reason")),
                             decode_time(at.required("time")), decode_name(at.required("actor"))};
  }
  at.allow_only({"event", "step", "time", "actor"});
  const std::string step = decode_name(at.required("step"));
  const UtcTime time = decode_time(at.required("time"));
  const std::string actor = decode_name(at.required("actor"));
  if (what == "step-done") return StepDone{step, time, actor};
  return HoldReleased{step, time, actor};
}

}  // namespace pumpwright::job
