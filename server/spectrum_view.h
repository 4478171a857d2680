// The recording of a running pump as the page shows it: overall velocity, spectrum, and what its tones may
// be.
#pragma once

#include <string>
#include <string_view>

#include <nlohmann/json_fwd.hpp>

#include "job/snapshot.h"

namespace pumpwright::server {

// As hands write them; empty where nothing was said.
struct RecordingAsked {
  std::string place, unit, full_scale, channel, window;
};

// `wav`: the file's bytes. BadInput names the field of RecordingAsked, or "recording" when the job has no
// vibration to judge or the file is none.
nlohmann::json spectrum_view(const job::Snapshot& snapshot, const RecordingAsked& asked,
                             std::string_view wav);

}  // namespace pumpwright::server
