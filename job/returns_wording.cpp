#include "job/returns_wording.h"

#include <cmath>

#include <fmt/format.h>

#include "engine/quantity/format.h"

namespace pumpwright::job {
namespace {

using namespace reliability;

constexpr int time_digits = 3;
constexpr int horizons = 5;

Text same(const std::string& text) {
  return {text, text};
}

Text joined(const Text& a, const char* between, const Text& b) {
  return {a.en + between + b.en, a.es + between + b.es};
}

Text change_sentence(ChangeReason reason) {
  switch (reason) {
    case ChangeReason::interval_below_one:
      return {"the change goes with fewer returns", "el cambio va con menos devoluciones"};
    case ChangeReason::interval_above_one:
      return {"the change goes with more returns", "el cambio va con más devoluciones"};
    case ChangeReason::one_in_the_interval:
      return {"cannot tell; these pumps could have done the same without the change",
              "no se puede decir; estas bombas podrían haber hecho lo mismo sin el cambio"};
    case ChangeReason::too_few_returns:
      break;
  }
  return {fmt::format("cannot tell; fewer than {} returns in all", returns_to_compare),
          fmt::format("no se puede decir; menos de {} devoluciones en total", returns_to_compare)};
}

Text times_text(double ratio) {
  if (std::isinf(ratio))
    return {"no return before, so no figure", "ninguna devolución antes, así que no hay cifra"};
  return {fmt::format("{:.2f} times as often after as before", ratio),
          fmt::format("{:.2f} veces tan a menudo después como antes", ratio)};
}

}  // namespace

std::string percent_text(double part) {
  return fmt::format("{:.{}f} %", 100 * part, part > 0 && part < 0.01 ? 1 : 0);
}

Text chance_text(double p) {
  if (p < 0.001)
    return {"chance alone would do this less than once in 1000 such lists",
            "el azar solo lo haría menos de una vez en 1000 listas así"};
  if (p < 0.095)
    return {fmt::format("chance alone would do this about {:.0f} times in 1000 such lists", 1000 * p),
            fmt::format("el azar solo lo haría unas {:.0f} veces en 1000 listas así", 1000 * p)};
  return {fmt::format("chance alone would do this about {:.0f} times in 100 such lists", 100 * p),
          fmt::format("el azar solo lo haría unas {:.0f} veces en 100 listas así", 100 * p)};
}

double ReturnsWording::in_unit(Time t) const {
  return step_from_si(t.value(), *q_.table.unit);
}

Time ReturnsWording::from_unit(double value) const {
  return seconds(value / step_from_si(1, *q_.table.unit));
}

Text ReturnsWording::clock() const {
  return q_.is_calendar ? Text{"on the calendar", "de calendario"} : Text{"of running", "de marcha"};
}

Text ReturnsWording::time(Time t) const {
  if (std::isinf(t.value())) return {"no end", "sin fin"};
  const Unit& unit = *q_.table.unit;
  if (t.value() == 0) return same("0 " + std::string(unit.symbol));
  const double value = in_unit(t);
  const double last = std::pow(10.0, std::floor(std::log10(std::fabs(value))) - (time_digits - 1));
  return same(format_significant(from_unit(std::round(value / last) * last), unit, time_digits));
}

std::string ReturnsWording::seen(Time t) const {
  return format_significant(t, *q_.table.unit, time_digits);
}

Text ReturnsWording::sure() const {
  const std::string part = percent_text(q_.confidence);
  return {part + " sure", part + " seguro"};
}

Text ReturnsWording::between(Time low, Time high) const {
  const Text upper = std::isinf(high.value()) ? Text{"no known end", "sin fin conocido"} : time(high);
  return {fmt::format("({}: {} to {})", sure().en, time(low).en, upper.en),
          fmt::format("({}: de {} a {})", sure().es, time(low).es, upper.es)};
}

Text ReturnsWording::between(double low, double high) const {
  const Text upper =
      std::isinf(high) ? Text{"no known end", "sin fin conocido"} : same(fmt::format("{:.2f}", high));
  return {fmt::format("({}: {:.2f} to {})", sure().en, low, upper.en),
          fmt::format("({}: de {:.2f} a {})", sure().es, low, upper.es)};
}

std::vector<Time> ReturnsWording::round_times() const {
  const double raw = in_unit(f_.curve.last) / horizons;
  const double decade = std::pow(10.0, std::floor(std::log10(raw)));
  const double step = decade * (raw >= 5 * decade ? 5 : raw >= 2 * decade ? 2 : 1);
  std::vector<Time> list;
  for (int i = 1; from_unit(i * step) <= f_.curve.last; ++i)
    list.push_back(from_unit(i * step));
  return list;
}

Text ReturnsWording::rate() const {
  if (!f_.rate.mean)
    return {
        fmt::format("How often: none came back in {} {}. If they come at a steady rate, one return takes at "
                    "least {} on average ({}).",
                    time(f_.rate.total).en, clock().en, time(f_.rate.low).en, sure().en),
        fmt::format(
            "Cada cuánto: ninguna volvió en {} {}. Si vuelven a ritmo constante, una devolución tarda "
            "de media al menos {} ({}).",
            time(f_.rate.total).es, clock().es, time(f_.rate.low).es, sure().es)};
  const Text range = between(f_.rate.low, *f_.rate.high);
  return {
      fmt::format("How often: one return for every {} {}, all pumps together {}. That is an average; whether "
                  "returns come early or late is said below.",
                  time(*f_.rate.mean).en, clock().en, range.en),
      fmt::format("Cada cuánto: una devolución por cada {} {}, todas las bombas juntas {}. Es una media; si "
                  "vuelven pronto o tarde se dice abajo.",
                  time(*f_.rate.mean).es, clock().es, range.es)};
}

std::optional<Text> ReturnsWording::shares() const {
  if (f_.replaced == 0 || f_.incidence.empty()) return std::nullopt;
  const auto& end = f_.incidence.back();
  return Text{
      fmt::format("Of all that went out, {} have come back and {} were replaced by {}.",
                  percent_text(end.returned), percent_text(end.replaced), seen(end.time)),
      fmt::format("De todas las que salieron, a los {} había vuelto el {} y se había sustituido el {}.",
                  seen(end.time), percent_text(end.returned), percent_text(end.replaced))};
}

std::optional<Text> ReturnsWording::shape() const {
  if (!f_.weibull) return std::nullopt;
  if (f_.weibull->shape.high < 1)
    return Text{
        "Returns come EARLY and get rarer with age. That points to the bench: how it was built, fitted "
        "or started, not to wear.",
        "Las devoluciones llegan PRONTO y se hacen más raras con la edad. Eso apunta al banco: a cómo "
        "se armó, se ajustó o se arrancó, no al desgaste."};
  if (f_.weibull->shape.low > 1)
    return Text{
        "Returns come LATE and get more frequent with age. That points to wear: parts that reach their "
        "end in this service.",
        "Las devoluciones llegan TARDE y se hacen más frecuentes con la edad. Eso apunta al desgaste: "
        "piezas que llegan a su fin en este servicio."};
  return Text{
      fmt::format("Early, steady or late: CANNOT TELL. A steady rate, by chance, fits these {} rows too.",
                  q_.table.rows.size()),
      fmt::format("Pronto, constante o tarde: NO SE PUEDE DECIR. Un ritmo constante, por azar, encaja "
                  "también con estas {} filas.",
                  q_.table.rows.size())};
}

std::optional<Text> ReturnsWording::drawn_on() const {
  if (!f_.weibull || !(f_.weibull->b10 > f_.curve.last || f_.weibull->fit.scale > f_.curve.last))
    return std::nullopt;
  return Text{
      fmt::format("Times beyond {} were not seen; there the curve is only drawn on.", seen(f_.curve.last)),
      fmt::format("Más allá de {} no se vio nada; ahí la curva solo se prolonga.", seen(f_.curve.last))};
}

std::optional<Text> ReturnsWording::groups() const {
  if (!f_.groups) return std::nullopt;
  const double p = f_.groups->log_rank.test.p;
  const Text said =
      is_proven(p)
          ? Text{"The groups come back DIFFERENTLY: ", "Los grupos vuelven de modo DISTINTO: "}
          : Text{"Whether the groups differ: CANNOT TELL; ", "Si los grupos difieren: NO SE PUEDE DECIR; "};
  const Text chance = chance_text(p);
  return Text{said.en + chance.en + " (log-rank test).", said.es + chance.es + " (prueba log-rank)."};
}

std::optional<Text> ReturnsWording::group_curves() const {
  if (!f_.groups || !f_.groups->weibull) return std::nullopt;
  const Text chance = chance_text(f_.groups->weibull->p);
  return Text{
      fmt::format("A curve of its own for each group (Weibull, likelihood ratio): {}.", chance.en),
      fmt::format("Una curva propia para cada grupo (Weibull, razón de verosimilitud): {}.", chance.es)};
}

Text ReturnsWording::every(const ReturnRate& rate) const {
  if (rate.mean) return joined(time(*rate.mean), " ", between(rate.low, *rate.high));
  return {fmt::format("at least {} ({})", time(rate.low).en, sure().en),
          fmt::format("al menos {} ({})", time(rate.low).es, sure().es)};
}

std::optional<Text> ReturnsWording::change() const {
  if (!f_.change) return std::nullopt;
  return change_sentence(f_.change->reason);
}

std::optional<Text> ReturnsWording::change_ratio() const {
  if (!f_.change) return std::nullopt;
  const Text times = times_text(f_.change->ratio),
             range = between(f_.change->ratio_low, f_.change->ratio_high),
             chance = chance_text(f_.change->log_rank.test.p);
  return Text{
      fmt::format("Rate of return: {} {}; {} (log-rank test).", times.en, range.en, chance.en),
      fmt::format("Ritmo de devolución: {} {}; {} (prueba log-rank).", times.es, range.es, chance.es)};
}

std::optional<Text> ReturnsWording::settling() const {
  if (!f_.change || f_.change->change != Change::cannot_tell) return std::nullopt;
  const Settling& s = f_.change->settling;
  const double needed = std::ceil(s.returns_needed);
  Text text{
      fmt::format("To prove a change to {:g} times as often, {:.0f} returns are needed in all", s.ratio,
                  needed),
      fmt::format("Para probar un cambio a {:g} veces tan a menudo hacen falta {:.0f} devoluciones en total",
                  s.ratio, needed)};
  if (s.returns_more == 0) return Text{text.en + "; there are enough.", text.es + "; hay bastantes."};
  text.en += fmt::format("; {} more", s.returns_more);
  text.es += fmt::format("; {} más", s.returns_more);
  if (s.pumps_more) {
    text.en += fmt::format(", about {} more pumps if they come back as often and are watched as long",
                           *s.pumps_more);
    text.es +=
        fmt::format(", unas {} bombas más si vuelven tan a menudo y se observan tanto tiempo", *s.pumps_more);
  }
  text.en += fmt::format(". With those seen so far the chance to prove it was {}.", percent_text(s.power));
  text.es += fmt::format(". Con las vistas hasta ahora la probabilidad de probarlo era del {}.",
                         percent_text(s.power));
  return text;
}

Text ReturnsWording::what_else_changed() {
  return {
      "Whatever else changed at the same time is in this figure too: season, customers, suppliers. Where it "
      "can be, build both ways side by side.",
      "Lo demás que cambió al mismo tiempo también está en esta cifra: temporada, clientes, proveedores. "
      "Donde se pueda, arme de las dos maneras a la vez."};
}

std::optional<Text> ReturnsWording::readings() const {
  if (!f_.readings) return std::nullopt;
  const Text chance = chance_text(f_.readings->fit.ratio_test.p);
  return Text{fmt::format("All readings together: {} (proportional hazards, likelihood ratio).", chance.en),
              fmt::format("Todas las lecturas juntas: {} (riesgos proporcionales, razón de verosimilitud).",
                          chance.es)};
}

std::optional<Text> ReturnsWording::few_returns() const {
  if (!f_.readings) return std::nullopt;
  const auto& fit = f_.readings->fit;
  if (fit.returned >= 10 * fit.coefficients.size()) return std::nullopt;
  return Text{
      fmt::format("Only {} returns for {} readings; below ten a reading such figures wander.", fit.returned,
                  fit.coefficients.size()),
      fmt::format("Solo {} devoluciones para {} lecturas; con menos de diez por lectura esas cifras vagan.",
                  fit.returned, fit.coefficients.size())};
}

Text ReturnsWording::reading_goes_with(const CoxCoefficient& c) const {
  if (!is_proven(c.p)) return {"cannot tell", "no se puede decir"};
  return c.ratio > 1 ? Text{"more returns", "más devoluciones"} : Text{"fewer returns", "menos devoluciones"};
}

Text ReturnsWording::reading_at_all_ages(std::size_t reading) const {
  const auto& proportional = f_.readings->proportional;
  if (!proportional) return {"not tested", "no probado"};
  return is_proven(proportional->readings[reading].p) ? Text{"NO: changes with age", "NO: cambia con la edad"}
                                                      : Text{"nothing against it", "nada en contra"};
}

Text ReturnsWording::not_a_cause() {
  return {"A reading that goes with returns need not be their cause.",
          "Una lectura que va con las devoluciones no tiene por qué ser su causa."};
}

std::optional<Text> ReturnsWording::trend() const {
  if (!f_.trend) return std::nullopt;
  const auto& t = *f_.trend;
  const Text chance = chance_text(t.p);
  const Text said = !is_proven(t.p)
                        ? Text{"Whether the same pump comes back more often as it ages: CANNOT TELL; ",
                               "Si la misma bomba vuelve más a menudo al envejecer: NO SE PUEDE DECIR; "}
                    : t.shape > 1 ? Text{"The same pump comes back MORE AND MORE often as it ages: ",
                                         "La misma bomba vuelve CADA VEZ MÁS a menudo al envejecer: "}
                                  : Text{"The same pump comes back LESS AND LESS often as it ages: ",
                                         "La misma bomba vuelve CADA VEZ MENOS a menudo al envejecer: "};
  return Text{said.en + chance.en + ".", said.es + chance.es + "."};
}

}  // namespace pumpwright::job
