// What a make-up can say, from the catalog: the choices of the form that sets up a job.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "job/sheet_form.h"

namespace pumpwright::server {

// Made once; the catalog built into the program does not change while it runs.
const nlohmann::json& make_up_form();

// The fields of a bench test's sheet that stand in the make-up, or that are read at the bench.
nlohmann::json sheet_fields_view(job::SheetOf sheet, job::FieldPart part);

}  // namespace pumpwright::server
