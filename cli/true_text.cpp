// What `pumpwright true` tells people: for each chain which part is out and which way, what to sweep next,
// and the least work that puts it right.
#include <algorithm>

#include <fmt/format.h>

#include "cli/display_text.h"
#include "cli/input_file.h"
#include "cli/true_report.h"
#include "cli/verdict_word.h"

namespace pumpwright {
namespace {

using job::TrueFinding;
using job::TrueQuestion;
using job::TrueWording;
using true_running::Rotating;
using true_running::Standing;

constexpr std::size_t text_width = 110;

template <class Chain>
class ChainText {
 public:
  ChainText(const TrueQuestion<Chain>& q, const TrueFinding<Chain>& f, const TrueWording& words, bool colour)
      : q_(q), f_(f), words_(words), colour_(colour) {}

  std::string text() const {
    return verdict() + paragraph(words_.look_alikes(f_)) + paragraph(words_.next(f_)) + "\n" + stations() +
           remedies() + after();
  }

 private:
  const true_running::Attribution<Chain>& a() const { return f_.attribution; }

  std::string say(const job::Text& text) const { return words_.say(text); }

  std::string verdict() const {
    const std::string word = f_.out_of_limits ? say({"FAIL", "NO PASA"}) : say({"PASS", "PASA"});
    std::string text =
        wrapped(verdict_word(f_.out_of_limits ? "fail" : "pass", word, colour_) + "  " + words_.found(q_, f_),
                text_width, 0);
    if (!f_.out_of_limits || !a().decided) return text;
    for (const auto& b : a().best().blames)
      text += wrapped(words_.advice(b), text_width, 2);
    return text;
  }

  std::string paragraph(const std::string& text) const {
    return text.empty() ? "" : wrapped(text, text_width, 2);
  }

  std::string share_of(const std::string& station) const {
    std::string out;
    for (const auto& c : a().contributions)
      if (c.station == station)
        out += fmt::format("{}{} {}", out.empty() ? "" : ", ", words_.name(c.part),
                           words_.length(c.vector.size() * 2.0));
    return out;
  }

  std::string stations() const {
    TextTable table({Align::left, Align::right, Align::left, Align::right, Align::left});
    table.add({say({"sweep", "barrido"}), say({"TIR once a turn", "TIR una vez por vuelta"}),
               say({"high spot", "punto alto"}), say({"limit", "límite"}), say({"of which", "de lo cual"})});
    for (const auto& s : q_.stations) {
      const bool pointed =
          true_running::squared_distance(s.vector.si(), s.covariance) > true_running::region_95;
      table.add({one_line(words_.station(s.id)), words_.length(s.vector.size() * 2.0),
                 pointed ? words_.place(s.vector.direction()) : say({"none", "ninguno"}),
                 s.limit ? words_.length(s.limit->value) : "", share_of(s.id)});
    }
    return table.text(2);
  }

  std::string foretold(const true_running::Remedy<Chain>& r) const {
    std::string out;
    for (const auto& p : r.predicted)
      if (p.limit)
        out +=
            fmt::format(fmt::runtime(say({"{}{} {} ± {} of {}", "{}{} {} ± {} de {}"})),
                        out.empty() ? "" : ", ", one_line(words_.station(p.station)),
                        words_.length(p.tir.value), words_.length(p.u * 2.0), words_.length(p.limit->value));
    return out;
  }

  std::string remedies() const {
    if (!f_.out_of_limits) return "";
    std::string text =
        "\n  " +
        say({"Least work first; what it will then read:", "Lo menos trabajoso primero; lo que se leerá:"}) +
        "\n";
    for (std::size_t i = 0; i < f_.remedies.size(); ++i) {
      const auto& r = f_.remedies[i];
      if (r.work == 0) continue;
      const char* mark = i != f_.recommended ? "  " : r.worst <= 1 ? "→ " : "· ";
      text += wrapped(fmt::format("{}{}: {}", mark, job::as_sentence(words_.doing(r, q_)), foretold(r)),
                      text_width, 4);
    }
    if (f_.remedies[f_.recommended].worst > 1)
      text += "    " +
              say({"None of these brings every check to its limit.",
                   "Nada de esto lleva cada comprobación a su límite."}) +
              "\n";
    return text + "  " +
           say({"Locked out before a hand turns the shaft; local rules go before this.",
                "Bloqueado antes de que una mano gire el eje; las normas locales van primero."}) +
           "\n";
  }

  std::string after() const {
    if (f_.after.empty()) return "";
    TextTable table({Align::left, Align::right, Align::right, Align::left});
    table.add({say({"afterwards", "después"}), say({"foretold", "previsto"}), say({"read", "leído"}), ""});
    for (const auto& s : f_.after)
      table.add(
          {one_line(words_.station(s.predicted.station)),
           fmt::format("{} ± {}", words_.length(s.predicted.tir.value), words_.length(s.predicted.u * 2.0)),
           words_.length(s.actual_tir.value), words_.outcome_word(s.surprise)});
    std::string text = "\n" + table.text(2);
    const bool any = std::any_of(f_.after.begin(), f_.after.end(), [](const auto& s) { return s.surprise; });
    if (any)
      text +=
          wrapped(say({"What was believed to be wrong is not the whole of it: judge these sweeps anew before "
                       "going on.",
                       "Lo que se creía mal no es todo: juzgar de nuevo estos barridos antes de seguir."}),
                  text_width, 2);
    return text;
  }

  const TrueQuestion<Chain>& q_;
  const TrueFinding<Chain>& f_;
  const TrueWording& words_;
  bool colour_;
};

std::string tapping_text(const true_running::Tapping& t, const TrueWording& words) {
  if (t.left.value() < 0)
    return fmt::format(fmt::runtime(words.say({"  Tapped {} too far: back by that much.\n",
                                               "  Corrido {} de más: volver eso.\n"})),
                       words.length(metres(-t.left.value())));
  return fmt::format(
      fmt::runtime(words.say(
          {"  It has moved {}; {} to go. Stop when the surface under the dial has moved {}.\n",
           "  Se ha movido {}; faltan {}. Parar cuando la superficie bajo el reloj se haya movido {}.\n"})),
      words.length(t.moved), words.length(t.left), words.length(t.stop_at));
}

template <class Chain>
bool well(const std::optional<TrueFinding<Chain>>& f) {
  return !f || (!f->out_of_limits &&
                std::none_of(f->after.begin(), f->after.end(), [](const auto& s) { return s.surprise; }));
}

}  // namespace

bool TrueReport::all_well() const {
  return (rotating || standing) && well(rotating) && well(standing);
}

job::TrueWording TrueReport::wording() const {
  return {unit != nullptr ? *unit : unit_with_symbol("mm", Kind::length), language, titles};
}

std::string true_text(const TrueReport& r, bool colour) {
  const TrueWording words = r.wording();
  std::string text = fmt::format("{}: {}\n", shown_name(r.file), one_line(r.name));
  const auto title = [&](const job::Text& line) { text += "\n" + words.say(line) + "\n"; };
  if (r.rotating) {
    title({"What turns, in degrees from the keyway", "Lo que gira, en grados desde el chavetero"});
    text += ChainText<Rotating>(r.rotating_question, *r.rotating, words, colour).text();
  }
  if (r.standing) {
    title({"What stands, in clock positions seen from the impeller end",
           "Lo fijo, en posiciones de reloj vistas desde el lado del impulsor"});
    text += ChainText<Standing>(r.standing_question, *r.standing, words, colour).text();
  }
  if (r.tapping) text += tapping_text(*r.tapping, words);
  if (!r.rotating && !r.standing)
    title({"Nothing to go by: no sweep with a direction in it.",
           "Nada en que basarse: ningún barrido con dirección."});
  for (const auto& left : r.left_out)
    text += wrapped(
        words.say({"Left out: ", "Sin contar: "}) + words.say(left.what) + ": " + words.say(left.why) + ".",
        text_width);
  for (const auto& assumed : r.assumed)
    text += wrapped(words.say(assumed), text_width);
  return text;
}

}  // namespace pumpwright
