// Mistakes the type system keeps out. CTest compiles each case twice: as it stands it must be refused, and
// with PUMPWRIGHT_LEGAL its twin, which differs in nothing but the mistake, must be accepted.
#include "engine/quantity/quantity.h"

namespace pumpwright {

#ifdef PUMPWRIGHT_LEGAL
#define EITHER(legal, mistake) legal
#else
#define EITHER(legal, mistake) mistake
#endif

inline double judge(Eccentricity e) {
  return e.value.value();
}
inline double spent(Energy e) {
  return e.value();
}
inline double boils_at(AbsolutePressure p) {
  return p.value.value();
}
inline double expansion_of(TemperatureDifference t) {
  return t.value();
}

#if PUMPWRIGHT_CASE == 1  // a TIR where an eccentricity is wanted
double f(Tir tir, Eccentricity eccentricity) {
  return judge(EITHER(eccentricity, tir)) + tir.value.value();
}
#elif PUMPWRIGHT_CASE == 2  // a torque where an energy is wanted
double f(Torque torque, Energy energy) {
  return spent(EITHER(energy, torque)) + torque.value();
}
#elif PUMPWRIGHT_CASE == 3  // a length plus an angle
double f(Length length, Angle angle) {
  return (length + EITHER(length, angle)).value() + angle.value();
}
#elif PUMPWRIGHT_CASE == 4  // a gauge pressure where an absolute one is wanted
double f(GaugePressure gauge, AbsolutePressure absolute) {
  return boils_at(EITHER(absolute, gauge)) + gauge.value.value();
}
#elif PUMPWRIGHT_CASE == 5  // the sum of two points on the temperature scale
double f(Temperature t, TemperatureDifference step) {
  return kelvin_of(t + EITHER(step, t)) + step.value();
}
#elif PUMPWRIGHT_CASE == 6  // a temperature where a difference is wanted
double f(Temperature t, TemperatureDifference step) {
  return expansion_of(EITHER(step, t)) + kelvin_of(t);
}
#elif PUMPWRIGHT_CASE == 7  // a bare number where a length is wanted
Length f(double number) {
  return EITHER(metres(number), number);
}
#elif PUMPWRIGHT_CASE == 8  // a shaft speed where a frequency is wanted
double f(Speed speed, Frequency frequency) {
  return Frequency(EITHER(frequency, speed)).value() + speed.value() + frequency.value();
}
#else
#error "no such case"
#endif

}  // namespace pumpwright
