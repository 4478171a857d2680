#include "cli/signal_csv.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/quantity/bad_input.h"
#include "engine/quantity/parse.h"
#include "job/csv_lines.h"

namespace pumpwright {
namespace {

double number_in(const std::vector<std::string>& cells, std::size_t column, const std::string& name,
                 std::size_t line) {
  if (column >= cells.size()) refuse_csv(line, name, "nothing", "a number");
  try {
    return parse_number(cells[column], {.field = name});
  } catch (const BadInput&) {
    refuse_csv(line, name, cells[column], "a number");
  }
}

Frequency rate_of(const std::vector<double>& times) {
  if (times.size() < 2) throw BadInput({"time", "", "fewer than two samples", "two samples or more"});
  const double step = (times.back() - times.front()) / static_cast<double>(times.size() - 1);
  for (std::size_t i = 1; i < times.size(); ++i)
    if (!(std::fabs(times[i] - times[i - 1] - step) <= 0.01 * step))
      throw BadInput({"time", "", fmt::format("{:g} s after {:g} s", times[i], times[i - 1]),
                      fmt::format("even steps of {:g} s", step)});
  return Frequency::from_value(1 / step);
}

}  // namespace

job::RecordedSignal read_signal_csv(std::string_view bytes, const CsvColumns& columns) {
  CsvLines lines(bytes);
  const auto head = lines.next();
  if (!head) throw BadInput({"file", "", "an empty file", "a CSV file with a line of column names"});
  const char separator = csv_separator(*head);
  const auto header = csv_cells(*head, separator, lines.number());
  const std::size_t samples_at = csv_column(header, columns.samples, lines.number());
  const bool timed = !columns.time.empty();
  const std::size_t time_at = timed ? csv_column(header, columns.time, lines.number()) : 0;
  job::RecordedSignal out;
  std::vector<double> times;
  while (const auto line = lines.next()) {
    const auto cells = csv_cells(*line, separator, lines.number());
    out.samples.push_back(number_in(cells, samples_at, columns.samples, lines.number()));
    if (timed) times.push_back(number_in(cells, time_at, columns.time, lines.number()));
  }
  out.rate = timed ? rate_of(times) : columns.rate;
  return out;
}

}  // namespace pumpwright
