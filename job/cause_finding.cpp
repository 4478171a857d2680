#include "job/cause_finding.h"

#include <cmath>

#include "job/bench_sheet.h"
#include "job/decode.h"
#include "job/json_quantity.h"

namespace pumpwright::job {
namespace {

using reliability::Seen;

// Points of Shore A between a found elastomer and a new one: from how many on it has hardened or softened,
// and up to how many it has not. In between they say neither. Common practice with no source.
constexpr double shore_changed = 10;
constexpr double shore_alike = 5;

// Two widths, each read to a graduation: uniform over it, twice the standard uncertainty of the difference.
Length doubt_of(Length graduation) {
  return graduation * (2 * std::sqrt(2.0 / 12));
}

class Gathering {
 public:
  explicit Gathering(const CauseTables& tables) : tables_(tables) {
    out_.evidence.assign(tables.findings().size(), Seen::not_looked);
    out_.said_by.assign(tables.findings().size(), SaidBy::nobody);
  }

  void take(const StripDownSheet& sheet) {
    for (const auto& thing : sheet.found)
      say(thing.finding, Seen::present, SaidBy::hand);
    for (const auto& thing : sheet.not_found)
      say(thing.finding, Seen::absent, SaidBy::hand);
    if (sheet.track) take(*sheet.track);
    if (sheet.hardness) take(*sheet.hardness);
  }

  void take(const Judgement& judgement) {
    for (std::size_t i = 0; i < tables_.findings().size(); ++i) {
      const std::string& check = tables_.findings()[i].check;
      if (check.empty()) continue;
      const CheckFinding* found = judgement.find(check);
      if (found == nullptr) continue;
      if (found->verdict == Verdict::fail) say(i, Seen::present, SaidBy::check);
      if (found->verdict == Verdict::pass) say(i, Seen::absent, SaidBy::check);
    }
  }

  CauseFinding done() {
    out_.diagnosis = reliability::diagnose(tables_.inference(), out_.evidence);
    return std::move(out_);
  }

 private:
  void say(std::size_t finding, Seen seen, SaidBy by) {
    if (out_.said_by[finding] != SaidBy::nobody) return;
    out_.evidence[finding] = seen;
    out_.said_by[finding] = by;
  }

  void say(const std::string& word, Seen seen, SaidBy by) {
    if (const auto finding = tables_.finding(word))
      say(*finding, seen, by);
    else
      out_.unknown.push_back(word);
  }

  // Wider or narrower by more than the doubt, or neither.
  void take(const TrackMeasured& track) {
    const TrackMoved moved{metres(track.track.si - track.face.si), doubt_of(track.read_to)};
    const bool wide = moved.excess > moved.expanded, narrow = moved.excess < -moved.expanded;
    say("track-wide", wide ? Seen::present : Seen::absent, SaidBy::width);
    say("track-narrow", narrow ? Seen::present : Seen::absent, SaidBy::width);
    out_.track = moved;
  }

  // Two readings of one durometer on cut pieces differ by some points for nothing.
  void take(const HardnessMeasured& hardness) {
    const double harder = hardness.found.si - hardness.fresh.si;
    if (harder >= shore_changed) say("elastomer-hard", Seen::present, SaidBy::hardness);
    if (harder <= -shore_changed) say("elastomer-swollen", Seen::present, SaidBy::hardness);
    if (harder <= shore_alike) say("elastomer-hard", Seen::absent, SaidBy::hardness);
    if (harder >= -shore_alike) say("elastomer-swollen", Seen::absent, SaidBy::hardness);
  }

  const CauseTables& tables_;
  CauseFinding out_;
};

}  // namespace

CauseFinding cause_of(const CauseTables& tables, const StripDownSheet& sheet) {
  Gathering gathering(tables);
  gathering.take(sheet);
  return gathering.done();
}

CauseFinding cause_of(const CauseTables& tables, const StripDownSheet& sheet, const Judgement& judgement) {
  Gathering gathering(tables);
  gathering.take(sheet);
  gathering.take(judgement);
  return gathering.done();
}

std::optional<StripDownSheet> strip_down_of(const Snapshot& snapshot, const JobState& state) {
  const auto planned = snapshot.make_up.sheets.find(SheetOf::strip_down);
  if (planned == snapshot.make_up.sheets.end()) return std::nullopt;
  for (const auto& step : snapshot.plan.steps)
    for (const auto& check : step.checks) {
      if (check.sheet != SheetOf::strip_down) continue;
      const auto standing = state.standing.find(check.id);
      if (standing == state.standing.end() || standing->second.empty()) return std::nullopt;
      const Reading& last = standing->second.back();
      return placed("reading " + last.id + "/sheet", [&] {
        return decode_strip_down(
            whole_sheet(SheetOf::strip_down, planned->second, std::get<SheetReading>(last.body).json));
      });
    }
  return std::nullopt;
}

std::optional<CauseFinding> cause_of(const CauseTables& tables, const Snapshot& snapshot,
                                     const JobState& state, const Judgement& judgement) {
  const auto sheet = strip_down_of(snapshot, state);
  if (!sheet) return std::nullopt;
  return cause_of(tables, *sheet, judgement);
}

}  // namespace pumpwright::job
