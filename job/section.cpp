#include "job/section.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <initializer_list>

#include "job/section_sizes.h"

namespace pumpwright::job {
namespace {

using Outline = std::vector<SectionPoint>;

constexpr std::array<std::string_view, 19> places{
    "shaft-end", "mounting-face", "register",     "shaft-seal-area", "keyway",
    "sleeve",    "sleeve-bore",   "seat",         "seat-face",       "bracket-register",
    "seal-head", "impeller-hub",  "impeller-eye", "impeller-face",   "fastener",
    "wear-ring", "casing",        "gasket",       "nameplate"};

Outline rectangle(SectionPoint low, SectionPoint high) {
  return {low, {low.x_m, high.r_m}, high, {high.x_m, low.r_m}};
}

Outline disc(SectionPoint centre, double radius_m) {
  constexpr int sides = 20;
  Outline out;
  for (int i = 0; i < sides; ++i) {
    const double a = 2 * pi * i / sides;
    out.push_back({centre.x_m + radius_m * std::cos(a), centre.r_m + radius_m * std::sin(a)});
  }
  return out;
}

// A quarter of an ellipse from the point above or beside `centre` to the other, both ends included.
// `from_deg`, `to_deg`: 0 towards +x, 90 towards +r.
struct Quarter {
  SectionPoint centre;
  double half_x_m = 0;
  double half_r_m = 0;
  double from_deg = 0;
  double to_deg = 0;
};

void append_arc(Outline& out, const Quarter& q) {
  constexpr int steps = 10;
  for (int i = 0; i <= steps; ++i) {
    const double a = (q.from_deg + (q.to_deg - q.from_deg) * i / steps) * pi / 180;
    out.push_back({q.centre.x_m + q.half_x_m * std::cos(a), q.centre.r_m + q.half_r_m * std::sin(a)});
  }
}

class Drafting {
 public:
  explicit Drafting(const MakeUp& make_up)
      : make_up_(make_up), s_(section_sizes(make_up)), x_(s_.x), r_(s_.r), d_(s_.shaft_diameter) {}

  Section run() {
    casing();
    wear_ring();
    gasket();
    bracket();
    motor();
    shaft();
    sleeve();
    seat();
    seal_head();
    impeller();
    fastener();
    key();
    set_places();
    finish();
    return std::move(section_);
  }

 private:
  // Adds a shape; it counts as assumed when any of the dimensions it is drawn from was.
  void add(PartKind part, Outline outline, std::initializer_list<const char*> drawn_from) {
    const bool assumed = std::any_of(drawn_from.begin(), drawn_from.end(), [&](const char* name) {
      return s_.assumed.count(name) != 0 || s_.set_aside.count(name) != 0;
    });
    section_.shapes.push_back({part, std::move(outline), assumed});
  }

  void casing() {
    const double w = s_.wall;
    const double flange = (x_.casing_flange + x_.cavity_back) / 2;
    const double corner = std::min({0.45 * (x_.casing_wall - x_.cavity_back),
                                    0.6 * (r_.volute - r_.casing_bore), 0.9 * (r_.volute - r_.suction_pipe)});
    const SectionPoint front{x_.casing_wall - corner, r_.volute - corner};
    const SectionPoint back{x_.cavity_back + corner, r_.volute - corner};
    Outline o{{x_.casing_flange, r_.casing_bore},
              {x_.casing_flange, r_.bracket_flange},
              {flange, r_.bracket_flange},
              {flange, r_.volute + w}};
    append_arc(o, {front, corner + w, corner + w, 90, 0});
    o.insert(o.end(), {{x_.casing_wall + w, r_.suction_pipe},
                       {x_.suction_flange, r_.suction_pipe},
                       {x_.suction_flange, r_.suction_pipe + 0.6 * d_},
                       {x_.suction_end, r_.suction_pipe + 0.6 * d_},
                       {x_.suction_end, r_.suction},
                       {x_.wear_ring_end, r_.suction},
                       {x_.wear_ring_end, r_.wear_ring_outside},
                       {x_.casing_wall, r_.wear_ring_outside}});
    append_arc(o, {front, corner, corner, 0, 90});
    append_arc(o, {back, corner, corner, 90, 180});
    o.push_back({x_.cavity_back, r_.casing_bore});
    add(PartKind::casing, std::move(o), {"casing_depth", "suction_bore"});
  }

  void wear_ring() {
    add(PartKind::wear_ring,
        rectangle({x_.casing_wall, r_.wear_ring}, {x_.wear_ring_end, r_.wear_ring_outside}),
        {"wear_ring_bore", "wear_ring_length"});
  }

  void gasket() {
    add(PartKind::gasket,
        rectangle({x_.bracket_flange, r_.casing_bore}, {x_.casing_flange, r_.bracket_flange}),
        {"gasket_thickness"});
  }

  void bracket() {
    const double chamber_wall = r_.chamber + s_.wall;
    Outline o{{0, r_.register_outside},
              {0, r_.motor_flange},
              {x_.motor_flange, r_.motor_flange},
              {x_.motor_flange, r_.wall_outside},
              {x_.plate_back, r_.wall_outside},
              {x_.plate_back, r_.bracket_flange},
              {x_.bracket_flange, r_.bracket_flange},
              {x_.bracket_flange, r_.casing_bore},
              {x_.spigot_end, r_.casing_bore}};
    const double rim = std::min(0.5 * s_.wall, 0.3 * (r_.casing_bore - r_.chamber));
    const double front =
        std::min(x_.spigot_end, std::max(x_.seat_pocket_end + 0.3 * (x_.spigot_end - x_.seat_pocket_end),
                                         x_.plate_back + 1.3 * s_.wall));
    if (front < x_.spigot_end - 0.2 * s_.wall) {
      o.push_back({x_.spigot_end, r_.casing_bore - rim});
      o.push_back({front, r_.casing_bore - rim});
    }
    o.insert(o.end(), {{front, r_.chamber},
                       {x_.seat_pocket_end, r_.chamber},
                       {x_.seat_pocket_end, r_.seat_pocket},
                       {x_.seat_shoulder, r_.seat_pocket},
                       {x_.seat_shoulder, r_.plate_bore},
                       {x_.cup_back, r_.plate_bore}});
    const double plate = std::min(x_.plate_back, front - s_.wall);
    if (x_.cup_back < plate) {
      o.push_back({x_.cup_back, chamber_wall});
      o.push_back({plate, chamber_wall});
      o.push_back({plate, r_.wall_inside});
    } else {
      o.push_back({x_.cup_back, r_.wall_inside});
    }
    o.push_back({x_.motor_flange, r_.wall_inside});
    o.push_back({x_.motor_flange, r_.register_outside});
    add(PartKind::bracket, std::move(o),
        {"bracket_depth", "bracket_outside_diameter", "seat_depth", "register_diameter"});
  }

  void motor() {
    const double bell = -0.42 * d_;
    const double cover = -0.12 * d_;
    const double bearing_back = cover - 0.72 * d_;
    const double bore = r_.shaft_big + 0.12 * (r_.bearing - r_.shaft_big);
    const double boss = r_.bearing + std::min(0.22 * d_, 0.5 * (r_.register_outside - r_.bearing));
    const double lip = r_.register_outside - 0.22 * (r_.register_outside - bore);
    // The frame's wall, thinner where it would otherwise reach into the bearing's boss.
    const double inside = std::max(r_.motor_frame - s_.wall, (r_.motor_frame + boss) / 2);
    add(PartKind::motor,
        {{x_.motor_end, inside},
         {x_.motor_end, r_.motor_frame},
         {bell, r_.motor_frame},
         {bell, r_.face},
         {0, r_.face},
         {0, r_.register_outside},
         {x_.register_front, r_.register_outside},
         {x_.register_front, lip},
         {0, lip},
         {0, bore},
         {cover, bore},
         {cover, r_.bearing},
         {bearing_back, r_.bearing},
         {bearing_back, boss},
         {bell, boss},
         {bell, inside}},
        {"register_diameter", "register_height"});
    const double ring = 0.24 * (r_.bearing - r_.shaft_big);
    add(PartKind::bearing, rectangle({bearing_back, r_.bearing - ring}, {cover, r_.bearing}), {});
    add(PartKind::bearing, rectangle({bearing_back, r_.shaft_big}, {cover, r_.shaft_big + ring}), {});
    const double ball = std::min(0.31 * (r_.bearing - r_.shaft_big), 0.45 * (cover - bearing_back));
    add(PartKind::bearing, disc({(bearing_back + cover) / 2, (r_.bearing + r_.shaft_big) / 2}, ball), {});
  }

  void shaft() {
    const double chamfer = std::min(0.05 * d_, 0.3 * (x_.shaft_end - x_.shaft_shoulder));
    add(PartKind::shaft,
        {{x_.motor_end, 0},
         {x_.motor_end, r_.shaft_big},
         {x_.shaft_shoulder, r_.shaft_big},
         {x_.shaft_shoulder, r_.hub_bore},
         {x_.shaft_end - chamfer, r_.hub_bore},
         {x_.shaft_end, r_.hub_bore - chamfer},
         {x_.shaft_end, 0}},
        {"shaft_diameter", "shaft_length", "shaft_shoulder"});
  }

  void sleeve() {
    if (!make_up_.sleeve) return;
    add(PartKind::sleeve, rectangle({x_.shaft_shoulder, r_.sleeve_bore}, {x_.hub_back, r_.seal}),
        {"sleeve_bore", "sleeve_outside_diameter", "sleeve_length"});
  }

  void seat() {
    const double t = x_.seat_face - x_.seat_shoulder;
    const double across = r_.seat - r_.seal;
    const double cup = r_.seat - 0.14 * across;
    const double bore = r_.seal + 0.16 * across;
    const double nose = r_.seal + 0.62 * across;
    add(PartKind::seat_cup,
        {{x_.seat_shoulder, r_.plate_bore},
         {x_.seat_shoulder, r_.seat},
         {x_.seat_pocket_end, r_.seat},
         {x_.seat_pocket_end, cup},
         {x_.seat_shoulder + 0.16 * t, cup},
         {x_.seat_shoulder + 0.16 * t, r_.plate_bore}},
        {"seat_outside_diameter", "seat_thickness"});
    add(PartKind::seat,
        {{x_.seat_shoulder + 0.16 * t, bore},
         {x_.seat_shoulder + 0.16 * t, cup},
         {x_.seat_shoulder + 0.82 * t, cup},
         {x_.seat_shoulder + 0.82 * t, nose},
         {x_.seat_face, nose},
         {x_.seat_face, bore}},
        {"seat_outside_diameter", "seat_thickness"});
  }

  // A point of the seal head: shares of its length from the seat face and of its depth from the surface it
  // sits on.
  SectionPoint head(double along, double across) const {
    return {x_.seat_face + along * (x_.head_end - x_.seat_face), r_.seal + across * (r_.head - r_.seal)};
  }

  void seal_head() {
    const auto from = {"seal_head_outside_diameter", "seal_working_length", "seal_size"};
    add(PartKind::seal_ring,
        {head(0.05, 0.1), head(0.05, 0.2), head(0, 0.2), head(0, 0.52), head(0.05, 0.52), head(0.05, 0.86),
         head(0.22, 0.86), head(0.22, 0.1)},
        from);
    if (make_up_.seal.kind == "elastomer-bellows") {
      add(PartKind::elastomer,
          {head(0.22, 0.3), head(0.22, 0.86), head(0.3, 0.86), head(0.3, 0.42), head(0.44, 0.42),
           head(0.44, 0.2), head(0.66, 0.2), head(0.66, 0), head(0.34, 0), head(0.34, 0.3)},
          from);
    } else {
      const double along = 0.22 * (x_.head_end - x_.seat_face);
      const double ring = 0.5 * std::min(0.3 * (r_.head - r_.seal), 0.8 * along);
      add(PartKind::elastomer, disc({head(0.36, 0).x_m, r_.seal + ring}, ring), from);
    }
    add(PartKind::retainer,
        {head(0.06, 0.9), head(0.06, 1), head(0.52, 1), head(0.52, 0.24), head(0.48, 0.24), head(0.48, 0.9)},
        from);
    add(PartKind::retainer, rectangle(head(0.96, 0.22), head(1, 1)), from);
    const bool conical = make_up_.seal.kind == "conical-spring";
    constexpr int coils = 4;
    const double step = 0.44 / coils * (x_.head_end - x_.seat_face);
    const double wire = std::min(0.1 * (r_.head - r_.seal), 0.4 * step);
    for (int i = 0; i < coils; ++i) {
      const SectionPoint at = head(0.52 + 0.44 * (i + 0.5) / coils, conical ? 0.76 - 0.11 * i : 0.64);
      add(PartKind::spring, disc(at, wire), from);
    }
  }

  void impeller() {
    const double t = s_.shroud;
    const double nose_bend = r_.hub_nose + 0.55 * (r_.eye_inside - r_.hub_nose);
    const double x_front = x_.shroud_back + t;
    const double x_nose = std::max(x_.hub_front, x_front + 0.2 * t);
    Outline back{{x_.hub_back, r_.hub_bore}, {x_.hub_back, r_.hub}};
    back.insert(back.end(),
                {{x_.shroud_back, r_.hub}, {x_.shroud_back, r_.impeller}, {x_front, r_.impeller}});
    append_arc(back, {{x_nose, nose_bend}, x_nose - x_front, nose_bend - r_.hub_nose, 180, 270});
    back.push_back({x_nose, r_.hub_bore});

    const double eye_bend = r_.eye + 0.55 * (r_.impeller - r_.eye);
    const double x_bend = x_.rim_front + 0.8 * (x_.casing_wall - x_.rim_front);
    const double rim_inside = x_.rim_front - t;
    Outline front{{rim_inside, r_.impeller}, {x_.rim_front, r_.impeller}};
    append_arc(front, {{x_bend, eye_bend}, x_bend - x_.rim_front, eye_bend - r_.eye, 180, 270});
    front.push_back({x_.eye_ring_end, r_.eye});
    front.push_back({x_.eye_ring_end, r_.eye_inside});
    append_arc(front, {{x_bend, eye_bend}, x_bend - rim_inside, eye_bend - r_.eye_inside, 270, 180});

    Outline vane{{x_front, r_.impeller}, {rim_inside, r_.impeller}};
    append_arc(vane, {{x_bend, eye_bend}, x_bend - rim_inside, eye_bend - r_.eye_inside, 180, 235});
    vane.push_back({x_front, 0.6 * nose_bend + 0.4 * r_.eye_inside});

    add(PartKind::vane, std::move(vane), {});
    add(PartKind::impeller, std::move(back), {"impeller_diameter", "impeller_width", "hub_length"});
    add(PartKind::impeller, std::move(front),
        {"impeller_diameter", "impeller_width", "impeller_eye_diameter"});
  }

  // Where the washer sits, and where the fastener ends.
  double fastener_from() const { return std::max(x_.hub_front, x_.shroud_back + 1.2 * s_.shroud); }
  double fastener_to() const {
    return std::max(x_.shaft_end + 0.05 * d_, fastener_from() + 0.1 * d_ + 0.36 * d_);
  }

  void fastener() {
    const double washer = fastener_from();
    const double head_from = washer + 0.1 * d_;
    const double washer_radius = r_.hub_bore + 0.7 * (r_.hub_nose - r_.hub_bore);
    add(PartKind::fastener, rectangle({x_.shaft_end - 0.8 * d_, 0}, {head_from, 0.32 * r_.hub_bore}), {});
    add(PartKind::fastener, rectangle({washer, 0}, {head_from, washer_radius}), {});
    add(PartKind::fastener, rectangle({head_from, 0}, {fastener_to(), 0.62 * r_.hub_bore}), {});
  }

  void key() {
    const double end = std::min(x_.shaft_end, x_.hub_front);
    const double middle = (x_.hub_back + end) / 2;
    const double half = s_.key_length / 2;
    const double above = std::min(s_.key_width / 2, 0.85 * (r_.hub_nose - r_.hub_bore));
    add(PartKind::key,
        rectangle({middle - half, r_.hub_bore - s_.key_width / 2}, {middle + half, r_.hub_bore + above}),
        {"key_width", "key_length"});
  }

  void place(std::string_view name, SectionPoint at) { section_.places.push_back({std::string(name), at}); }

  void set_places() {
    const double seal_middle = 0.5 * (x_.seat_face + x_.head_end);
    const double key_middle = (x_.hub_back + std::min(x_.shaft_end, x_.hub_front)) / 2;
    const double sleeve_length = x_.hub_back - x_.shaft_shoulder;
    place("shaft-end", {x_.shaft_end, 0.7 * r_.hub_bore});
    place("mounting-face", {0, (r_.register_outside + r_.face) / 2});
    place("register", {x_.register_front, r_.register_outside});
    place("shaft-seal-area", {seal_middle, r_.shaft});
    place("keyway", {key_middle, r_.hub_bore});
    place("sleeve", make_up_.sleeve ? SectionPoint{x_.shaft_shoulder + 0.12 * sleeve_length, r_.seal}
                                    : SectionPoint{0.7 * x_.seat_shoulder, r_.shaft_big});
    place("sleeve-bore", make_up_.sleeve
                             ? SectionPoint{x_.shaft_shoulder + 0.3 * sleeve_length, r_.sleeve_bore}
                             : SectionPoint{0.8 * x_.seat_shoulder, r_.shaft});
    place("seat", {x_.seat_shoulder, (r_.plate_bore + r_.seat) / 2});
    place("seat-face", {x_.seat_face, r_.seal + 0.36 * (r_.seat - r_.seal)});
    place("bracket-register", {x_.spigot_end, r_.casing_bore});
    place("seal-head", {head(0.74, 0).x_m, r_.head});
    place("impeller-hub", {x_.hub_back, 0.5 * (r_.hub + r_.hub_bore)});
    place("impeller-eye", {0.5 * (x_.casing_wall + x_.eye_ring_end), r_.eye});
    place("impeller-face", {x_.rim_front, r_.eye + 0.8 * (r_.impeller - r_.eye)});
    place("fastener", {fastener_to(), 0.3 * r_.hub_bore});
    place("wear-ring", {x_.wear_ring_end, r_.wear_ring_outside});
    place("casing", {x_.casing_wall + s_.wall, 0.5 * (r_.suction_pipe + r_.volute)});
    place("gasket", {x_.bracket_flange, 0.5 * (r_.casing_bore + r_.bracket_flange)});
    place("nameplate", {0.6 * x_.motor_end, r_.motor_frame});
  }

  void finish() {
    section_.whole.x_min_m = x_.motor_end;
    for (const SectionShape& shape : section_.shapes)
      for (const SectionPoint& p : shape.outline) {
        section_.whole.x_max_m = std::max(section_.whole.x_max_m, p.x_m);
        section_.whole.r_max_m = std::max(section_.whole.r_max_m, p.r_m);
      }
    const double beside = 0.15 * d_;
    section_.seal = {std::max(x_.motor_flange, std::min(x_.cup_back, x_.shaft_shoulder) - beside),
                     x_.hub_back + 3 * beside, std::max(0.0, r_.hub_bore - 2 * beside),
                     r_.chamber + s_.wall + beside};
    section_.assumed.assign(s_.assumed.begin(), s_.assumed.end());
    section_.set_aside.assign(s_.set_aside.begin(), s_.set_aside.end());
  }

  const MakeUp& make_up_;
  const SectionSizes s_;
  const SectionStations& x_;
  const SectionRadii& r_;
  const double d_;
  Section section_;
};

}  // namespace

Turning turning_of(PartKind part) {
  switch (part) {
    case PartKind::shaft:
    case PartKind::key:
    case PartKind::sleeve:
    case PartKind::seal_ring:
    case PartKind::elastomer:
    case PartKind::retainer:
    case PartKind::spring:
    case PartKind::impeller:
    case PartKind::vane:
    case PartKind::fastener:
      return Turning::rotating;
    case PartKind::motor:
    case PartKind::bearing:
    case PartKind::bracket:
    case PartKind::gasket:
    case PartKind::seat:
    case PartKind::seat_cup:
    case PartKind::wear_ring:
    case PartKind::casing:
      break;
  }
  return Turning::standing;
}

const SectionPlace* Section::find(std::string_view place) const {
  const auto found = std::find_if(places.begin(), places.end(),
                                  [&](const SectionPlace& candidate) { return candidate.place == place; });
  return found == places.end() ? nullptr : &*found;
}

std::span<const std::string_view> place_names() {
  return places;
}

Section section_of(const MakeUp& make_up) {
  return Drafting(make_up).run();
}

}  // namespace pumpwright::job
