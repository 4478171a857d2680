#include "engine/rotor/unbalance.h"

#include "engine/assembly/input_check.h"

namespace pumpwright::rotor {

Unbalance unbalance_of_grade(Mass mass, Velocity grade, Speed speed) {
  require_between(grade.value(), 0, 4, "unbalance/grade", "a grade from 0 to 4000 mm/s");
  require_that(speed.value() > 0, speed.value(), "speed", "a speed over 0");
  return Unbalance::from_value(mass.value() * grade.value() / speed.value());
}

Unbalance unbalance_of_mass(Mass mass, Length radius) {
  require_between(mass.value(), 0, 10, "unbalance/mass", "a mass from 0 to 10 kg");
  require_between(radius.value(), 0, 5, "unbalance/radius", "a radius from 0 to 5 m");
  return Unbalance::from_value(mass.value() * radius.value());
}

Force unbalance_force(Unbalance unbalance, Speed speed) {
  return newtons(unbalance.value() * speed.value() * speed.value());
}

}  // namespace pumpwright::rotor
