// A liquid as the seal sees it: what it weighs, how thick it is, how it takes up heat, and when it boils.
//
// One interface for water, sea water, glycol mixtures and what a shop enters from two sheets, so that nothing
// above has to know which correlation stands behind a number. Every model says the range it holds in and what
// it rests on; outside the range it throws BadInput that states the range, and never extrapolates.
#pragma once

#include <string>
#include <string_view>

#include "engine/quantity/quantity.h"

namespace pumpwright::fluid {

// Where each of a liquid's properties comes from, as "document, edition, equation or table".
struct PropertySources {
  std::string saturation;
  std::string density;
  std::string viscosity;
  std::string heat_capacity;
  std::string conductivity;
};

class Liquid {
 public:
  virtual ~Liquid() = default;
  Liquid() = default;
  Liquid(const Liquid&) = delete;
  Liquid& operator=(const Liquid&) = delete;

  // As a person would say it: "water", "50 % ethylene glycol in water".
  virtual std::string name() const = 0;
  virtual const PropertySources& sources() const = 0;

  // Temperatures between which every property below is known [K]; lowest < highest.
  virtual Temperature lowest_temperature() const = 0;
  virtual Temperature highest_temperature() const = 0;

  // Pressure at which the liquid boils at `t` [Pa]. BadInput outside the range.
  virtual AbsolutePressure saturation_pressure(Temperature t) const = 0;
  // Temperature at which it boils at `p` [K]: the inverse of saturation_pressure, to 1e-9 of the value.
  virtual Temperature saturation_temperature(AbsolutePressure p) const = 0;

  // Of the liquid at `t` and `p`; p may not be below saturation (BadInput). A model that knows no dependence
  // on pressure says so in its header and ignores p otherwise.
  virtual Density density(Temperature t, AbsolutePressure p) const = 0;
  virtual Viscosity viscosity(Temperature t, AbsolutePressure p) const = 0;
  virtual HeatCapacity heat_capacity(Temperature t, AbsolutePressure p) const = 0;
  virtual Conductivity conductivity(Temperature t, AbsolutePressure p) const = 0;
};

}  // namespace pumpwright::fluid
