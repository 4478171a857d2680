// The equations of the film in one place, and the damped Newton iteration that solves them; `film.h` is the
// way in, the map of conditions uses this directly so that one solution can start the next.
//
// The system is tridiagonal in the cells' temperatures with a border of three: separation at the mean radius,
// cone angle, and flow. It is solved by elimination of the tridiagonal part, in a time proportional to the
// cells.
#pragma once

#include <array>
#include <vector>

#include "engine/seal/film.h"
#include "engine/seal/film_liquid.h"

namespace pumpwright::seal {

class FilmNewton {
 public:
  // `seal` must be valid as solve_film says; `liquid` must outlive this.
  FilmNewton(const FilmCase& seal, const FilmLiquid& liquid, int cells);

  // From parallel faces, or from where the last solve ended when `warm` and that one converged. When the
  // plain iteration fails the coning is brought in by parts. True when converged.
  bool solve(int most_iterations, bool warm = false);

  // Another pressure in the chamber, all else the same.
  void set_chamber(double pressure_pa);

  double hottest_k() const;
  bool opened() const { return ended_ == Ended::opened; }
  bool beyond_liquid() const { return hottest_k() > liquid_->highest_k(); }
  FilmSolution solution() const;

 private:
  enum Border { separation, angle, flow, borders };
  enum class Ended { converged, opened, not_converged };
  using BorderRow = std::array<double, borders>;
  using BorderSystem = std::array<std::array<double, borders + 1>, borders>;

  // Everything that follows from the unknowns, with the derivatives the Jacobian needs.
  struct CellState {
    double gap_m = 0, gap_slope = 0;  // mean gap, by separation
    double contact_pa = 0, contact_slope_pa_m = 0;
    double viscosity_pa_s = 0, viscosity_per_k = 0;
    double heat_w = 0, heat_per_k = 0, heat_per_m = 0;
  };
  struct SegmentState {
    double resistance_pa_s_m3 = 0;
    double per_viscosity = 0;  // resistance / viscosity
    double per_m = 0;          // by separation
  };

  struct Unknowns {
    std::vector<double> rise_k;
    std::array<double, borders> x;
  };

  void lay_mesh(int cells);
  void first_guess();
  void guess_flow();
  double coning_target() const;
  void follow_coning(Unknowns reached, int most_iterations);
  Ended iterate(int most_iterations, double residual);
  void evaluate();
  void evaluate_cell(std::size_t i);
  void evaluate_segment(std::size_t k);
  double segment_viscosity(std::size_t k) const;
  double edge_rise_k(std::size_t k) const;
  double downstream_weight(std::size_t k) const;
  void assemble_energy();
  void assemble_borders();
  void assemble_force();
  double largest_residual() const;
  bool find_step();
  bool eliminate_temperatures();
  BorderSystem reduced_borders(const BorderRow& unit) const;
  bool solve_borders();
  double damping() const;
  void take_step(double part);
  double total_heat_w() const;
  double film_force_n() const;
  double contact_force_n() const;
  double closing_n() const;
  double pressure_across_pa() const { return chamber_pa_ - atmosphere_pa_; }
  double inner_pa() const { return pressure_outside_ ? atmosphere_pa_ : chamber_pa_; }
  double outer_pa() const { return pressure_outside_ ? chamber_pa_ : atmosphere_pa_; }
  double length_scale_m() const;
  void write_forces(FilmSolution& s) const;
  void write_face(FilmSolution& s) const;
  void write_profile(FilmSolution& s) const;

  const FilmCase seal_;
  const FilmLiquid* liquid_;
  bool pressure_outside_;
  double chamber_pa_, atmosphere_pa_, chamber_k_;
  double speed_rad_s_;
  double roughness_m_, balance_, area_m2_, spring_n_, heat_per_volume_j_m3k_;

  // Mesh: cells 0 … n-1; segments k between the points k-1 and k, where the two edges count as points.
  std::size_t n_ = 0;
  double mean_radius_m_ = 0, width_m_ = 0;
  std::vector<double> centre_m_, cell_area_m2_, area_from_m2_;
  std::vector<double> segment_middle_m_, segment_log_, along_w_k_;

  // Unknowns.
  std::vector<double> rise_k_;
  std::array<double, borders> x_{};
  double coning_part_ = 1;  // of the whole coning, while it is brought in by parts

  std::vector<CellState> cell_;
  std::vector<SegmentState> segment_;
  std::vector<double> lower_, diagonal_, upper_, energy_;
  std::vector<BorderRow> by_border_;                         // derivatives of a cell's energy by the border
  std::array<std::vector<double>, borders> border_by_rise_;  // and the other way round
  std::array<BorderRow, borders> corner_{};
  std::array<double, borders> border_residual_{};
  std::array<double, borders> border_scale_{};
  std::vector<double> step_k_;
  std::array<double, borders> step_{};
  std::vector<std::array<double, borders + 1>> eliminated_;

  int iterations_ = 0;
  Ended ended_ = Ended::not_converged;
};

}  // namespace pumpwright::seal
