#include "job/section_sizes.h"

#include <algorithm>
#include <cmath>

namespace pumpwright::job {
namespace {

// What a size is when it was not given, and between which bounds it can be drawn.
struct Usual {
  double usual = 0;
  double least = 0;
  double most = 0;
};

// Settles the sizes one after the other; proportions are those of small close-coupled pumps (common practice,
// no source: they only decide how a picture looks where the job gives no number).
class Settling {
 public:
  explicit Settling(const MakeUp& make_up) : make_up_(make_up) {}

  SectionSizes run() {
    shaft_and_hub();
    seal_along_the_shaft();
    seal_across_the_shaft();
    motor();
    impeller_across();
    impeller_along();
    bracket();
    casing();
    key();
    return sizes_;
  }

 private:
  double take(const char* name, const Usual& u) {
    const double most = std::max(u.least, u.most);
    const Dimension* d = make_up_.dimension(name);
    if (d == nullptr) {
      sizes_.assumed.insert(name);
      return std::clamp(u.usual, u.least, most);
    }
    const double wanted = d->nominal.value();
    const double drawn = std::clamp(wanted, u.least, most);
    // A rounding in the last place is no disagreement.
    if (std::abs(drawn - wanted) > 1e-9 * std::abs(wanted)) sizes_.set_aside.insert(name);
    return drawn;
  }

  // A diameter, settled and halved; the bounds are radii.
  double radius(const char* name, const Usual& u) {
    return take(name, {2 * u.usual, 2 * u.least, 2 * u.most}) / 2;
  }

  void shaft_and_hub() {
    d_ = sizes_.shaft_diameter = take("shaft_diameter", {0.032, 0.003, 1});
    r_.shaft = d_ / 2;
    x_.shaft_end = take("shaft_length", {4 * d_, 1.5 * d_, 15 * d_});
    hub_length_ = take("hub_length", {1.15 * d_, 0.3 * d_, 0.5 * x_.shaft_end});
    const double usual_hub_back = x_.shaft_end - 0.95 * hub_length_;
    const double last_hub_back = x_.shaft_end - 0.1 * d_;
    if (make_up_.sleeve) {
      const Dimension* shoulder = make_up_.dimension("shaft_shoulder");
      const double usual_length =
          shoulder != nullptr ? usual_hub_back - shoulder->nominal.value() : 0.62 * usual_hub_back;
      const double length =
          take("sleeve_length", {usual_length, 0.3 * x_.shaft_end, last_hub_back - 0.03 * x_.shaft_end});
      x_.shaft_shoulder =
          take("shaft_shoulder", {usual_hub_back - length, 0.02 * x_.shaft_end, last_hub_back - length});
      x_.hub_back = x_.shaft_shoulder + length;
    } else {
      x_.shaft_shoulder = take("shaft_shoulder", {usual_hub_back, 0.32 * x_.shaft_end, last_hub_back});
      x_.hub_back = x_.shaft_shoulder;
    }
    x_.hub_front = x_.hub_back + hub_length_;
  }

  void seal_along_the_shaft() {
    const double room = x_.hub_back;
    const double seat = take("seat_thickness", {0.28 * d_, 0.02 * room, 0.3 * room});
    const Dimension* depth = make_up_.dimension("seat_depth");
    const double usual_length =
        depth != nullptr ? room - depth->nominal.value() - seat : std::min(d_, 0.45 * room);
    const double length = take("seal_working_length", {usual_length, 0.08 * room, 0.6 * room});
    x_.seat_shoulder = take("seat_depth", {room - length - seat, 0.08 * room, room - seat - 0.08 * room});
    x_.seat_face = x_.seat_shoulder + seat;
    x_.seat_pocket_end = x_.seat_shoulder + 0.75 * seat;
    x_.head_end = std::min(room, x_.seat_face + length);
    x_.cup_back = x_.seat_shoulder - std::min(0.22 * d_, 0.3 * x_.seat_shoulder);
    x_.motor_flange = std::min(0.32 * d_, 0.6 * x_.cup_back);
  }

  void seal_across_the_shaft() {
    if (make_up_.sleeve) {
      const Dimension* size = make_up_.dimension("seal_size");
      const double usual = size != nullptr ? size->nominal.value() / 2 : 1.22 * r_.shaft;
      r_.seal = radius("sleeve_outside_diameter", {usual, 1.04 * r_.shaft, 2.5 * r_.shaft});
      take("seal_size", {2 * r_.seal, 1.9 * r_.seal, 2.1 * r_.seal});
      r_.sleeve_bore = radius("sleeve_bore", {r_.shaft, r_.shaft, 0.5 * (r_.shaft + r_.seal)});
      r_.shaft_big = 0.45 * r_.shaft + 0.55 * r_.seal;
      r_.hub_bore = r_.shaft;
    } else {
      r_.seal = radius("seal_size", {r_.shaft, r_.shaft, 2 * r_.shaft});
      r_.shaft_big = r_.seal;
      r_.hub_bore = r_.seal > 1.02 * r_.shaft ? r_.shaft : 0.88 * r_.shaft;
    }
    const double s = r_.seal;
    r_.head = radius("seal_head_outside_diameter", {1.5 * s, 1.15 * s, 3.5 * s});
    r_.seat = radius("seat_outside_diameter", {1.5 * s, 1.15 * s, 3.5 * s});
    r_.seat_pocket = radius("seat_bore", {r_.seat, r_.seat, 1.2 * r_.seat});
    r_.plate_bore = s + 0.25 * (r_.seat - s);
    const double inside = std::max(r_.head, r_.seat_pocket);
    r_.chamber = radius("seal_chamber_bore", {1.16 * inside, 1.02 * inside, 4 * inside});
    r_.hub = radius("hub_diameter", {std::max(1.6 * r_.hub_bore, 1.12 * s),
                                     std::max(1.15 * r_.hub_bore, 1.02 * s), 0.97 * r_.chamber});
    r_.hub_nose = r_.hub_bore + 0.8 * (r_.hub - r_.hub_bore);
  }

  void motor() {
    const double most = 15 * d_;
    r_.register_outside =
        radius("register_diameter", {std::max(1.3 * r_.chamber, 2.2 * d_), 1.3 * r_.shaft_big, most});
    r_.face = radius("face_diameter", {r_.register_outside + 0.7 * d_, 1.06 * r_.register_outside, 2 * most});
    r_.motor_frame = 1.04 * r_.face;
    r_.bearing = r_.shaft_big + std::min(1.1 * r_.shaft_big, 0.55 * (r_.register_outside - r_.shaft_big));
    x_.register_front = take("register_height", {0.12 * d_, 0.01 * d_, 0.7 * x_.cup_back});
    x_.motor_end = -std::max(2.4 * d_, 0.4 * x_.shaft_end);
    sizes_.wall = 0.2 * d_;
    r_.wall_inside = std::max(r_.register_outside, r_.chamber + sizes_.wall + 0.15 * d_);
    r_.wall_outside = r_.wall_inside + sizes_.wall;
    r_.motor_flange = std::max(r_.face, r_.wall_outside + 0.2 * d_);
  }

  void impeller_across() {
    r_.impeller = radius("impeller_diameter", {2.8 * d_, 1.6 * r_.hub, 30 * d_});
    const double blade = r_.impeller - r_.hub;
    r_.eye =
        radius("impeller_eye_diameter", {r_.hub + 0.42 * blade, r_.hub + 0.1 * blade, r_.hub + 0.85 * blade});
    r_.eye_inside = r_.eye - std::min(0.11 * d_, 0.25 * (r_.eye - r_.hub));
    r_.wear_ring = radius("wear_ring_bore", {1.006 * r_.eye, r_.eye, 1.1 * r_.eye});
    r_.wear_ring_outside = r_.wear_ring + std::max(0.09 * d_, 0.07 * r_.eye);
    r_.suction = radius("suction_bore", {0.94 * r_.eye, 0.5 * r_.hub, 0.99 * r_.wear_ring});
    r_.casing_bore =
        std::max(r_.impeller + std::max(0.12 * d_, 0.03 * r_.impeller), r_.chamber + sizes_.wall + 0.1 * d_);
  }

  void impeller_along() {
    sizes_.shroud = std::min(0.11 * d_, 0.15 * hub_length_);
    const double t = sizes_.shroud;
    const double width = take("impeller_width", {hub_length_, 4 * t, 2 * hub_length_});
    const double outlet = take("impeller_outlet_width",
                               {std::min(0.28 * width, 0.09 * r_.impeller * 2),
                                std::max(0.05 * width, width - hub_length_ - 0.8 * t), 0.98 * width - 2 * t});
    x_.rim_front = x_.hub_back + width;
    x_.shroud_back = x_.rim_front - 2 * t - outlet;
  }

  void bracket() {
    const double room = x_.shroud_back - x_.seat_face;
    const double gasket = take("gasket_thickness", {0.0008, 0.00005, 0.1 * room});
    const double last = x_.shroud_back - gasket;
    x_.bracket_flange =
        take("bracket_depth", {last - std::min(0.5 * d_, 0.4 * room), x_.seat_face, last - 0.05 * room});
    x_.casing_flange = x_.bracket_flange + gasket;
    // From the casing's flange to its cavity.
    const double cover = std::min(0.5 * d_, 0.9 * (x_.shroud_back - x_.casing_flange));
    x_.spigot_end = x_.casing_flange + 0.6 * cover;
    x_.cavity_back = x_.casing_flange + cover;
    x_.plate_back = x_.bracket_flange - std::min(0.34 * d_, 0.3 * (x_.bracket_flange - x_.motor_flange));
    const double inside = std::max(r_.casing_bore, r_.wall_outside);
    r_.bracket_flange =
        radius("bracket_outside_diameter", {inside + 0.55 * d_, inside + 0.12 * d_, 3 * inside});
  }

  void casing() {
    const double width = x_.rim_front - x_.casing_flange;
    x_.casing_wall =
        x_.casing_flange + take("casing_depth", {width + 0.12 * d_, width + 0.01 * d_, 3 * width});
    const double ring = take("wear_ring_length", {0.42 * d_, 0.05 * d_, 3 * d_});
    x_.wear_ring_end = x_.casing_wall + ring;
    x_.eye_ring_end = x_.casing_wall + 0.92 * ring;
    r_.suction_pipe = std::max(r_.wear_ring_outside + 0.6 * sizes_.wall, r_.suction + sizes_.wall);
    r_.volute = std::max({1.2 * r_.casing_bore, 1.26 * r_.impeller, r_.suction_pipe + 0.4 * d_});
    x_.suction_flange = std::max(x_.wear_ring_end, x_.casing_wall + sizes_.wall) + 0.8 * d_;
    x_.suction_end = x_.suction_flange + 0.32 * d_;
  }

  void key() {
    sizes_.key_width = take("key_width", {0.25 * d_, 0.04 * d_, 0.6 * d_});
    const double most = std::min(x_.shaft_end, x_.hub_front) - x_.hub_back;
    const double keyway = take("keyway_length", {hub_length_, 0.05 * d_, 1.001 * hub_length_});
    sizes_.key_length = take("key_length", {0.85 * std::min(keyway, most), 0.04 * d_, most});
  }

  const MakeUp& make_up_;
  SectionSizes sizes_;
  SectionStations& x_ = sizes_.x;
  SectionRadii& r_ = sizes_.r;
  double d_ = 0;
  double hub_length_ = 0;
};

}  // namespace

SectionSizes section_sizes(const MakeUp& make_up) {
  return Settling(make_up).run();
}

}  // namespace pumpwright::job
