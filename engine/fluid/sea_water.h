// Sea water, fresh to brine, as pumps in aquaria and on ships see it.
//
// Sources: Sharqawy, Lienhard and Zubair, Thermophysical properties of seawater: a review of existing
// correlations and data, Desalination and Water Treatment 16 (2010) 354-380: density eq. 8, heat capacity
// eq. 9, conductivity eq. 13, viscosity eqs. 22 and 23; and Nayar, Sharqawy, Banchik and Lienhard,
// Desalination 390 (2016) 1-24, eqs. 5 and 6, for the vapour pressure against that of pure water. Both read
// in public restatements of the equations, not in print. The vapour pressure of pure water is IF97's. Nayar's
// ratio is taken in place of Raoult's law of the older paper, which lies 0.2 % lower at 35 g/kg: a boiling
// margin wants the higher of the two.
#pragma once

#include <memory>

#include "engine/fluid/liquid.h"

namespace pumpwright::fluid {

inline constexpr double standard_salinity = 0.035;  // 35 g/kg
inline constexpr double highest_salinity = 0.15;

// `salinity` is kg of salt in one kg of sea water, 0 to 0.15; BadInput outside. 0 °C to 180 °C. The
// correlations hold at atmospheric pressure or, above 100 °C, at saturation; pressure is ignored and, so that
// what that costs stays below 0.5 % of density, no higher than 10 MPa.
std::shared_ptr<const Liquid> sea_water(double salinity);

}  // namespace pumpwright::fluid
