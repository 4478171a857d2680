// Will this seal live in this service: what the engine makes of the make-up's seal and service and of the
// readings, in one place, for the judge, the command line, the record and the page alike.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "engine/fluid/liquid.h"
#include "engine/seal/chamber_pressure.h"
#include "engine/seal/conditions_map.h"
#include "engine/seal/dry_running.h"
#include "engine/seal/face_load.h"
#include "engine/seal/film.h"
#include "engine/seal/spring.h"
#include "engine/seal/tracking.h"
#include "engine/seal/vapour_margin.h"
#include "engine/seal/working_length.h"
#include "job/measurement.h"

namespace pumpwright::job {

// The service as it is computed with.
struct ServiceState {
  Temperature temperature;  // of the pumped liquid
  GaugePressure suction;
  Pressure rise;  // what the pump adds; 0 when the make-up does not say
  Length altitude;
  AbsolutePressure atmosphere;  // of the standard atmosphere at the site
};

// The working length the numbers are for.
struct LengthState {
  Measured<Length> length;
  bool measured = false;  // from the readings; else the sheet's nominal
};

// Whatever could be computed; what could not is absent, and `missing` says what it lacks.
struct SealService {
  std::shared_ptr<const fluid::Liquid> liquid;  // null: its properties are not known
  std::optional<ServiceState> state;
  std::optional<seal::ChamberPressure> chamber;                  // an estimate with its range
  AbsolutePressure chamber_low, chamber_expected, chamber_high;  // the same; with `chamber`
  std::optional<seal::Faces> faces;
  std::optional<LengthState> length;
  std::optional<seal::SpringForce> spring;
  // What warmth does to the working length, positive longer: every length of its stack warmed by anything
  // between nothing and the liquid's temperature, and made of any metal the catalog knows. An estimate.
  std::optional<seal::GrowthRange> growth;
  std::optional<seal::SpringForce> spring_shortest, spring_longest;  // over end float as measured and growth
  std::optional<seal::FaceLoad> load;  // by the hand formulas, at the expected chamber pressure
  PressureVelocity pv_low, pv_high;    // over the chamber's range and the spring's; with `load`
  std::optional<seal::FilmCase> film_case;
  std::optional<seal::FilmSolution> film;  // at the expected chamber pressure
  std::optional<Temperature>
      judged_at;                // hottest place of the faces where the film is known, else the liquid's
  bool judged_at_face = false;  // which of the two
  std::optional<seal::VapourMargin> margin;  // at the expected chamber pressure and `judged_at`
  double ratio_low = 0, ratio_high = 0;      // of the margin over the chamber's range
  // Suction pressure at which the margin reaches what its check asks, at the chamber's low end and with the
  // film solved there: more pressure presses the faces harder and heats them. A little is added, so that its
  // first three digits still do. Absent when none was found.
  std::optional<GaugePressure> least_suction;
  std::optional<VolumeFlow> circulation;   // that carries the faces' heat away with the usual rise
  std::optional<seal::Tracking> tracking;  // of the seat as it was swept
  std::optional<seal::Overlap> overlap;    // of the faces, as their parts were swept
  std::optional<seal::DryRunTime>
      dry_run;  // from the liquid's temperature to the elastomer's limit, an estimate
  std::vector<Text> missing;
  std::vector<Text> assumed;  // what the numbers rest on besides

  bool film_wanted = false;  // the make-up has the seal's sheet
  seal::MarginRule rule;     // that the margin is asked by

  // A film was wanted and not found, for whatever reason: the faces may boil or run dry, and a margin that is
  // judged at the liquid's own temperature says nothing of them.
  bool film_in_doubt() const { return film_wanted && !(film && film->converged); }
};

enum class Asked {
  forces,      // length and spring only
  loads,       // what the hand formulas and the sweeps say, too
  everything,  // the film as well: some milliseconds
};

// Pure. `length` replaces the working length of the readings. What lies beyond what the engine can compute is
// missing, never an exception.
SealService seal_service(const JudgeContext& in, Asked asked, std::optional<Length> length = std::nullopt);

// The map of suction pressure against temperature around the service's own point. Nothing without a film.
std::optional<seal::MapRequest> map_around(const SealService& service);

}  // namespace pumpwright::job
