#include "report/readings_csv.h"

#include <vector>

#include <fmt/format.h>

#include "job/csv_cell.h"
#include "report/record_text.h"

namespace pumpwright::report {
namespace {

std::string number(double value) {
  return fmt::format("{}", value);
}

class Table {
 public:
  explicit Table(const BuildRecordInput& in) : in_(in) {}

  std::string text() {
    line({"job", "serial", "step", "check", "title", "reading", "time", "actor", "instrument", "as_written",
          "value", "unit", "standard_uncertainty", "verdict", "reason"});
    for (const auto& step : in_.snapshot.plan.steps)
      for (const auto& check : step.checks)
        for (const auto& judged : in_.judgement.find(check.id)->readings)
          row(step, check, judged);
    return std::move(text_);
  }

 private:
  void line(const std::vector<std::string>& cells) {
    for (std::size_t i = 0; i < cells.size(); ++i)
      text_ += (i == 0 ? "" : ",") + job::csv_cell(cells[i]);
    text_ += "\r\n";
  }

  void row(const job::Step& step, const job::Check& check, const job::JudgedReading& judged) {
    const job::Reading* taken = find_reading(in_.state, judged.reading_id);
    line({in_.header.number, in_.header.serial, step.id, check.id, check.title.in(in_.language),
          judged.reading_id, taken == nullptr ? "" : job::format_utc_time(taken->time),
          taken == nullptr ? "" : taken->actor, taken == nullptr ? "" : taken->instrument, judged.as_written,
          judged.value ? number(judged.value->si()) : "",
          judged.value ? std::string(si_unit(judged.value->kind()).symbol) : "",
          judged.standard_uncertainty ? number(*judged.standard_uncertainty) : "",
          std::string(job::word_of(judged.verdict)), std::string(job::word_of(judged.reason))});
  }

  const BuildRecordInput& in_;
  std::string text_;
};

}  // namespace

std::string readings_csv(const BuildRecordInput& input) {
  return Table(input).text();
}

}  // namespace pumpwright::report
