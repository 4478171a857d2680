#include "job/sheets/vibration_wording.h"

#include <algorithm>

#include <fmt/format.h>

#include "job/sheets/vibration_units.h"

namespace pumpwright::job {
namespace {

using vibration::ExpectedLine;
using vibration::LineOf;

Text plain_name(LineOf of) {
  switch (of) {
    case LineOf::turning:
      return {"1 × turning", "1 × giro"};
    case LineOf::twice_turning:
      return {"2 × turning", "2 × giro"};
    case LineOf::vane_pass:
      return {"vane pass", "paso de álabes"};
    case LineOf::twice_line:
      return {"2 × line frequency", "2 × frecuencia de red"};
    case LineOf::cage:
      return {"cage", "jaula"};
    case LineOf::outer_race:
      return {"outer race", "pista exterior"};
    case LineOf::inner_race:
      return {"inner race", "pista interior"};
    case LineOf::element:
      return {"rolling element", "elemento rodante"};
  }
  return {};
}

Text name_of(const ExpectedLine& line) {
  Text name = plain_name(line.of);
  const std::string times = line.multiple == 1 ? "" : fmt::format("{} × ", line.multiple);
  if (line.bearing.empty()) return {times + name.en, times + name.es};
  return {fmt::format("{}{} of {}", times, name.en, line.bearing),
          fmt::format("{}{} de {}", times, name.es, line.bearing)};
}

}  // namespace

Text zone_text(vibration::Zone zone) {
  switch (zone) {
    case vibration::Zone::a:
      return {"zone A: as of a new machine", "zona A: como una máquina nueva"};
    case vibration::Zone::b:
      return {"zone B: runs on without restriction", "zona B: puede seguir sin restricción"};
    case vibration::Zone::c:
      return {"zone C: not for long", "zona C: no por mucho tiempo"};
    case vibration::Zone::d:
      return {"zone D: may do damage, stop it", "zona D: puede causar daño, pararla"};
  }
  return {};
}

Text may_be_text(const FoundTone& tone) {
  if (tone.may_be.empty()) return {"nothing that is expected here", "nada de lo que se espera aquí"};
  Text out;
  for (const auto& line : tone.may_be) {
    const Text name = name_of(line);
    out.en += (out.en.empty() ? "" : ", or ") + name.en;
    out.es += (out.es.empty() ? "" : ", o ") + name.es;
  }
  return out;
}

Text points_to(LineOf of) {
  switch (of) {
    case LineOf::turning:
      return {
          "unbalance first; then a bent shaft, an impeller off centre, a loose foot. Balance only what "
          "runs true.",
          "primero desequilibrio; luego eje doblado, impulsor descentrado, pie flojo. Equilibrar solo lo "
          "que gira centrado."};
    case LineOf::twice_turning:
      return {"misalignment or pipe strain; looseness; a worn coupling.",
              "desalineación o tensión de tuberías; holgura; acoplamiento gastado."};
    case LineOf::vane_pass:
      return {"vanes passing the cutwater: too little clearance there, or a flow far from best efficiency.",
              "álabes ante la lengüeta: poca holgura allí, o un caudal lejos del mejor rendimiento."};
    case LineOf::twice_line:
      return {
          "the motor's field: air gap, soft foot, unequal voltages. It dies the moment the current is cut.",
          "el campo del motor: entrehierro, pie flojo, tensiones desiguales. Cesa al cortar la corriente."};
    case LineOf::cage:
    case LineOf::outer_race:
    case LineOf::inner_race:
    case LineOf::element:
      return {"a damaged place of that bearing: listen, look at its grease, plan its change.",
              "un daño en ese rodamiento: escuchar, mirar la grasa, planear el cambio."};
  }
  return {};
}

std::vector<SheetLine> signal_lines(const VibrationSheet& sheet, const SignalFinding& finding) {
  const std::string band = fmt::format("{:g}–{:g} Hz", finding.band.least.value(), finding.band.most.value());
  const std::string overall = velocity_text(sheet, finding.overall.rms, finding.overall.u);
  const Text zone = finding.overall.zone ? zone_text(*finding.overall.zone) : Text{};
  std::vector<SheetLine> out{{{"overall, " + band, "global, " + band},
                              {zone.empty() ? overall : overall + ", " + zone.en,
                               zone.empty() ? overall : overall + ", " + zone.es}}};
  for (std::size_t i = 0; i < std::min(numbered_tones, finding.tones.size()); ++i) {
    const FoundTone& tone = finding.tones[i];
    const std::string name = fmt::format("{}: {:.2f} Hz", i + 1, tone.tone.at.value());
    const std::string read = velocity_text(sheet, tone.rms, tone.u);
    const Text may_be = may_be_text(tone);
    out.push_back(
        {{name, name}, {fmt::format("{}: {}", read, may_be.en), fmt::format("{}: {}", read, may_be.es)}});
  }
  if (!finding.tones.empty() && !finding.tones.front().may_be.empty()) {
    const Text to = points_to(finding.tones.front().may_be.front().of);
    out.push_back({{"the strongest points to", "el más fuerte apunta a"}, to});
  }
  return out;
}

}  // namespace pumpwright::job
