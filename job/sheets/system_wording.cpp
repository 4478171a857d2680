#include "job/sheets/system_wording.h"

#include <fmt/format.h>

namespace pumpwright::job {
namespace {

using hydraulics::Meeting;

bool overloads_at_runout(const SystemSheet& sheet, const SystemFinding& f) {
  return sheet.motor && f.power_peak_w &&
         *f.power_peak_w > sheet.motor->rated.value() * f.derating.value_or(1);
}

Text motor_text(const SystemSheet& sheet, const SystemFinding& f) {
  switch (f.reason) {
    case MotorReason::within_rating:
      if (overloads_at_runout(sheet, f))
        return {
            "the motor is within its rating there, but not over the whole curve: an open valve overloads "
            "it",
            "el motor está dentro de su potencia ahí, pero no en toda la curva: una válvula abierta lo "
            "sobrecarga"};
      return {"the motor is within its rating there and over the whole known curve",
              "el motor está dentro de su potencia ahí y en toda la curva conocida"};
    case MotorReason::in_service_factor:
      return {
          "the motor works in its service factor: hot, short-lived, and with nothing left for a bad supply",
          "el motor trabaja en su factor de servicio: caliente, con poca vida y sin reserva para una mala "
          "red"};
    case MotorReason::over_service_factor:
      return {
          "the motor is overloaded beyond its service factor: throttle, cut, slow down, or fit a larger one",
          "el motor está sobrecargado más allá de su factor de servicio: estrangular, recortar, bajar la "
          "velocidad o poner uno mayor"};
    case MotorReason::supply_too_uneven:
      return {"the voltages differ by more than 5 %: the motor is not to be run on this supply",
              "las tensiones difieren más del 5 %: el motor no debe funcionar con esta red"};
    case MotorReason::power_unknown:
      return {"the motor can not be judged: no power curve reaches this flow, and its input was not measured",
              "no se puede juzgar el motor: ninguna curva de potencia llega a este caudal y no se midió su "
              "entrada"};
    case MotorReason::no_motor:
    case MotorReason::no_point:
      break;
  }
  return {"no motor is stated", "no se indicó motor"};
}

}  // namespace

Text headline_text(const SystemSheet& sheet, const SystemFinding& f) {
  const PumpUnits units = units_of(sheet);
  const std::string flow = units.flow_text(f.point.flow_m3_s);
  switch (f.point.meeting) {
    case Meeting::plant_too_high:
      return {"the plant asks for more head than the pumps give at any known flow: nothing moves",
              "la instalación pide más altura de la que dan las bombas a cualquier caudal conocido: nada se "
              "mueve"};
    case Meeting::beyond_runout:
      return {
          fmt::format("at {}, the last flow the curve is known for, the pumps still give more than the "
                      "plant asks: the point lies beyond the curve",
                      flow),
          fmt::format("a {}, el último caudal conocido de la curva, las bombas aún dan más de lo que pide "
                      "la instalación: el punto queda más allá de la curva",
                      flow)};
    case Meeting::found:
      break;
  }
  const Text motor = motor_text(sheet, f);
  const std::string head = units.head_text(f.point.head_m);
  return {fmt::format("{} at {}; {}", flow, head, motor.en),
          fmt::format("{} a {}; {}", flow, head, motor.es)};
}

Text loads_disagree_text(const SystemFinding& f) {
  if (!f.loads_disagree()) return {};
  const std::string read = percent_text(*f.loads.by_power, 0), curve = percent_text(*f.loads.by_curve, 0);
  return {
      fmt::format("The motor's input says {} of its rating where the curve says {}: the pump does not run "
                  "where its curve meets the plant, or a curve, a meter or a plate is not this one's.",
                  read, curve),
      fmt::format("La entrada del motor dice {} de su potencia donde la curva dice {}: la bomba no trabaja "
                  "donde su curva corta la instalación, o una curva, un medidor o una placa no es la suya.",
                  read, curve)};
}

}  // namespace pumpwright::job
