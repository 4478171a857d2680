// How a true-running answer is said to people, in one language: lengths, leans and directions in the words of
// the bench, and a sentence for each thing that can be wrong, for what to do, and for what to sweep next.
#pragma once

#include <map>
#include <string>

#include "engine/quantity/unit.h"
#include "job/true_finding.h"

namespace pumpwright::job {

class TrueWording {
 public:
  // `unit` and `titles` must outlive it. `titles`: of stations by their ids; an id without one stands for
  // itself.
  TrueWording(const Unit& unit, Language language, const std::map<std::string, Text>& titles)
      : unit_(unit), language_(language), titles_(titles) {}

  std::string length(Length l) const;                       // "9.0 thou"
  std::string lean(Angle tilt) const;                       // "6.0 thou per inch", "0.60 mm per 100 mm"
  std::string place(true_running::FromKeyway at) const;     // "120° from the keyway"
  std::string place(true_running::ClockPosition at) const;  // "10 o'clock", "9:30"
  std::string station(const std::string& id) const;
  std::string name(true_running::Rotating::Part part) const;  // "shaft"
  std::string name(true_running::Standing::Part part) const;

  // What is wrong: "the sleeve is not home: …". No capital, no full stop.
  template <class Chain>
  std::string wrong(const true_running::Blame<Chain>& blame) const;
  template <class Chain>
  std::string wrong(const true_running::Hypothesis<Chain>& hypothesis) const;

  // What was found, in one sentence with its probability; which parts are good comes first. While every sweep
  // keeps to its limit, that.
  template <class Chain>
  std::string found(const TrueQuestion<Chain>& question, const TrueFinding<Chain>& finding) const;
  // What to do about a blamed part: one or two sentences.
  template <class Chain>
  std::string advice(const true_running::Blame<Chain>& blame) const;
  // What else would read the same; empty when nothing would, or every sweep keeps to its limit.
  template <class Chain>
  std::string look_alikes(const TrueFinding<Chain>& finding) const;
  // The one sweep that would tell most; empty when the culprit stands alone already or there is none to look
  // for.
  template <class Chain>
  std::string next(const TrueFinding<Chain>& finding) const;

  // What a sweep that could be taken is: "the sleeve close to its shoulder".
  std::string candidate(const CandidateWords& words) const;

  // What a remedy does. No capital, no full stop.
  std::string doing(const true_running::Remedy<true_running::Rotating>& remedy,
                    const TrueQuestion<true_running::Rotating>& question) const;
  std::string doing(const true_running::Remedy<true_running::Standing>& remedy,
                    const TrueQuestion<true_running::Standing>& question) const;

  // How a remedy came out where it was swept again: "foretold 3.0 ± 0.8 thou, read 3.4 thou: as foretold".
  template <class Chain>
  std::string outcome(const true_running::AfterSweep<Chain>& sweep) const {
    return filled_outcome(length(sweep.predicted.tir.value), length(sweep.predicted.u * 2.0),
                          length(sweep.actual_tir.value), sweep.surprise);
  }
  std::string outcome_word(bool surprise) const;

  std::string say(const Text& text) const { return text.in(language_); }

 private:
  std::string filled_outcome(const std::string& foretold, const std::string& doubt, const std::string& read,
                             bool surprise) const;
  template <class Chain>
  std::string within_limits(const TrueFinding<Chain>& finding) const;

  const Unit& unit_;
  Language language_;
  const std::map<std::string, Text>& titles_;
};

// For files and records, in no language: "shaft".
const char* word_for(true_running::Rotating::Part part);
const char* word_for(true_running::Standing::Part part);

// First letter large.
std::string as_sentence(std::string text);

}  // namespace pumpwright::job
