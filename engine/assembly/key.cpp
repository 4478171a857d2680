#include "engine/assembly/key.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

#include <fmt/format.h>

#include "engine/assembly/input_check.h"
#include "engine/assembly/iso286.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

constexpr double inch_m = 0.0254;
constexpr double hub_allowance_m = 0.005 * inch_m;
// A diameter this little over the end of a step is the rounding of a conversion, not a larger shaft.
constexpr double rounding_m = 1e-9;

// Inches. Over the row before, up to and including `to`.
struct InchRow {
  double over;
  double to;
  double width;
  double square_height;
  double flat_height;  // 0: no rectangular key
};

// Key size by shaft diameter, ASME B17.1-1967 (R1998), read in two restatements that agree.
constexpr const char* inch_source =
    "ASME B17.1-1967 (R1998), key size by shaft diameter, as restated in two shop references";
constexpr std::array<InchRow, 9> inch_rows{{
    {5. / 16, 7. / 16, 3. / 32, 3. / 32, 0},
    {7. / 16, 9. / 16, 1. / 8, 1. / 8, 3. / 32},
    {9. / 16, 7. / 8, 3. / 16, 3. / 16, 1. / 8},
    {7. / 8, 1.25, 1. / 4, 1. / 4, 3. / 16},
    {1.25, 1.375, 5. / 16, 5. / 16, 1. / 4},
    {1.375, 1.75, 3. / 8, 3. / 8, 1. / 4},
    {1.75, 2.25, 1. / 2, 1. / 2, 3. / 8},
    {2.25, 2.75, 5. / 8, 5. / 8, 7. / 16},
    {2.75, 3.25, 3. / 4, 3. / 4, 1. / 2},
}};

// Millimetres.
struct MetricRow {
  double over;
  double to;
  double b;
  double h;
  double t1;
  double t2;
};

// DIN 6885-1 (ISO 773), read in a public key table to 58 mm and in a gear unit maker's table from 38 mm; they
// agree where they overlap.
constexpr const char* metric_source =
    "DIN 6885-1 / ISO 773, as restated in a public key table and a gear unit maker's table";
constexpr std::array<MetricRow, 15> metric_rows{{
    {6, 8, 2, 2, 1.2, 1.0},
    {8, 10, 3, 3, 1.8, 1.4},
    {10, 12, 4, 4, 2.5, 1.8},
    {12, 17, 5, 5, 3.0, 2.3},
    {17, 22, 6, 6, 3.5, 2.8},
    {22, 30, 8, 7, 4.0, 3.3},
    {30, 38, 10, 8, 5.0, 3.3},
    {38, 44, 12, 8, 5.0, 3.3},
    {44, 50, 14, 9, 5.5, 3.8},
    {50, 58, 16, 10, 6.0, 4.3},
    {58, 65, 18, 11, 7.0, 4.4},
    {65, 75, 20, 12, 7.5, 4.9},
    {75, 85, 22, 14, 9.0, 5.4},
    {85, 95, 25, 14, 9.0, 5.4},
    {95, 110, 28, 16, 10.0, 6.4},
}};

KeySection section_of(const InchRow& row, KeySystem system) {
  const double height_m = (system == KeySystem::inch_square ? row.square_height : row.flat_height) * inch_m;
  return {system,           metres(row.over * inch_m), metres(row.to * inch_m), metres(row.width * inch_m),
          metres(height_m), metres(height_m / 2),      metres(height_m / 2),    HowKnown::read,
          inch_source};
}

KeySection section_of(const MetricRow& row) {
  const auto mm = [](double v) { return metres(v / 1000); };
  return {KeySystem::metric, mm(row.over), mm(row.to),     mm(row.b),    mm(row.h),
          mm(row.t1),        mm(row.t2),   HowKnown::read, metric_source};
}

std::string shown(Length at, KeySystem system) {
  return system == KeySystem::metric ? fmt::format("{:.6g} mm", at.value() * 1000)
                                     : fmt::format("{:.6g} in", at.value() / inch_m);
}

void require_length(Length value, const std::string& field) {
  require_between(value.value(), 0, 10, field, "a length from 0 to 10 m");
}

}  // namespace

std::vector<KeySection> all_keys(KeySystem system) {
  std::vector<KeySection> keys;
  if (system == KeySystem::metric) {
    for (const MetricRow& row : metric_rows)
      keys.push_back(section_of(row));
    return keys;
  }
  for (const InchRow& row : inch_rows)
    if (system == KeySystem::inch_square || row.flat_height > 0) keys.push_back(section_of(row, system));
  return keys;
}

KeySection key_for_shaft(Length nominal_diameter, KeySystem system) {
  const std::vector<KeySection> keys = all_keys(system);
  const double d_m = nominal_diameter.value();
  for (const KeySection& key : keys)
    if (d_m > key.over.value() + rounding_m && d_m <= key.to.value() + rounding_m) return key;
  throw BadInput(
      {"shaft diameter", "", shown(nominal_diameter, system),
       fmt::format("over {} up to {}", shown(keys.front().over, system), shown(keys.back().to, system))});
}

DepthControl depth_control(const KeySection& key, Length diameter) {
  const double d_m = diameter.value();
  const double w_m = key.width.value();
  require_that(std::isfinite(d_m) && d_m > w_m, d_m, "shaft diameter",
               "a diameter larger than the key is wide");
  if (key.system == KeySystem::metric)
    return {metres(0), diameter - key.shaft_depth, diameter + key.hub_depth};
  const double y_m = (d_m - std::sqrt(d_m * d_m - w_m * w_m)) / 2;
  const double half_height_m = key.height.value() / 2;
  return {metres(y_m), metres(d_m - y_m - half_height_m),
          metres(d_m - y_m + half_height_m + hub_allowance_m)};
}

namespace {

KeyTolerances inch_tolerances(const KeySection& key) {
  const double width_in = key.width.value() / inch_m;
  const auto inches = [](double lower, double upper) {
    return Deviation{metres(lower * inch_m), metres(upper * inch_m)};
  };
  KeyTolerances t;
  t.how = HowKnown::read;
  t.source = "key and keyseat tolerances in the manner of ASME B17.1 class 1, read in one secondary table";
  if (width_in <= 0.5 + 1e-9) {
    t.key_width = inches(-0.002, 0);
    t.seat_width = inches(0, 0.002);
    t.seat_depth = inches(-0.015, 0);
    t.keyway_depth = inches(0, 0.010);
  } else {
    t.seat_width = inches(0, 0.003);
  }
  return t;
}

Deviation iso_deviation(Length width, const ToleranceClass& c) {
  const LimitDeviations d = limit_deviations(width, c);
  return {d.lower, d.upper};
}

KeyTolerances metric_tolerances(const KeySection& key) {
  const double depth_mm = key.width.value() * 1000 <= 6 + 1e-9 ? 0.1 : 0.2;
  KeyTolerances t;
  t.key_width = iso_deviation(key.width, {"h", 9});
  t.seat_width = iso_deviation(key.width, {"N", 9});
  t.keyway_width = iso_deviation(key.width, {"JS", 9});
  t.seat_depth = Deviation{metres(0), metres(depth_mm / 1000)};
  t.keyway_depth = t.seat_depth;
  t.how = HowKnown::remembered;
  t.source =
      "DIN 6885-1: key h9, keyseat N9 (class read in a gear unit maker's table), hub JS9 and depths "
      "remembered";
  return t;
}

}  // namespace

KeyTolerances key_tolerances(const KeySection& key) {
  return key.system == KeySystem::metric ? metric_tolerances(key) : inch_tolerances(key);
}

const char* word_for(KeyLengthFault fault) {
  switch (fault) {
    case KeyLengthFault::longer_than_seat:
      return "longer than the keyseat";
    case KeyLengthFault::holds_sleeve_off:
      return "holds the sleeve off";
    case KeyLengthFault::holds_hub_off:
      return "holds the hub off";
    case KeyLengthFault::holds_washer_off:
      return "holds the washer off";
    case KeyLengthFault::engages_too_little:
      return "engages too little of the hub";
  }
  return "";
}

namespace {

// The stretch of shaft the key may lie in once everything is home.
struct Room {
  double outer_m = 0;  // the key's outer end may come out to here
  double inner_m = 0;  // its inner end may go in to here
  double length_m() const { return inner_m - outer_m; }
};

void require_valid(const KeyPlace& place, double wanted_engagement) {
  require_length(place.key_length, "key length");
  require_that(place.key_length > metres(0), place.key_length.value(), "key length", "a length over 0");
  require_length(place.seat_start, "keyseat start");
  require_length(place.seat_end, "keyseat end");
  require_that(place.seat_end > place.seat_start, place.seat_end.value(), "keyseat end",
               "a place further in than the keyseat's start");
  require_length(place.hub_outer_face, "hub outer face");
  require_length(place.hub_keyway_end, "hub keyway end");
  require_that(place.hub_keyway_end > place.hub_outer_face, place.hub_keyway_end.value(), "hub keyway end",
               "a place further in than the hub's outer face");
  require_length(place.sleeve_slot, "sleeve slot");
  require_length(place.end_gap, "end gap");
  if (place.sleeve_face) {
    require_length(*place.sleeve_face, "sleeve face");
    require_that(*place.sleeve_face >= place.hub_keyway_end, place.sleeve_face->value(), "sleeve face",
                 "a place not before the end of the hub's keyway");
  }
  require_that(wanted_engagement > 0 && wanted_engagement <= 1, wanted_engagement, "wanted engagement",
               "a part over 0 up to 1");
}

// True when the hub's keyway runs out into the sleeve, so that the key may reach into the sleeve's slot.
bool runs_into_sleeve(const KeyPlace& place) {
  return place.sleeve_face && (*place.sleeve_face - place.hub_keyway_end).value() <= rounding_m;
}

double inner_stop_m(const KeyPlace& place) {
  const Length stop = runs_into_sleeve(place) ? *place.sleeve_face + place.sleeve_slot : place.hub_keyway_end;
  return (stop - place.end_gap).value();
}

// Length of [from, from + length] within the hub's keyway.
double overlap_m(const KeyPlace& place, double from_m, double length_m) {
  const double outer_m = std::max(from_m, place.hub_outer_face.value());
  const double inner_m = std::min(from_m + length_m, place.hub_keyway_end.value());
  return std::max(0.0, inner_m - outer_m);
}

// The key may slide anywhere in its seat between washer and sleeve; the overlap is smallest at one end of
// that travel.
double least_engagement_m(const KeyPlace& place, const Room& room, double length_m) {
  return std::min(overlap_m(place, room.outer_m, length_m),
                  overlap_m(place, room.inner_m - length_m, length_m));
}

// Shortest length that engages `wanted_m` at both ends of its travel. The engagement grows with the length by
// as much or not at all, so what a key as long as the room lacks can not be had.
std::optional<double> shortest_m(const KeyPlace& place, const Room& room, double wanted_m) {
  if (room.length_m() <= 0 || least_engagement_m(place, room, room.length_m()) < wanted_m - rounding_m)
    return std::nullopt;
  const double before_hub_m = std::max(0.0, place.hub_outer_face.value() - room.outer_m);
  const double behind_keyway_m = std::max(0.0, room.inner_m - place.hub_keyway_end.value());
  return wanted_m + std::max(before_hub_m, behind_keyway_m);
}

}  // namespace

KeyLengthCheck check_key_length(const KeyPlace& place, double wanted_engagement) {
  require_valid(place, wanted_engagement);
  const double length_m = place.key_length.value();
  const double washer_stop_m = (place.hub_outer_face + place.end_gap).value();
  const Room seat{place.seat_start.value(), place.seat_end.value()};
  const Room room{std::max(seat.outer_m, washer_stop_m), std::min(seat.inner_m, inner_stop_m(place))};
  const double wanted_m = wanted_engagement * (place.hub_keyway_end - place.hub_outer_face).value();

  KeyLengthCheck check;
  const bool in_seat = length_m <= seat.length_m() + rounding_m;
  if (!in_seat) check.faults.push_back(KeyLengthFault::longer_than_seat);
  // Pushed out as far as its seat lets it, the key still reaches the sleeve; pushed in, it still stands past
  // the hub.
  if (in_seat && length_m > room.length_m() + rounding_m) {
    if (inner_stop_m(place) < seat.inner_m)
      check.faults.push_back(runs_into_sleeve(place) ? KeyLengthFault::holds_sleeve_off
                                                     : KeyLengthFault::holds_hub_off);
    if (washer_stop_m > seat.outer_m) check.faults.push_back(KeyLengthFault::holds_washer_off);
  }
  const Room travel = check.faults.empty() ? room : seat;
  check.engagement_min = metres(least_engagement_m(place, travel, std::min(length_m, travel.length_m())));
  if (check.engagement_min.value() < wanted_m - rounding_m)
    check.faults.push_back(KeyLengthFault::engages_too_little);

  if (const auto shortest = shortest_m(place, room, wanted_m)) {
    check.shortest_good = metres(*shortest);
    check.longest_good = metres(room.length_m());
  }
  return check;
}

KeyLoad key_load(const KeySection& key, Length diameter, Length engaged, KeyEnds ends, Torque torque) {
  const double d_m = diameter.value();
  require_that(std::isfinite(d_m) && d_m > key.width.value(), d_m, "shaft diameter",
               "a diameter larger than the key is wide");
  require_that(std::isfinite(torque.value()) && torque.value() >= 0, torque.value(), "torque",
               "a torque of 0 or more");
  const double carrying_m = engaged.value() - (ends == KeyEnds::round ? key.width.value() : 0.0);
  require_that(std::isfinite(carrying_m) && carrying_m > 0, engaged.value(), "engaged length",
               "more than 0, and with round ends more than the key is wide");
  const double force_n = 2 * torque.value() / d_m;
  const double hub_side_m = (key.height - key.shaft_depth).value();
  return {newtons(force_n), pascals(force_n / (key.width.value() * carrying_m)),
          pascals(force_n / (key.shaft_depth.value() * carrying_m)),
          pascals(force_n / (hub_side_m * carrying_m))};
}

}  // namespace pumpwright
