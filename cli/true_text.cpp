// What `pumpwright true` tells people: for each chain which part is out and which way, what to sweep next,
// and the least work that puts it right.
#include <algorithm>
#include <cmath>
#include <set>

#include <fmt/format.h>

#include "cli/display_text.h"
#include "cli/input_file.h"
#include "cli/true_report.h"
#include "cli/true_words.h"
#include "cli/verdict_word.h"

namespace pumpwright {
namespace {

using job::TrueFinding;
using job::TrueQuestion;
using true_running::Rotating;
using true_running::Standing;

constexpr std::size_t text_width = 110;
constexpr double odds_shown_max = 1000;

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

std::string doing_of(const TrueWords& words, const true_running::Remedy<Rotating>& r,
                     const TrueQuestion<Rotating>& q) {
  return words.doing(r, q.moves);
}
std::string doing_of(const TrueWords& words, const true_running::Remedy<Standing>& r,
                     const TrueQuestion<Standing>&) {
  return words.doing(r);
}

template <class Chain>
class ChainText {
 public:
  ChainText(const TrueQuestion<Chain>& q, const TrueFinding<Chain>& f, const TrueWords& words, bool colour)
      : q_(q), f_(f), words_(words), colour_(colour) {}

  std::string text() const {
    return verdict() + look_alikes() + next() + "\n" + stations() + remedies() + after();
  }

 private:
  const true_running::Attribution<Chain>& a() const { return f_.attribution; }

  // Parts that were swept and stand before the first that is blamed.
  std::string good_parts() const {
    std::set<typename Chain::Part> blamed, swept;
    for (const auto& b : a().best().blames)
      if (b.part) blamed.insert(*b.part);
    for (const auto& s : q_.stations)
      swept.insert(s.part);
    std::string out;
    int count = 0;
    for (const auto part : swept)
      if (blamed.empty() || part < *blamed.begin()) {
        out += fmt::format("{}the {}", count == 0 ? "" : " and ", name_of(part));
        ++count;
      }
    return count == 0 ? "" : out + (count == 1 ? " is good; " : " are good; ");
  }

  std::string verdict() const {
    const auto& best = a().best();
    const char* code = f_.out_of_limits ? "fail" : a().decided ? "pass" : "unproven";
    std::string said;
    if (!a().decided) {
      said = "the readings do not decide: ";
      const std::size_t shown = std::min<std::size_t>(3, a().hypotheses.size());
      for (std::size_t i = 0; i < shown; ++i)
        said += fmt::format("{}{} ({:.0f} %)", i == 0 ? "" : ", or ", words_.wrong(a().hypotheses[i]),
                            100 * a().hypotheses[i].probability);
    } else if (best.blames.empty()) {
      said = fmt::format("{} ({:.1f} %)", words_.wrong(best), 100 * a().probability);
    } else {
      said = fmt::format("{}{} ({:.1f} %)", good_parts(), words_.wrong(best), 100 * a().probability);
    }
    std::string text = verdict_word(code, colour_) + "  " + capital(said) + ".\n";
    text = wrapped(text.substr(0, text.size() - 1), text_width, 0);
    if (!a().decided) return text;
    if (!best.blames.empty() && !f_.out_of_limits)
      return text + "  Every sweep keeps to its limit all the same.\n";
    for (const auto& b : best.blames)
      text += wrapped(words_.advice(b), text_width, 2);
    return text;
  }

  std::string look_alikes() const {
    std::string list;
    for (const auto& h : a().hypotheses)
      if (h.looks_like_the_best && h.blames.size() == a().best().blames.size() && &h != &a().best())
        list += (list.empty() ? "" : "; or ") + words_.wrong(h);
    if (list.empty()) return "";
    return wrapped("At these places it reads just the same when " + list + ".", text_width, 2);
  }

  std::string next() const {
    if (!f_.next)
      return a().alone ? "" : wrapped("No single sweep would tell these apart: part by part.", text_width, 2);
    const bool settled = a().alone;
    if (settled) return "";
    const double odds = std::exp(std::min(f_.next->chosen.nats, 20.0));
    const std::string strength = odds >= odds_shown_max ? "odds of more than 1000 to 1"
                                                        : fmt::format("odds of about {:.0f} to 1", odds);
    return wrapped(fmt::format("Sweep next: {}. It is to be expected to tell the two likeliest apart at {}.",
                               f_.candidate_words[f_.next->chosen.candidate], strength),
                   text_width, 2);
  }

  std::string share_of(const std::string& station) const {
    std::string out;
    for (const auto& c : a().contributions)
      if (c.station == station)
        out += fmt::format("{}{} {}", out.empty() ? "" : ", ", name_of(c.part),
                           words_.length(c.vector.size() * 2.0));
    return out;
  }

  std::string stations() const {
    TextTable table({Align::left, Align::right, Align::left, Align::right, Align::left});
    table.add({"sweep", "TIR once a turn", "high spot", "limit", "of which"});
    for (const auto& s : q_.stations) {
      const bool pointed =
          true_running::squared_distance(s.vector.si(), s.covariance) > true_running::region_95;
      table.add({one_line(s.id), words_.length(s.vector.size() * 2.0),
                 pointed ? TrueWords::place(s.vector.direction()) : "none",
                 s.limit ? words_.length(s.limit->value) : "", share_of(s.id)});
    }
    return table.text(2);
  }

  std::string foretold(const true_running::Remedy<Chain>& r) const {
    std::string out;
    for (const auto& p : r.predicted)
      if (p.limit)
        out +=
            fmt::format("{}{} {} ± {} of {}", out.empty() ? "" : ", ", one_line(p.station),
                        words_.length(p.tir.value), words_.length(p.u * 2.0), words_.length(p.limit->value));
    return out;
  }

  std::string remedies() const {
    if (!f_.out_of_limits) return "";
    std::string text = "\n  Least work first; what it will then read:\n";
    for (std::size_t i = 0; i < f_.remedies.size(); ++i) {
      const auto& r = f_.remedies[i];
      if (r.work == 0) continue;
      const char* mark = i != f_.recommended ? "  " : r.worst <= 1 ? "→ " : "· ";
      text += wrapped(fmt::format("{}{}: {}", mark, capital(doing_of(words_, r, q_)), foretold(r)),
                      text_width, 4);
    }
    if (f_.remedies[f_.recommended].worst > 1) text += "    None of these brings every check to its limit.\n";
    return text + "  Locked out before a hand turns the shaft; local rules go before this.\n";
  }

  std::string after() const {
    if (f_.after.empty()) return "";
    TextTable table({Align::left, Align::right, Align::right, Align::left});
    table.add({"afterwards", "foretold", "read", ""});
    for (const auto& s : f_.after)
      table.add(
          {one_line(s.predicted.station),
           fmt::format("{} ± {}", words_.length(s.predicted.tir.value), words_.length(s.predicted.u * 2.0)),
           words_.length(s.actual_tir.value),
           s.surprise ? "a surprise: outside the 95 % region" : "as foretold"});
    std::string text = "\n" + table.text(2);
    const bool any = std::any_of(f_.after.begin(), f_.after.end(), [](const auto& s) { return s.surprise; });
    if (any)
      text += wrapped(
          "What was believed to be wrong is not the whole of it: judge these sweeps anew before going on.",
          text_width, 2);
    return text;
  }

  const TrueQuestion<Chain>& q_;
  const TrueFinding<Chain>& f_;
  const TrueWords& words_;
  bool colour_;
};

std::string tapping_text(const true_running::Tapping& t, const TrueWords& words) {
  if (t.left.value() < 0)
    return fmt::format("  Tapped {} too far: back by that much.\n", words.length(metres(-t.left.value())));
  return fmt::format("  It has moved {}; {} to go. Stop when the surface under the dial has moved {}.\n",
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

std::string true_text(const TrueReport& r, bool colour) {
  const TrueWords words(r.unit != nullptr ? *r.unit : unit_with_symbol("mm", Kind::length));
  std::string text = fmt::format("{}: {}\n", shown_name(r.file), one_line(r.name));
  if (r.rotating)
    text += "\nWhat turns, in degrees from the keyway\n" +
            ChainText<Rotating>(r.rotating_question, *r.rotating, words, colour).text();
  if (r.standing)
    text += "\nWhat stands, in clock positions seen from the impeller end\n" +
            ChainText<Standing>(r.standing_question, *r.standing, words, colour).text();
  if (r.tapping) text += tapping_text(*r.tapping, words);
  if (!r.rotating && !r.standing) text += "\nNothing to go by: no sweep with a direction in it.\n";
  for (const auto& left : r.left_out)
    text += wrapped(fmt::format("Left out: {}: {}.", left.check, left.why), text_width);
  for (const auto& assumed : r.assumed)
    text += wrapped(assumed, text_width);
  return text;
}

}  // namespace pumpwright
