#include "report/record_text.h"

#include <algorithm>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "report/amount_text.h"
#include "report/labels.h"

namespace pumpwright::report {
namespace {

constexpr std::size_t listed_points_max = 48;
constexpr std::size_t listed_values_max = 8;

bool starts_character(char c) {
  return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
}

std::string joined(const std::vector<std::string>& parts) {
  std::string line;
  for (const std::string& part : parts)
    line += (line.empty() ? "" : "; ") + part;
  return line;
}

std::string written_values(const job::ValueReading& reading) {
  std::vector<std::string> parts;
  for (const Written& value : reading.values)
    parts.push_back(written_text(value));
  if (parts.size() <= listed_values_max) return joined(parts);
  return fmt::format("{} × {} … {}", parts.size(), parts.front(), parts.back());
}

std::string written_sizes(const job::SizeReading& reading, job::Language language) {
  std::vector<std::string> parts;
  for (const job::SizePoint& p : reading.points)
    parts.push_back(fmt::format("{}{}{:g}°: {}", p.section, p.section.empty() ? "" : " ", p.clock_deg,
                                written_text(p.diameter)));
  if (parts.size() <= listed_values_max) return joined(parts);
  const auto by_si = [](const job::SizePoint& a, const job::SizePoint& b) {
    return a.diameter.si < b.diameter.si;
  };
  const auto [least, most] = std::minmax_element(reading.points.begin(), reading.points.end(), by_si);
  return fmt::format("{}, {} … {}",
                     fill(text_of(Label::diameters, language), std::to_string(reading.points.size())),
                     written_text(least->diameter), written_text(most->diameter));
}

std::string written_sweep(const job::SweepReading& reading, job::Language language) {
  std::string count = fill(text_of(Label::points_read, language), std::to_string(reading.points.size()));
  if (reading.points.empty()) return count;
  const auto by_si = [](const job::SweepPoint& a, const job::SweepPoint& b) {
    return a.reading.si < b.reading.si;
  };
  const auto [least, most] = std::minmax_element(reading.points.begin(), reading.points.end(), by_si);
  return fmt::format("{}, {} … {}", count, written_text(least->reading), written_text(most->reading));
}

// The values of a bench test's sheet, in the order of its keys; yes and no stand in the record's JSON.
std::string written_sheet(const job::SheetReading& sheet) {
  std::vector<std::string> parts;
  const nlohmann::json values = nlohmann::json::parse(sheet.json).flatten();
  for (const auto& value : values)
    if (value.is_string()) parts.push_back(value.get<std::string>());
  return joined(parts);
}

}  // namespace

std::string fill(const std::string& text, const std::string& value) {
  std::string filled = text;
  if (const auto at = filled.find("{}"); at != std::string::npos) filled.replace(at, 2, value);
  return filled;
}

std::string shortened(const std::string& text, std::size_t characters_max, job::Language language) {
  std::size_t count = 0, cut = text.size();
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (!starts_character(text[i])) continue;
    if (count == characters_max) cut = i;
    ++count;
  }
  if (count <= characters_max) return text;
  return text.substr(0, cut) +
         fill(text_of(Label::cut_short, language), std::to_string(count - characters_max));
}

std::string moment_text(job::UtcTime time) {
  const std::string iso = job::format_utc_time(time);
  return iso.substr(0, 10) + " " + iso.substr(11, 5);
}

std::string reading_as_written(const job::Reading& reading, job::Language language) {
  if (const auto* seen = std::get_if<job::Confirmation>(&reading.body)) {
    const std::string word = text_of(seen->done ? Label::confirmed_yes : Label::confirmed_no, language);
    return seen->note.empty() ? word : word + ": " + seen->note;
  }
  if (const auto* value = std::get_if<job::ValueReading>(&reading.body)) return written_values(*value);
  if (const auto* sheet = std::get_if<job::SheetReading>(&reading.body)) return written_sheet(*sheet);
  if (const auto* size = std::get_if<job::SizeReading>(&reading.body)) return written_sizes(*size, language);
  return written_sweep(std::get<job::SweepReading>(reading.body), language);
}

std::string sweep_as_written(const job::SweepReading& sweep, job::Language language) {
  if (sweep.points.size() > listed_points_max)
    return fill(text_of(Label::too_many_to_list, language), std::to_string(sweep.points.size()));
  std::vector<std::string> parts;
  for (std::size_t i = 0; i < sweep.points.size(); ++i) {
    std::string part = fmt::format("{:g}°: {}", sweep.points[i].angle_deg, sweep.points[i].reading.text);
    if (i < sweep.opposite.size()) part += " / " + sweep.opposite[i].text;
    parts.push_back(part);
  }
  return joined(parts);
}

std::string reading_circumstances(const job::Reading& reading) {
  std::string line = reading.instrument.empty() ? "" : reading.instrument + " · ";
  return line + reading.actor + " · " + moment_text(reading.time);
}

const job::Reading* find_reading(const job::JobState& state, const std::string& id) {
  for (const auto& [check, readings] : state.standing)
    for (const job::Reading& reading : readings)
      if (reading.id == id) return &reading;
  return nullptr;
}

job::UtcTime last_event(const job::JobState& state, job::UtcTime opened) {
  job::UtcTime last = opened;
  for (const auto& [check, readings] : state.standing)
    for (const job::Reading& reading : readings)
      last = std::max(last, reading.time);
  for (const job::Reading& reading : state.replaced)
    last = std::max(last, reading.time);
  for (const auto& [step, done] : state.steps_done)
    last = std::max(last, done.time);
  for (const auto& [step, released] : state.holds_released)
    last = std::max(last, released.time);
  for (const auto& [check, accepted] : state.deviations)
    last = std::max(last, accepted.time);
  return last;
}

}  // namespace pumpwright::report
