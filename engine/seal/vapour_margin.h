// How far the liquid at a seal is from boiling, and which suction pressure would keep it far enough.
#pragma once

#include "engine/fluid/liquid.h"
#include "engine/quantity/quantity.h"

namespace pumpwright::seal {

// The chamber pressure has to stand `least_difference` over the vapour pressure; where that can not be had,
// `least_ratio` times the vapour pressure (API 682, 4th ed. / ISO 21049: 3.45 bar read second hand, 1.3
// remembered: the article read prints it as 1:3).
struct MarginRule {
  Pressure least_difference = pascals(3.45e5);
  double least_ratio = 1.3;
  bool ratio_suffices = true;  // false: the difference alone is accepted
};

// From worst to best; the order is used by the map.
enum class MarginClass {
  boils,          // at or below the vapour pressure
  too_small,      // above it, but neither figure is reached
  by_ratio,       // the ratio is reached, the difference is not
  by_difference,  // the difference is reached
};

struct VapourMargin {
  AbsolutePressure chamber;
  AbsolutePressure vapour;           // at the temperature asked about
  Pressure difference;               // chamber - vapour
  double ratio = 0;                  // chamber / vapour
  Temperature boiling;               // at the chamber pressure
  TemperatureDifference to_boiling;  // boiling - temperature; the older editions asked for 20 K (remembered)
  MarginClass margin = MarginClass::boils;
  bool enough = false;  // by_difference, or by_ratio when the rule lets that suffice
};

// Class of a pressure against a vapour pressure. Pure arithmetic, both > 0.
MarginClass margin_class(double chamber_pa, double vapour_pa, const MarginRule& rule);
bool is_enough(MarginClass margin, const MarginRule& rule);

// `t` is the temperature the liquid is judged at: of the chamber, or hotter, of the faces. When the chamber
// pressure lies outside the liquid's saturation range, `boiling` is the end of the range it would lie beyond.
// BadInput "chamber pressure" (over 0), "margin rule/..." or the liquid's own for `t`.
VapourMargin vapour_margin(const fluid::Liquid& liquid, AbsolutePressure chamber, Temperature t,
                           const MarginRule& rule = {});

// Least absolute chamber pressure that is enough at `t`: vapour + difference, or the ratio times vapour when
// that suffices and is less.
AbsolutePressure least_chamber_pressure(const fluid::Liquid& liquid, Temperature t,
                                        const MarginRule& rule = {});

struct SuctionRequest {
  Pressure rise;     // discharge - suction, 0 to 50 MPa
  double share = 0;  // of the rise that stands in the chamber; take the low end of the estimate
  Length altitude;   // of the site
};

// Least suction pressure, as a gauge there reads, that gives `chamber`. Not below vacuum: a lower figure
// comes back as vacuum. It says nothing of the suction the pump itself needs against cavitation.
GaugePressure least_suction(AbsolutePressure chamber, const SuctionRequest& request);

// "boils", "too_small", "by_ratio", "by_difference".
const char* word_for(MarginClass margin);

}  // namespace pumpwright::seal
