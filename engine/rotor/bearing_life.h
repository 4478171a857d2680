// Basic rating life of rolling bearings (ISO 281) from the load each carries, and of two together.
//
// Fatigue only, for 9 of 10 bearings: lubrication, dirt and clearance (a_ISO) are left out, so a real bearing
// in dirty oil lives shorter.
#pragma once

#include <optional>
#include <span>
#include <string>

#include "engine/quantity/quantity.h"

namespace pumpwright::rotor {

enum class BearingKind {
  deep_groove_ball,         // single row, normal clearance
  angular_contact_ball_40,  // single row, contact angle 40°
  cylindrical_roller,       // carries no thrust
};

// "deep-groove-ball", "angular-contact-ball-40", "cylindrical-roller"; BadInput naming `field` otherwise.
BearingKind bearing_kind(const std::string& word, const std::string& field);
const char* word_for(BearingKind kind);

struct RatedBearing {
  BearingKind kind = BearingKind::deep_groove_ball;
  Force dynamic_rating;                // C, 10 N to 10 MN, from the bearing's own sheet
  std::optional<Force> static_rating;  // C0; needed for a deep-groove bearing under thrust
  std::optional<double> f0;            // from the same sheet, 5 to 20; needed beside C0
};

// P = X Fr + Y Fa where Fa / Fr > e, else P = Fr.
struct LoadFactors {
  double x = 1;
  double y = 0;
  double e = 0;
};

// Deep groove: X 0.56; e and Y by f0 Fa / C0 from 0.172 to 6.89, straight between the rows; below the table
// its first row holds. ABMA table of X and Y read in a handbook of rules of thumb (axis Fa / (i Z D²) in psi,
// which is f0 Fa / C0 in N/mm²); ISO 281:2007, table 3, remembered to be the same. Angular contact 40°: X
// 0.35, Y 0.57, e 1.14: a university's design guide, read. Throws BadInput "static_rating", "f0" when they
// are needed and missing, "axial_load" beyond the table or on a cylindrical roller bearing.
LoadFactors load_factors(const RatedBearing& bearing, Force radial, Force axial);

// P [N]. `radial`, `axial` >= 0.
Force equivalent_load(const RatedBearing& bearing, Force radial, Force axial);

// L10 = (C/P)^p million turns, p 3 for balls and 10/3 for rollers; as time at `speed` (over 0). Infinite
// without load. ISO 281:2007, 4.3 and 7.3, read in public restatements.
Time basic_life(const RatedBearing& bearing, Force equivalent, Speed speed);

// Whether the formula is meant for such a load: P up to half of C (ISO 281:2007, remembered).
bool within_life_formula(const RatedBearing& bearing, Force equivalent);

// Life until the first of several fails, 9 of 10 machines: (sum of L^-e)^(-1/e) with the Weibull slope e
// = 1.5. API 610 (12th ed.) 6.10.1.11, read in a public restatement. Lives may be infinite.
constexpr double system_weibull_slope = 1.5;
Time system_life(std::span<const Time> lives);

}  // namespace pumpwright::rotor
