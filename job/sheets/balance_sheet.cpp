#include "job/sheets/balance_sheet.h"

#include <cmath>

#include <fmt/format.h>

#include "engine/rotor/balance_places.h"
#include "job/json_quantity.h"

namespace pumpwright::job {
namespace {

using rotor::AngleSense;

constexpr double turn_rad = 2 * pi + 1e-9;
constexpr double tiny = 1e-12;  // "over 0"

Angle angle(const JsonReader& json) {
  return quantity_between<Angle>(json, -turn_rad, turn_rad, "an angle from -360 to 360 degrees");
}
Length length_over_0(const JsonReader& json, double most_m = 10) {
  return quantity_between<Length>(json, tiny, most_m, fmt::format("a length over 0 up to {:g} m", most_m));
}
Length place_along(const JsonReader& json) {
  return quantity_between<Length>(json, -100, 100, "a length of at most 100 m");
}
Mass mass_over_0(const JsonReader& json) {
  return quantity_between<Mass>(json, tiny, 1e5, "a mass over 0 up to 100000 kg");
}
Density density(const JsonReader& json) {
  return quantity_between<Density>(json, 500, 25000, "a density from 500 to 25000 kg/m3");
}
Written speed(const JsonReader& json) {
  return written_between(json, Kind::speed, pi / 30 * (1 - 1e-9), 1e5 * pi / 30 * (1 + 1e-9),
                         "a speed from 1 to 100000 rpm");
}

AngleSense read_sense(const JsonReader& json) {
  json.allow_only({"from", "rise", "phase"});
  (void)json.required("from").word({"keyway", "mark"});
  AngleSense sense;
  sense.places = json.required("rise").word({"against rotation", "with rotation"}) == "against rotation"
                     ? rotor::PlacesRise::against_rotation
                     : rotor::PlacesRise::with_rotation;
  sense.phase =
      json.required("phase").word({"lag", "lead"}) == "lag" ? rotor::PhaseIs::lag : rotor::PhaseIs::lead;
  return sense;
}

// "G 6.3", "G6.3", "6.3": in mm/s.
Velocity read_grade(const JsonReader& json) {
  constexpr const char* expected = "a grade from G 0.4 to G 4000, such as G 6.3";
  std::string text = json.text(20);
  if (text.starts_with('G')) text.erase(0, 1);
  try {
    const double grade = parse_number(text, {.field = json.field()});
    if (!(grade >= 0.4 && grade <= 4000)) json.refuse(expected);
    return metres_per_second(grade / 1000);
  } catch (const BadInput&) {
    json.refuse(expected);
  }
}

void read_rotor(const JsonReader& json, BalanceSheet& file) {
  json.allow_only(
      {"mass", "speed", "balancing_speed", "grade", "bearings", "centre_of_mass", "bounds_confirmed"});
  file.mass = written_between(json.required("mass"), Kind::mass, tiny, 1e5, "a mass over 0 up to 100000 kg");
  file.speed = speed(json.required("speed"));
  const auto balancing = json.optional("balancing_speed");
  file.balancing = (balancing ? speed(*balancing) : file.speed).quantity().as<Speed>();
  file.rotor = {file.mass.quantity().as<Mass>(), file.speed.quantity().as<Speed>(),
                read_grade(json.required("grade"))};
  if (const auto confirmed = json.optional("bounds_confirmed")) file.bounds_confirmed = confirmed->boolean();
  const auto bearings = json.optional("bearings");
  const auto centre = json.optional("centre_of_mass");
  if (!bearings && !centre) return;
  const auto places = json.required("bearings").items(2);
  if (places.size() != 2) json.required("bearings").refuse("the places of two bearings along the shaft");
  file.bearings = {place_along(places[0]), place_along(places[1]),
                   place_along(json.required("centre_of_mass"))};
  if (file.bearings->a == file.bearings->b) bearings->refuse("two places that lie apart");
}

std::vector<Angle> read_places(const JsonReader& json) {
  std::vector<Angle> places;
  if (json.is_array()) {
    for (const auto& place : json.items(rotor::places_max))
      places.push_back(angle(place));
    if (places.empty()) json.refuse("at least one place");
    return places;
  }
  json.allow_only({"count", "first"});
  const auto count = json.required("count").integer(3, static_cast<std::int64_t>(rotor::places_max));
  const auto first = json.optional("first");
  for (std::int64_t i = 0; i < count; ++i)
    places.push_back((first ? angle(*first) : radians(0)) +
                     radians(2 * pi * static_cast<double>(i) / static_cast<double>(count)));
  return places;
}

WeightsAtHand read_weights(const JsonReader& json) {
  json.allow_only({"masses", "most_per_place"});
  WeightsAtHand at_hand;
  const auto masses = json.required("masses");
  for (const auto& mass : masses.items(rotor::weights_max)) {
    (void)mass_over_0(mass);
    at_hand.masses.push_back(decode_written(mass, Kind::mass));
  }
  if (at_hand.masses.empty()) masses.refuse("at least one mass");
  if (const auto most = json.optional("most_per_place"))
    at_hand.most_per_place =
        static_cast<std::size_t>(most->integer(1, static_cast<std::int64_t>(rotor::pieces_max)));
  return at_hand;
}

DrillAtHand read_drill(const JsonReader& json, Length radius) {
  json.allow_only({"direction", "diameter", "point", "density", "most_depth", "spacing"});
  DrillAtHand out;
  rotor::Drill& d = out.drill;
  d.radius = radius;
  if (const auto direction = json.optional("direction"))
    d.direction = direction->word({"axial", "radial"}) == "axial" ? rotor::DrillDirection::axial
                                                                  : rotor::DrillDirection::radial;
  d.diameter = length_over_0(json.required("diameter"), 1);
  if (const auto point = json.optional("point"))
    d.point = quantity_between<Angle>(*point, pi / 3 - 1e-9, pi + 1e-9, "an angle from 60 to 180 degrees");
  d.density = density(json.required("density"));
  const auto most_depth = json.required("most_depth");
  d.most_depth = length_over_0(most_depth, 1);
  if (d.direction == rotor::DrillDirection::radial && d.most_depth >= radius)
    most_depth.refuse("a depth that does not reach the axis");
  if (const auto spacing = json.optional("spacing"))
    out.spacing = quantity_between<Angle>(*spacing, 0, pi / 6 + 1e-9, "an angle from 0 to 30 degrees");
  return out;
}

rotor::Grind read_grind(const JsonReader& json, Length radius) {
  json.allow_only({"length", "width", "density", "most_depth"});
  rotor::Grind g;
  g.radius = radius;
  const auto length = json.required("length");
  g.length = length_over_0(length);
  if (g.length.value() > pi * radius.value()) length.refuse("a length of half a turn at most");
  const auto width = json.required("width");
  g.width = length_over_0(width);
  if (g.width.value() >= 2 * radius.value()) width.refuse("a width that does not reach the axis");
  g.density = density(json.required("density"));
  g.most_depth = length_over_0(json.required("most_depth"), 1);
  return g;
}

PlaneInFile read_plane(const JsonReader& json, const std::vector<std::string>& names) {
  json.allow_only({"name", "radius", "at", "places", "weights", "drill", "grind"});
  PlaneInFile plane;
  plane.name = new_name(json.required("name"), names);
  plane.radius =
      written_between(json.required("radius"), Kind::length, tiny, 10, "a length over 0 up to 10 m");
  const auto radius = plane.radius.quantity().as<Length>();
  if (const auto at = json.optional("at")) plane.at = place_along(*at);
  if (const auto places = json.optional("places")) plane.places = read_places(*places);
  const auto weights = json.optional("weights");
  const auto drill = json.optional("drill");
  const auto grind = json.optional("grind");
  if (int{weights.has_value()} + int{drill.has_value()} + int{grind.has_value()} > 1)
    json.refuse("one of weights, drill and grind");
  if (weights) plane.by = read_weights(*weights);
  if (drill) plane.by = read_drill(*drill, radius);
  if (grind) plane.by = read_grind(*grind, radius);
  return plane;
}

// A velocity or a displacement: whatever the meter shows.
Written amplitude(const JsonReader& json) {
  constexpr const char* expected =
      "a vibration velocity or displacement such as 4.2 mm/s or 2.5 mil, 0 or more";
  for (const Kind kind : {Kind::velocity, Kind::length}) {
    try {
      auto written = decode_written(json, kind);
      if (!(written.si >= 0 && written.si <= 100)) json.refuse(expected);
      return written;
    } catch (const BadInput&) {
      if (kind == Kind::length) json.refuse(expected);
    }
  }
  json.refuse(expected);
}

Written amplitude_like(const JsonReader& json, SensorInFile& sensor) {
  auto written = amplitude(json);
  if (sensor.unit == nullptr) sensor.unit = written.unit;
  if (sensor.unit->kind != written.unit->kind)
    json.refuse("the same quantity (velocity or displacement) in every reading of a sensor");
  return written;
}

void read_sensor(const JsonReader& json, std::vector<std::string>& names, BalanceSheet& file) {
  json.allow_only({"name", "amplitude_u", "phase_u"});
  SensorInFile sensor{.name = new_name(json.required("name"), names)};
  names.push_back(sensor.name);
  std::optional<rotor::ReadingDoubt> doubt;
  if (json.optional("amplitude_u") || json.optional("phase_u")) {
    const auto u = json.required("amplitude_u");
    const auto written = amplitude_like(u, sensor);
    if (written.si <= 0) u.refuse("an uncertainty over 0");
    doubt = rotor::ReadingDoubt{written.si, quantity_between<Angle>(json.required("phase_u"), tiny, pi,
                                                                    "an angle over 0 up to 180 degrees")};
  }
  file.sensors.push_back(sensor);
  file.runs.sensors.push_back(doubt);
}

rotor::FittedWeight read_fitted(const JsonReader& json, const std::vector<std::string>& planes,
                                const BalanceSheet& file) {
  json.allow_only({"plane", "mass", "radius", "angle", "removed"});
  rotor::FittedWeight weight;
  weight.plane = named_or_numbered(json.required("plane"), planes);
  const auto radius = json.optional("radius");
  const Length at =
      radius ? length_over_0(*radius) : file.planes[weight.plane].radius.quantity().as<Length>();
  weight.unbalance = {mass_over_0(json.required("mass")) * at, angle(json.required("angle"))};
  if (const auto removed = json.optional("removed")) weight.removed = removed->boolean();
  return weight;
}

void read_readings(const JsonReader& json, const std::vector<std::string>& names, BalanceSheet& file,
                   rotor::BalanceRun& run) {
  std::vector<std::optional<rotor::VibrationVector>> read(names.size());
  for (const auto& reading : json.items(rotor::sensors_max)) {
    reading.allow_only({"sensor", "amplitude", "phase"});
    const std::size_t sensor = named_or_numbered(reading.required("sensor"), names);
    if (read[sensor]) reading.required("sensor").refuse("each sensor once in a run");
    const auto written = amplitude_like(reading.required("amplitude"), file.sensors[sensor]);
    read[sensor] = {written.si, angle(reading.required("phase"))};
  }
  for (const auto& one : read) {
    if (!one) json.refuse("a reading of every sensor");
    run.readings.push_back(*one);
  }
}

void read_runs(const JsonReader& json, const std::vector<std::string>& planes,
               const std::vector<std::string>& sensors, BalanceSheet& file) {
  for (const auto& item : json.items(rotor::runs_max)) {
    item.allow_only({"name", "fitted", "readings"});
    file.run_names.push_back(new_name(item.required("name"), file.run_names));
    rotor::BalanceRun run;
    for (const auto& weight : item.required("fitted").items(100))
      run.fitted.push_back(read_fitted(weight, planes, file));
    read_readings(item.required("readings"), sensors, file, run);
    file.runs.runs.push_back(run);
  }
  if (file.run_names.empty()) json.refuse("at least one run");
}

rotor::BalancedWith balanced_with(const JsonReader& json, std::initializer_list<std::string_view> words) {
  const auto word = json.word(words);
  if (word == "half key") return rotor::BalancedWith::half_key;
  return word == "full key" ? rotor::BalancedWith::full_key : rotor::BalancedWith::no_key;
}

rotor::KeyFitted read_key(const JsonReader& json) {
  json.allow_only(
      {"shaft_diameter", "system", "length", "seat_length", "hub_length", "density", "shaft", "hub"});
  rotor::KeyFitted key;
  const auto diameter = json.required("shaft_diameter");
  key.shaft_diameter = length_over_0(diameter, 1);
  const auto system = json.required("system").word({"metric", "inch square", "inch rectangular"});
  const KeySystem which = system == "metric"        ? KeySystem::metric
                          : system == "inch square" ? KeySystem::inch_square
                                                    : KeySystem::inch_rectangular;
  try {
    key.section = key_for_shaft(key.shaft_diameter, which);
  } catch (const BadInput& error) {
    diameter.refuse("a shaft diameter " + error.what_was_wrong().expected);
  }
  key.key_length = length_over_0(json.required("length"), 2);
  key.seat_length = length_over_0(json.required("seat_length"), 2);
  key.hub_length = length_over_0(json.required("hub_length"), 2);
  key.density = density(json.required("density"));
  if (const auto shaft = json.optional("shaft"))
    key.shaft = balanced_with(*shaft, {"half key", "full key", "no key"});
  if (const auto hub = json.optional("hub")) key.hub = balanced_with(*hub, {"half key", "no key"});
  return key;
}

void read_header(const JsonReader& json) {
  json.allow_only(
      {"format", "version", "name", "note", "angles", "rotor", "planes", "sensors", "runs", "key"});
  (void)json.required("format").word({"pumpwright-balance"});
  (void)json.required("version").integer(balance_file_version, balance_file_version);
  if (const auto note = json.optional("note")) (void)note->text();
}

void require_places_along(const JsonReader& json, const BalanceSheet& file) {
  if (!file.bearings) return;
  const auto planes = json.required("planes").items(rotor::planes_max);
  for (const auto& plane : planes)
    (void)plane.required("at");
}

}  // namespace

BalanceSheet decode_balance(const JsonReader& json) {
  read_header(json);
  BalanceSheet file;
  file.name = json.required("name").text(200);
  file.runs.sense = read_sense(json.required("angles"));
  read_rotor(json.required("rotor"), file);
  std::vector<std::string> plane_names;
  const auto planes = json.required("planes");
  for (const auto& item : planes.items(rotor::planes_max)) {
    file.planes.push_back(read_plane(item, plane_names));
    plane_names.push_back(file.planes.back().name);
  }
  if (file.planes.empty()) planes.refuse("one or two planes");
  file.runs.planes = file.planes.size();
  require_places_along(json, file);
  if (json.optional("runs")) (void)json.required("sensors");
  std::vector<std::string> sensor_names;
  if (const auto sensors = json.optional("sensors")) {
    for (const auto& item : sensors->items(rotor::sensors_max))
      read_sensor(item, sensor_names, file);
    if (file.sensors.size() < file.planes.size()) sensors->refuse("at least as many sensors as planes");
  }
  if (const auto runs = json.optional("runs")) read_runs(*runs, plane_names, sensor_names, file);
  if (const auto key = json.optional("key")) file.key = read_key(*key);
  return file;
}

}  // namespace pumpwright::job
