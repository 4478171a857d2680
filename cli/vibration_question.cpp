#include "cli/vibration_question.h"

#include <algorithm>
#include <cmath>

#include "cli/input_file.h"
#include "job/json_quantity.h"

namespace pumpwright {
namespace {

void conclude(const VibrationFile& sheet, VibrationAnswer& f) {
  if (!f.limits) return;
  const auto any = [&](Outcome outcome) {
    return std::any_of(f.places.begin(), f.places.end(),
                       [&](const job::JudgedPlace& place) { return place.by_figures == outcome; });
  };
  f.verdict = any(Outcome::fail) ? "fail" : any(Outcome::unproven) ? "unproven" : "pass";
  f.reason = f.verdict == "fail"   ? "outside-guarded"
             : f.verdict == "pass" ? "inside-guarded"
                                   : "limit-in-uncertainty";
  if (!sheet.confirmed_by.empty()) return;
  f.verdict = "unproven";
  f.reason = "limit-unconfirmed";
}

}  // namespace

VibrationAnswer answer(const VibrationQuestion& q, Executor& executor) {
  return naming_file(q.file, [&] {
    const VibrationFile& sheet = q.sheet;
    VibrationAnswer f{job::vibration_finding(sheet), {}, {}, {}, {}, {}};
    f.band = vibration::usual_band(sheet.pump.speed);
    f.expected = vibration::expected_lines(sheet.pump);
    if (sheet.signal) {
      f.signal = job::placed(
          "/signal", [&] { return job::signal_finding(sheet, sheet.signal->asked, *q.recording, executor); });
      f.places.push_back(f.signal->overall);
    }
    conclude(sheet, f);
    return f;
  });
}

}  // namespace pumpwright
