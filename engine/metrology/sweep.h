// A sweep: indicator readings round a turn, and what they say about the surface under the plunger.
//
// Readings are turned into surface deviation against place (sweep_setup.h), radial: away from the turning
// axis, face: out of the face towards the indicator. Then
//     r(θ) = mean + Σ_{k=1..K} a_k cos kθ + b_k sin kθ
// is fitted by least squares (Householder QR). The first harmonic (a₁, b₁) is the eccentricity vector: from
// the axis the sweep turned about to the surface's least-squares centre; for a face, half its once-per-turn
// movement. The centre of a shaft lies towards its high spot; so does the centre of a bore, whose high spot
// is where it stands farthest from the axis.
//
// The TIR that was read (largest minus smallest corrected reading) is what is judged. Nothing is dropped
// except readings inside a declared gap. Fitted figures say where and why.
//
// Orders carried. K is the largest order, at most 10, for which (1) there are at least 2K+1 different places
// and (2) no coefficient's standard error exceeds `carry_limit` times what the same number of evenly spaced
// readings would give; above order 3 `carry_limit_high` times, because high orders are rarer and would be
// paid for with doubt about the eccentricity. All K orders are fitted together, so that form up to order K
// does not leak into the eccentricity, however uneven the places. Even places lose nothing by it.
//
// Doubt about one reading, σ. From the residuals, when at least 3 degrees of freedom are left by a fit of
// order S: the largest S of 2 … K that leaves max(5, count/3) degrees of freedom, else 2, else 1, if that
// leaves 3.
// Orders above S then count as scatter, which overstates σ when such form is there. Below 3 degrees of
// freedom σ comes from the instrument, and without an instrument from whatever degrees of freedom there are
// (none for three readings: no uncertainty is given). σ is never taken below the instrument's own reading
// scatter, and its permissible error is added, because an error that follows the travel hides in the first
// harmonic. Cov(a₁, b₁) = σ² (XᵀX)⁻¹ (+ sag). The 95 % region of the vector is the ellipse dᵀ C⁻¹ d <= 2
// F(0.95; 2, ν); with ν infinite that is χ²(0.95; 2) (σ from the instrument). The high spot is given only
// when zero lies outside that ellipse.
//
// Sources: least-squares circle and RONt, RONq: ISO 12181-1 (remembered); uneven angles, residual and
// leverage formulas: ordinary linear regression theory; region: F distribution of the quadratic form of two
// fitted coefficients. The limaçon form neglects at most e²/(2R) (e = 0.03 mm, R = 20 mm: 0.02 µm).
#pragma once

#include <array>
#include <cstddef>
#include <limits>
#include <optional>
#include <span>
#include <vector>

#include "engine/metrology/instrument.h"
#include "engine/metrology/measured.h"
#include "engine/metrology/sweep_setup.h"
#include "engine/quantity/quantity.h"

namespace pumpwright {

// One line of the sheet. Angles of later turns go on past the first turn's (390° is 30° a second time).
struct SweepReading {
  Angle angle;     // [rad] as written: place or amount turned
  Length reading;  // [m] as the needle showed it
};

struct Harmonic {
  int order = 0;
  Length amplitude;  // [m] >= 0
  Angle phase;  // [rad] place of its first crest, 0 <= phase < 2π/order: amplitude · cos(order·(θ - phase))
};

// A reading that does not belong (grit, a burr): to be taken again at that place. It still counts.
struct Suspect {
  std::size_t index = 0;   // into the readings as given
  Angle place;             // [rad] 0 … 2π
  Length residual;         // [m] reading - fit, in surface deviation
  double studentized = 0;  // externally studentized residual
};

// How much of the whole turn's TIR the places read can have missed, on the assumption that the surface has no
// form of an order above `carried_order`. A form of higher order and amplitude a that no reading shows adds
// up to 2a more.
struct MissedTir {
  Length fitted;  // [m] fitted curve over the whole turn (gaps left out): its TIR less its TIR at the places
                  // read
  Length worst_phase;  // [m] what a once-per-turn movement of the fitted size loses at these places if its
                       // high spot falls worst: 2e (1 - f), f = min over φ of ½[max cos(θᵢ-φ) - min
                       // cos(θᵢ-φ)]. Four even places: f = cos 45°, 29 % of 2e; twelve: 3.4 %
  Length bound() const { return fitted > worst_phase ? fitted : worst_phase; }
};

enum class ScatterFrom { residuals, instrument, second_turn, none };

struct SweepResult {
  std::size_t count = 0;     // readings used
  std::size_t left_out = 0;  // readings inside declared gaps
  std::size_t places = 0;    // different places among those used
  Mount mount = Mount::unknown;
  Axis axis = Axis::radial;

  Tir tir;                              // as read: this is what is judged
  std::optional<Length> tir_u;          // [m] standard uncertainty; absent when nothing is known
  double tir_dof = 0;                   // infinite when it comes from the instrument
  std::size_t highest = 0, lowest = 0;  // indices of the two readings, as given
  Tir tir_fitted;                       // of the fitted curve over the whole turn, gaps left out
  MissedTir missed_tir;

  int carried_order = 0;            // K
  Length mean;                      // [m]
  std::vector<Harmonic> harmonics;  // orders 1 … K
  Eccentricity eccentricity;
  std::array<Length, 2> vector;  // [m] (a₁, b₁): towards place 0 and towards place 90°
  // Everything about the vector's uncertainty is absent together: three readings and no instrument.
  struct VectorUncertainty {
    std::array<double, 4> covariance{};  // [m²] of (a₁, b₁), row by row
    double dof = std::numeric_limits<double>::infinity();
    double region_factor = 0;  // 2 F(0.95; 2, ν): the region is dᵀ C⁻¹ d <= this
    Length u{};  // [m] of the eccentricity: along the vector, or the larger half-axis when zero lies
                 // inside the region (then the eccentricity itself is overstated by its own noise)
    bool contains(Length a, Length b, const std::array<Length, 2>& centre) const;
  };
  std::optional<VectorUncertainty> vector_uncertainty;
  std::optional<Angle> high_spot;    // [rad] 0 … 2π; absent when zero lies inside the 95 % region
  std::optional<Angle> high_spot_u;  // [rad] standard uncertainty, first order

  Length ront;  // [m] peak to valley of the readings about the least-squares circle (mean and first harmonic)
  Length ronq;  // [m] root mean square of the same, divided by the number of readings

  std::optional<Length> closure;  // [m] last reading less first, as the needle showed them, when the last is
                                  // a repeat of the first place
  std::optional<Length> drift_per_turn;  // [m] mean change between readings of one place, per turn
  std::optional<Length> repeatability;   // [m] standard deviation of one reading, from places read in more
                                         // than one turn (at least two such places); includes drift
  std::size_t repeatability_dof = 0;

  std::optional<Length> reading_u;  // [m] σ: standard uncertainty of one reading as used for the vector
  double reading_dof = 0;
  ScatterFrom scatter_from = ScatterFrom::none;
  // More left over than the instrument explains (χ² at 99 %), at too few degrees of freedom to use it: form,
  // looseness or a bad reading; more places would tell.
  bool residuals_unexplained = false;
  std::vector<Suspect> suspects;  // most suspicious first

  // The instrument's part, kept for judging.
  std::optional<Length> graduation;
  Length graduation_u;
  bool in_date = true;
};

inline constexpr int highest_order = 10;
inline constexpr double carry_limit = 4;
inline constexpr double carry_limit_high = 1.5;
inline constexpr std::size_t readings_max = 1000000;

// Evaluates a sweep. `instrument` may be null: then graduation and permissible error are not known.
// Suspects are named by the externally studentized residual of a fit of order at most 2 that leaves at least
// 3 degrees of freedom, at 5 % over the whole sweep (Bonferroni). TIR uncertainty: difference of two
// readings, u² = 2 σ_t², where σ_t is the scatter of one reading (from the second turn when there is one,
// else the instrument's own, else σ as above; what the fit leaves over is form too, and the TIR takes form
// in) with the permissible error added. That is an upper bound for the spread of a
// largest-minus-smallest (the largest of several noisy readings varies less than one of them); the noise also
// raises the read TIR on average, so a pass is on the safe side. Throws BadInput for: fewer than 3 different
// places outside gaps, or places crowded on so short an arc that even the first harmonic is not carried; more
// than readings_max readings; a value that is not finite or beyond 1 m; a place read twice in one turn
// (allowed: the last reading repeating the first, and later turns written on past 360°); a `turned` angle
// without a stated mount; sag with a base that does not turn; a stylus angle outside 0 … 60°.
SweepResult evaluate_sweep(std::span<const SweepReading> readings, const SweepSetup& setup,
                           const Instrument* instrument = nullptr);

// The high spot, when one may be claimed on the machine: it was found and the mount was stated.
std::optional<Angle> claimed_high_spot(const SweepResult& result);

// For judging (decision.h). Absent when there is no uncertainty to state: three readings and no instrument.
std::optional<Measured<Tir>> tir_measured(const SweepResult& result);
std::optional<Measured<Eccentricity>> eccentricity_measured(const SweepResult& result);

}  // namespace pumpwright
