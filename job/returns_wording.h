// What a list of returns shows, in words: the command prints them, the page shows them. Every sentence says
// how sure it is; "cannot tell" is one of them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "job/returns_finding.h"
#include "job/text.h"

namespace pumpwright::job {

// "12 %"; one decimal below one per cent.
std::string percent_text(double part);

// How often chance alone gives as much: "chance alone would do this about 30 times in 1000 such lists".
Text chance_text(double p);

// Of one question and its finding; both must outlive it.
class ReturnsWording {
 public:
  ReturnsWording(const ReturnsQuestion& question, const ReturnsFinding& finding)
      : q_(question), f_(finding) {}

  // Rounded, as computed figures deserve; "no end" of an infinite one.
  Text time(Time t) const;
  // As it stood in the list.
  std::string seen(Time t) const;
  Text sure() const;  // "95 % sure"
  // "(95 % sure: 900 h to 2400 h)"
  Text between(Time low, Time high) const;
  Text between(double low, double high) const;
  bool is_proven(double p) const { return p < 1 - q_.confidence; }
  // Round times that cut the span seen into five to ten.
  std::vector<Time> round_times() const;

  Text rate() const;                     // how often, all pumps together
  std::optional<Text> shares() const;    // of all that went out; nothing when none was replaced
  std::optional<Text> shape() const;     // early, steady or late
  std::optional<Text> drawn_on() const;  // a figure lies beyond what was seen
  std::optional<Text> groups() const;    // whether they differ
  std::optional<Text> group_curves() const;
  // One return for every how long, of a group.
  Text every(const reliability::ReturnRate& rate) const;
  std::optional<Text> change() const;        // did it help
  std::optional<Text> change_ratio() const;  // the figure behind it
  std::optional<Text> settling() const;      // what would settle it; nothing when it is settled
  static Text what_else_changed();
  std::optional<Text> readings() const;     // all together
  std::optional<Text> few_returns() const;  // for so many readings
  Text reading_goes_with(const reliability::CoxCoefficient& c) const;
  Text reading_at_all_ages(std::size_t reading) const;
  static Text not_a_cause();
  std::optional<Text> trend() const;

 private:
  double in_unit(Time t) const;
  Time from_unit(double value) const;
  Text clock() const;

  const ReturnsQuestion& q_;
  const ReturnsFinding& f_;
};

}  // namespace pumpwright::job
