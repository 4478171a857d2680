// Every sentence about a seal's service, in every language, in one place.
#pragma once

#include <string_view>
#include <vector>

#include "engine/quantity/bad_input.h"
#include "job/seal_service.h"

namespace pumpwright::job::wording {

// A liquid by the name the make-up gives it; one that is not known by name is called as it was written.
Text liquid_title(std::string_view fluid);

// What a computation lacks.
Text service_temperature_missing();
Text suction_missing();
Text liquid_unknown(const std::string& fluid);
Text glycol_strength_missing();
Text sheet_missing();
Text working_length_missing();
Text spring_missing();
Text face_materials_missing();
Text seat_sweep_missing();
Text sweeps_of_faces_missing();
Text film_unsolved(const seal::FilmSolution& film);
Text beyond_computing(const BadInput& refusal);

// What it rests on.
Text sea_level();
Text film_figures();
Text usual_salt();
Text chamber_at_suction();
Text nominal_length();
Text usual_friction(double friction);
Text usual_part_length(Length length);

// What the margin over boiling rests on, and which suction pressure would do; in the units the make-up was
// written in.
std::vector<Text> margin(const SealService& service, const MakeUp& make_up);
// Of a standing head on a seat out of square, forces in the system of `unit`.
Text tracking(const seal::Tracking& tracking, const Unit& unit);
// The track a ring rubs on its seat.
Text track(Length width, const Unit& unit);
std::vector<Text> spring_state(const SealService& service, const Unit& unit);

}  // namespace pumpwright::job::wording
