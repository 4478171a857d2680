#include "engine/fluid/if97.h"

#include <array>
#include <cmath>
#include <cstddef>

#include "engine/fluid/if97_tables.h"
#include "engine/fluid/known_range.h"
#include "engine/fluid/saturation.h"

namespace pumpwright::fluid {
namespace {

constexpr double gas_constant = 461.526;  // [J/(kg·K)], equation 1
constexpr double pascals_of_mpa = 1e6;

Temperature boundary_end() {
  return kelvin(863.15);
}

// x^lowest … x^highest by repeated multiplication from x^0.
template <int lowest, int highest>
class Powers {
 public:
  explicit Powers(double x) {
    static_assert(lowest <= 0 && highest >= 0);
    at(0) = 1;
    for (int k = 1; k <= highest; ++k)
      at(k) = at(k - 1) * x;
    const double inverse = 1 / x;
    for (int k = -1; k >= lowest; --k)
      at(k) = at(k + 1) * inverse;
  }
  double operator[](int k) const { return powers_[static_cast<std::size_t>(k - lowest)]; }

 private:
  double& at(int k) { return powers_[static_cast<std::size_t>(k - lowest)]; }
  std::array<double, static_cast<std::size_t>(highest - lowest + 1)> powers_;
};

// The reduced Gibbs energy γ and its derivatives by π and τ.
struct Gibbs {
  double g = 0;
  double p = 0;
  double t = 0;
  double pp = 0;
  double pt = 0;
  double tt = 0;
};

// Σ n x^i y^j with its derivatives by x and y.
template <class Terms, class XPowers, class YPowers>
Gibbs sum_of(const Terms& terms, double x, const XPowers& x_powers, double y, const YPowers& y_powers) {
  Gibbs sum;
  for (const if97::Term& term : terms) {
    const double value = term.n * x_powers[term.i] * y_powers[term.j];
    const double i = term.i;
    const double j = term.j;
    sum.g += value;
    sum.p += i * value;
    sum.t += j * value;
    sum.pp += i * (i - 1) * value;
    sum.pt += i * j * value;
    sum.tt += j * (j - 1) * value;
  }
  return {sum.g, sum.p / x, sum.t / y, sum.pp / (x * x), sum.pt / (x * y), sum.tt / (y * y)};
}

Gibbs liquid_gibbs(double pi_, double tau) {
  const double x = 7.1 - pi_;
  const double y = tau - 1.222;
  Gibbs g = sum_of(if97::liquid_terms, x, Powers<0, 32>(x), y, Powers<-41, 17>(y));
  g.p = -g.p;  // x falls as π grows
  g.pt = -g.pt;
  return g;
}

Gibbs steam_gibbs(double pi_, double tau) {
  const double y = tau - 0.5;
  const Gibbs ideal = sum_of(if97::ideal_gas_terms, 1, Powers<0, 0>(1), tau, Powers<-5, 3>(tau));
  Gibbs g = sum_of(if97::steam_terms, pi_, Powers<0, 24>(pi_), y, Powers<0, 58>(y));
  g.g += std::log(pi_) + ideal.g;
  g.p += 1 / pi_;
  g.t += ideal.t;
  g.pp -= 1 / (pi_ * pi_);
  g.tt += ideal.tt;
  return g;
}

WaterState state_of(const Gibbs& g, double pi_, double tau, double t_k, double pressure_unit_pa) {
  const double rt = gas_constant * t_k;
  const double mixed = g.p - tau * g.pt;
  const double tau2_tt = tau * tau * g.tt;
  const double volume = g.p * rt / pressure_unit_pa;
  return {
      .specific_volume = SpecificVolume::from_value(volume),
      .density = kilograms_per_cubic_metre(1 / volume),
      .internal_energy = SpecificEnergy::from_value(rt * (tau * g.t - pi_ * g.p)),
      .enthalpy = SpecificEnergy::from_value(rt * tau * g.t),
      .entropy = joules_per_kilogram_kelvin(gas_constant * (tau * g.t - g.g)),
      .isobaric = joules_per_kilogram_kelvin(-gas_constant * tau2_tt),
      .isochoric = joules_per_kilogram_kelvin(gas_constant * (mixed * mixed / g.pp - tau2_tt)),
      .sound = metres_per_second(g.p * std::sqrt(rt / (mixed * mixed / tau2_tt - g.pp))),
      .softening = DensityByPressure::from_value(-g.pp / (g.p * g.p * rt)),
  };
}

AbsolutePressure highest_of_steam(Temperature t) {
  if (kelvin_of(t) <= kelvin_of(if97_liquid_highest()))
    return {water_saturation_pressure(t).value * (1 + saturated_within)};
  return kelvin_of(t) <= kelvin_of(boundary_end()) ? steam_boundary(t) : if97_highest_pressure;
}

}  // namespace

WaterState liquid_water(Temperature t, AbsolutePressure p) {
  require_temperature(t, water_lowest(), if97_liquid_highest(), "liquid water");
  require_pressure(p, {water_saturation_pressure(t).value * (1 - saturated_within)}, if97_highest_pressure,
                   "liquid water at this temperature");
  constexpr double unit_pa = 16.53 * pascals_of_mpa;
  const double pi_ = p.value.value() / unit_pa;
  const double tau = 1386 / kelvin_of(t);
  return state_of(liquid_gibbs(pi_, tau), pi_, tau, kelvin_of(t), unit_pa);
}

WaterState steam(Temperature t, AbsolutePressure p) {
  require_temperature(t, water_lowest(), if97_steam_highest(), "steam");
  constexpr AbsolutePressure lowest{pascals(1e-6)};  // far below any vacuum; zero has no logarithm
  require_pressure(p, lowest, highest_of_steam(t), "steam at this temperature");
  const double pi_ = p.value.value() / pascals_of_mpa;
  const double tau = 540 / kelvin_of(t);
  return state_of(steam_gibbs(pi_, tau), pi_, tau, kelvin_of(t), pascals_of_mpa);
}

AbsolutePressure steam_boundary(Temperature t) {
  require_temperature(t, if97_liquid_highest(), boundary_end(), "the boundary between regions 2 and 3");
  constexpr double n1 = 0.34805185628969e3;
  constexpr double n2 = -0.11671859879975e1;
  constexpr double n3 = 0.10192970039326e-2;
  const double t_k = kelvin_of(t);
  return {pascals(pascals_of_mpa * (n1 + (n2 + n3 * t_k) * t_k))};
}

}  // namespace pumpwright::fluid
