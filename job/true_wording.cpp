#include "job/true_wording.h"

#include <algorithm>
#include <cmath>
#include <set>

#include <fmt/format.h>

#include "engine/quantity/format.h"

namespace pumpwright::job {
namespace {

using true_running::Blame;
using true_running::ClockPosition;
using true_running::Fault;
using true_running::FromKeyway;
using true_running::Hypothesis;
using true_running::Rotating;
using true_running::Standing;

constexpr double odds_shown_max = 1000;
constexpr std::size_t hypotheses_shown = 3;

template <class Chain>
typename Chain::Direction toward(const Blame<Chain>& b) {
  return b.offset ? b.offset->direction() : b.tilt->direction();
}

template <class Direction>
Direction opposite(Direction d) {
  return {true_running::wrapped(radians(d.angle.value() + pi))};
}

// {0} is the size of the error, {1} its direction.
Text sentence_of(Fault f) {
  switch (f) {
    case Fault::bent_shaft:
      return {"the shaft is bent: it leans {0} toward {1}", "el eje está doblado: se inclina {0} hacia {1}"};
    case Fault::shaft_off_axis:
      return {"the shaft runs {0} off its bearings' axis, toward {1}",
              "el eje gira a {0} del eje de sus rodamientos, hacia {1}"};
    case Fault::sleeve_off_centre:
      return {"the sleeve sits {0} off centre, toward {1}", "el manguito está {0} descentrado, hacia {1}"};
    case Fault::sleeve_out_of_square:
      return {"the sleeve is bored askew: it leans {0} toward {1} and goes round with the sleeve",
              "el manguito está taladrado torcido: se inclina {0} hacia {1} y gira con él"};
    case Fault::sleeve_not_home:
      return {"sleeve and impeller sit cocked {0} of bore toward {1}: the sleeve is not home",
              "manguito e impulsor están torcidos {0} de taladro hacia {1}: el manguito no está a fondo"};
    case Fault::impeller_off_centre:
      return {"the impeller sits {0} off centre, toward {1}", "el impulsor está {0} descentrado, hacia {1}"};
    case Fault::impeller_out_of_square:
      return {"the impeller is bored askew: {0} of bore toward {1}",
              "el impulsor está taladrado torcido: {0} de taladro hacia {1}"};
    case Fault::impeller_not_home:
      return {"the impeller sits cocked {0} of bore toward {1}: it is not home",
              "el impulsor está torcido {0} de taladro hacia {1}: no está a fondo"};
    case Fault::register_off_centre:
      return {"the motor's register stands {0} off the shaft's axis, toward {1}",
              "el encaje del motor está a {0} del eje, hacia {1}"};
    case Fault::face_out_of_square:
      return {"the motor's face is out of square: its axis leans {0} toward {1}",
              "la cara del motor está fuera de escuadra: su eje se inclina {0} hacia {1}"};
    case Fault::bracket_off_centre:
      return {"the bracket sits {0} off centre, toward {1}", "el soporte está {0} descentrado, hacia {1}"};
    case Fault::bracket_out_of_square:
      return {"the bracket's two faces are not parallel: it leans {0} toward {1}",
              "las dos caras del soporte no son paralelas: se inclina {0} hacia {1}"};
    case Fault::dirt_under_bracket:
      return {"the bracket is not down on the motor's face: it leans {0} toward {1}",
              "el soporte no asienta en la cara del motor: se inclina {0} hacia {1}"};
    case Fault::seat_out_of_square:
      return {"the seat's face is out of square: its axis leans {0} toward {1}",
              "la cara del asiento está fuera de escuadra: su eje se inclina {0} hacia {1}"};
    case Fault::indicator_loose:
      return {"the indicator did not hold: {0} toward {1} belongs to no part",
              "el comparador no aguantó: {0} hacia {1} no es de ninguna pieza"};
  }
  return {};
}

// {0}: where what lies under a leaning part is to be looked for.
Text advice_of(Fault f) {
  switch (f) {
    case Fault::bent_shaft:
      return {"A bent shaft is not straightened under a seal: reject the motor.",
              "Un eje doblado no se endereza bajo un cierre: rechazar el motor."};
    case Fault::shaft_off_axis:
      return {
          "Nothing that is fitted to the shaft cures this: feel the bearing for play, look at the base of "
          "the "
          "indicator, else reject the motor.",
          "Nada que se monte en el eje lo cura: tantear el juego del rodamiento, mirar la base del "
          "comparador; si no, "
          "rechazar el motor."};
    case Fault::sleeve_off_centre:
      return {"Turn the sleeve as below, or fit another.", "Girar el manguito como abajo, o montar otro."};
    case Fault::sleeve_out_of_square:
      return {"Another sleeve; turning it as below only shares the error out.",
              "Otro manguito; girarlo como abajo solo reparte el error."};
    case Fault::sleeve_not_home:
      return {
          "Draw it, look for a ring pinched or dirt under it near {0}, clean, push it home and sweep again.",
          "Sacarlo, buscar una junta pellizcada o suciedad debajo cerca de {0}, limpiar, meterlo a fondo y "
          "barrer de "
          "nuevo."};
    case Fault::impeller_off_centre:
      return {"Turn it to another keyway if it has one, else another impeller or a bush.",
              "Girarlo a otro chavetero si lo tiene; si no, otro impulsor o un casquillo."};
    case Fault::impeller_out_of_square:
      return {"Another impeller; another keyway only shares the error out.",
              "Otro impulsor; otro chavetero solo reparte el error."};
    case Fault::impeller_not_home:
      return {
          "Draw it, look for dirt, a long key or a ring pinched under its hub near {0}, clean, and sweep "
          "again.",
          "Sacarlo, buscar suciedad, una chaveta larga o una junta pellizcada bajo su cubo cerca de {0}, "
          "limpiar y "
          "barrer de nuevo."};
    case Fault::register_off_centre:
      return {
          "Look for a dent or paint on the register; if it stays, the bracket must be moved by this against "
          "it.",
          "Buscar un golpe o pintura en el encaje; si sigue, hay que mover el soporte esto en contra."};
    case Fault::face_out_of_square:
      return {"Stone the face, look for a dent or paint near {0}.",
              "Pasar la piedra por la cara, buscar un golpe o pintura cerca de {0}."};
    case Fault::bracket_off_centre:
      return {"Loosen it and tap it over as below.", "Aflojarlo y correrlo a golpes como abajo."};
    case Fault::bracket_out_of_square:
      return {"Shim it as below, or another bracket.", "Calzarlo como abajo, u otro soporte."};
    case Fault::dirt_under_bracket:
      return {"Take it off, look for dirt or grease near {0}, wipe both faces dry, bolt it on crosswise.",
              "Quitarlo, buscar suciedad o grasa cerca de {0}, secar ambas caras, atornillar en cruz."};
    case Fault::seat_out_of_square:
      return {"Out with the seat, look for a pinched ring or dirt in its pocket near {0}.",
              "Sacar el asiento, buscar una junta pellizcada o suciedad en su alojamiento cerca de {0}."};
    case Fault::indicator_loose:
      return {
          "Set the indicator anew (push, release, tap) and sweep that place again before anything is moved.",
          "Volver a poner el comparador (empujar, soltar, golpear) y barrer ese lugar otra vez antes de "
          "mover nada."};
  }
  return {};
}

// Parts that were swept and carry the first that is blamed.
template <class Chain>
std::vector<typename Chain::Part> good_parts(const TrueQuestion<Chain>& q, const TrueFinding<Chain>& f) {
  std::set<typename Chain::Part> blamed, good;
  for (const auto& b : f.attribution.best().blames)
    if (b.part) blamed.insert(*b.part);
  for (const auto& s : q.stations)
    if (blamed.empty() || s.part < *blamed.begin()) good.insert(s.part);
  return {good.begin(), good.end()};
}

Text name_of(Rotating::Part part) {
  switch (part) {
    case Rotating::Part::shaft:
      return {"shaft", "eje"};
    case Rotating::Part::sleeve:
      return {"sleeve", "manguito"};
    case Rotating::Part::impeller:
      return {"impeller", "impulsor"};
  }
  return {};
}

Text name_of(Standing::Part part) {
  switch (part) {
    case Standing::Part::motor:
      return {"motor", "motor"};
    case Standing::Part::bracket:
      return {"bracket", "soporte"};
    case Standing::Part::seat:
      return {"seat", "asiento"};
  }
  return {};
}

template <class... Arguments>
std::string filled(const std::string& pattern, Arguments&&... arguments) {
  return fmt::format(fmt::runtime(pattern), std::forward<Arguments>(arguments)...);
}

}  // namespace

const char* word_for(Rotating::Part part) {
  return part == Rotating::Part::shaft ? "shaft" : part == Rotating::Part::sleeve ? "sleeve" : "impeller";
}

const char* word_for(Standing::Part part) {
  return part == Standing::Part::motor ? "motor" : part == Standing::Part::bracket ? "bracket" : "seat";
}

std::string as_sentence(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

std::string TrueWording::length(Length l) const {
  const bool fine = unit_.symbol == "thou" || unit_.symbol == "µm";
  return format_decimals(l, unit_, unit_.symbol == "in" ? 4 : fine ? 1 : 3);
}

std::string TrueWording::lean(Angle tilt) const {
  if (unit_.system == System::inch)
    return filled(say({"{:.1f} thou per inch", "{:.1f} thou por pulgada"}), tilt.value() * 1e3);
  return filled(say({"{:.2f} mm per 100 mm", "{:.2f} mm por 100 mm"}), tilt.value() * 100);
}

std::string TrueWording::place(FromKeyway at) const {
  return filled(say({"{}° from the keyway", "{}° desde el chavetero"}),
                std::lround(degrees_of(at.angle)) % 360);
}

std::string TrueWording::place(ClockPosition at) const {
  const long halves = std::lround(degrees_of(at.angle) / 15) % 24;
  const long hour = halves / 2 == 0 ? 12 : halves / 2;
  if (halves % 2 != 0) return filled(say({"{}:30", "las {}:30"}), hour);
  return filled(say({"{} o'clock", "las {}"}), hour);
}

std::string TrueWording::station(const std::string& id) const {
  const auto found = titles_.find(id);
  return found == titles_.end() ? id : say(found->second);
}

std::string TrueWording::name(Rotating::Part part) const {
  return say(name_of(part));
}

std::string TrueWording::name(Standing::Part part) const {
  return say(name_of(part));
}

template <class Chain>
std::string TrueWording::wrong(const Blame<Chain>& b) const {
  const std::string size = b.offset ? length(b.offset->size()) : lean(b.tilt->size());
  const std::string where = b.station.empty() ? "" : " (" + station(b.station) + ")";
  return filled(say(sentence_of(b.fault)), size, place(toward(b))) + where;
}

template <class Chain>
std::string TrueWording::advice(const Blame<Chain>& b) const {
  return filled(say(advice_of(b.fault)), place(opposite(toward(b))));
}

template <class Chain>
std::string TrueWording::wrong(const Hypothesis<Chain>& h) const {
  if (h.blames.empty())
    return say({"nothing is out beyond the ordinary", "nada está fuera más allá de lo corriente"});
  std::string out;
  for (const auto& b : h.blames)
    out += (out.empty() ? "" : say({"; and ", "; y "})) + wrong(b);
  return out;
}

template <class Chain>
std::string TrueWording::within_limits(const TrueFinding<Chain>& f) const {
  const auto& a = f.attribution;
  const std::string kept = say({"Every sweep keeps to its limit", "Cada barrido cumple su límite"});
  if (!a.decided) return kept + ".";
  return fmt::format("{}; {} ({:.1f} %).", kept, wrong(a.best()), 100 * a.probability);
}

template <class Chain>
std::string TrueWording::found(const TrueQuestion<Chain>& q, const TrueFinding<Chain>& f) const {
  const auto& a = f.attribution;
  if (!f.out_of_limits) return within_limits(f);
  std::string out;
  if (!a.decided) {
    out = say({"the readings do not decide: ", "las lecturas no deciden: "});
    for (std::size_t i = 0; i < std::min(hypotheses_shown, a.hypotheses.size()); ++i)
      out += (i == 0 ? "" : say({", or ", ", o "})) +
             fmt::format("{} ({:.0f} %)", wrong(a.hypotheses[i]), 100 * a.hypotheses[i].probability);
    return as_sentence(out + ".");
  }
  const auto good = good_parts(q, f);
  if (!a.best().blames.empty() && !good.empty()) {
    for (const auto part : good)
      out += (out.empty() ? "" : say({" and ", " y "})) + say({"the ", "el "}) + name(part);
    out += good.size() == 1 ? say({" is good; ", " está bien; "}) : say({" are good; ", " están bien; "});
  }
  return as_sentence(fmt::format("{}{} ({:.1f} %).", out, wrong(a.best()), 100 * a.probability));
}

template <class Chain>
std::string TrueWording::look_alikes(const TrueFinding<Chain>& f) const {
  const auto& a = f.attribution;
  if (!f.out_of_limits) return "";
  std::string list;
  // Two errors that only share out what one explains are not told.
  for (const auto& h : a.hypotheses)
    if (h.looks_like_the_best && &h != &a.best() && h.blames.size() <= a.best().blames.size())
      list += (list.empty() ? "" : say({"; or ", "; o "})) + wrong(h);
  if (list.empty()) return "";
  return filled(
      say({"At these places it reads just the same when {}.", "En estos lugares se lee lo mismo si {}."}),
      list);
}

template <class Chain>
std::string TrueWording::next(const TrueFinding<Chain>& f) const {
  if (f.attribution.alone || !f.out_of_limits) return "";
  if (!f.next)
    return say({"No single sweep would tell these apart: part by part.",
                "Ningún barrido solo los distinguiría: pieza por pieza."});
  const double odds = std::exp(std::min(f.next->chosen.nats, 20.0));
  const std::string strength = odds >= odds_shown_max
                                   ? say({"odds of more than 1000 to 1", "más de 1000 contra 1"})
                                   : filled(say({"odds of about {:.0f} to 1", "unos {:.0f} contra 1"}), odds);
  return filled(say({"Sweep next: {}. It is to be expected to tell the two likeliest apart at {}.",
                     "Barrer ahora: {}. Es de esperar que distinga las dos más probables con {}."}),
                candidate(f.candidate_words[f.next->chosen.candidate]), strength);
}

std::string TrueWording::candidate(const CandidateWords& words) const {
  return filled(say(words.what), words.again.empty() ? "" : station(words.again));
}

std::string TrueWording::doing(const true_running::Remedy<Rotating>& r,
                               const TrueQuestion<Rotating>& q) const {
  if (r.work == 0) return say({"leave it as it is", "dejarlo como está"});
  std::string out = r.setting.sleeve_turned
                        ? say({"draw impeller and sleeve, clean, ", "sacar impulsor y manguito, limpiar, "})
                        : say({"draw the impeller, clean, ", "sacar el impulsor, limpiar, "});
  if (r.setting.sleeve_turned) {
    const long turned = std::lround(degrees_of(*r.setting.sleeve_turned)) % 360;
    out +=
        turned == 0
            ? say({"fit the sleeve home as it was, ", "meter el manguito a fondo como estaba, "})
            : filled(
                  say({"fit the sleeve home turned by {0}° (its old 0° comes to {0}° from the keyway), ",
                       "meter el manguito a fondo girado {0}° (su antiguo 0° queda a {0}° del chavetero), "}),
                  turned);
  }
  const int step = r.setting.impeller_keyway.value_or(0);
  if (step == 0) return out + say({"fit the impeller as it was", "montar el impulsor como estaba"});
  return out + filled(say({"fit the impeller {} of its {} keyways on",
                           "montar el impulsor {} de sus {} chaveteros más allá"}),
                      step, q.moves.impeller_keyways);
}

std::string TrueWording::doing(const true_running::Remedy<Standing>& r,
                               const TrueQuestion<Standing>& /*question*/) const {
  std::string left = say({"leave it as it is", "dejarlo como está"});
  if (r.work == 0) return left;
  const auto& s = r.setting;
  std::string out;
  const auto add = [&](const std::string& part) { out += (out.empty() ? "" : ", ") + part; };
  if (s.holes && *s.holes == 0)
    add(say({"take the bracket off, wipe both faces, bolt it on as it was",
             "quitar el soporte, limpiar ambas caras, atornillarlo como estaba"}));
  else if (s.holes)
    add(filled(say({"take the bracket off, wipe both faces, bolt it on {} hole(s) on",
                    "quitar el soporte, limpiar ambas caras, atornillarlo {} agujero(s) más allá"}),
               *s.holes));
  if (s.shim)
    add(filled(say({"put {} of shim under it at {}", "poner un calce de {} debajo en {}"}),
               length(s.shim->thickness), place(s.shim->bolt)));
  if (s.shift.size().value() > 0)
    add(filled(say({"move the bracket {} toward {}", "mover el soporte {} hacia {}"}), length(s.shift.size()),
               place(s.shift.direction())));
  return out.empty() ? left : out;
}

std::string TrueWording::outcome_word(bool surprise) const {
  return surprise ? say({"a surprise: outside the 95 % region", "una sorpresa: fuera de la región del 95 %"})
                  : say({"as foretold", "como se previó"});
}

std::string TrueWording::filled_outcome(const std::string& foretold, const std::string& doubt,
                                        const std::string& read, bool surprise) const {
  return fmt::format(fmt::runtime(say({"foretold {} ± {}, read {}: {}", "previsto {} ± {}, leído {}: {}"})),
                     foretold, doubt, read, outcome_word(surprise));
}

template std::string TrueWording::wrong<Rotating>(const Blame<Rotating>&) const;
template std::string TrueWording::wrong<Standing>(const Blame<Standing>&) const;
template std::string TrueWording::wrong<Rotating>(const Hypothesis<Rotating>&) const;
template std::string TrueWording::wrong<Standing>(const Hypothesis<Standing>&) const;
template std::string TrueWording::advice<Rotating>(const Blame<Rotating>&) const;
template std::string TrueWording::advice<Standing>(const Blame<Standing>&) const;
template std::string TrueWording::found<Rotating>(const TrueQuestion<Rotating>&,
                                                  const TrueFinding<Rotating>&) const;
template std::string TrueWording::found<Standing>(const TrueQuestion<Standing>&,
                                                  const TrueFinding<Standing>&) const;
template std::string TrueWording::look_alikes<Rotating>(const TrueFinding<Rotating>&) const;
template std::string TrueWording::look_alikes<Standing>(const TrueFinding<Standing>&) const;
template std::string TrueWording::next<Rotating>(const TrueFinding<Rotating>&) const;
template std::string TrueWording::next<Standing>(const TrueFinding<Standing>&) const;

}  // namespace pumpwright::job
