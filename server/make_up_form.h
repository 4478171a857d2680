// What a make-up can say, from the catalog: the choices of the form that sets up a job.
#pragma once

#include <nlohmann/json_fwd.hpp>

namespace pumpwright::server {

// Made once; the catalog built into the program does not change while it runs.
const nlohmann::json& make_up_form();

}  // namespace pumpwright::server
