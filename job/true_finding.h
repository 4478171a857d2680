// Which part is out and the least work that puts it right: one question for each of the two chains, and the
// answer, for the command line and whoever else asks. Where the stations come from (a job, a file) is no
// matter here.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/assembly/true_next.h"
#include "engine/assembly/true_remedy.h"
#include "job/text.h"

namespace pumpwright::job {

template <class Chain>
struct MovesOf;
template <>
struct MovesOf<true_running::Rotating> {
  using type = true_running::RotatingMoves;
};
template <>
struct MovesOf<true_running::Standing> {
  using type = true_running::StandingMoves;
};

// What was done, and the sweeps taken afterwards.
template <class Chain>
struct TrueAfter {
  typename true_running::SettingOf<Chain>::type setting{};
  std::vector<true_running::Station<Chain>> stations;  // ids of the stations before
};

template <class Chain>
struct TrueQuestion {
  true_running::Geometry<Chain> geometry{};
  typename MovesOf<Chain>::type moves{};
  bool room_known = true;  // standing: else as far as the bracket must go
  std::vector<true_running::Station<Chain>> stations;
  std::optional<Length> face_radius;  // of a face further out that could be swept (shroud, seat)
  std::optional<TrueAfter<Chain>> after;
};

// What to sweep: "{0} again, once the sleeve was drawn …".
struct CandidateWords {
  Text what;
  std::string again;  // id of the station that {0} stands for; empty: a place nobody has swept yet
};

template <class Chain>
struct TrueFinding {
  true_running::Attribution<Chain> attribution;
  std::vector<true_running::Candidate<Chain>> candidates;
  std::vector<CandidateWords> candidate_words;  // in the same order
  std::optional<true_running::NextMeasurement> next;
  std::vector<true_running::Remedy<Chain>> remedies;  // least work first
  std::size_t recommended = 0;
  std::vector<true_running::AfterSweep<Chain>> after;
  bool out_of_limits = false;  // a sweep as read is beyond its limit
};

// Throws BadInput as the engine does; `stations` must not be empty.
TrueFinding<true_running::Rotating> answer(const TrueQuestion<true_running::Rotating>& question);
TrueFinding<true_running::Standing> answer(const TrueQuestion<true_running::Standing>& question);

}  // namespace pumpwright::job
