#include "engine/metrology/size.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

constexpr std::size_t readings_max_size = 100000;
constexpr double same_section_m = 1e-6;

void validate(std::span<const DiameterReading> readings) {
  if (readings.empty() || readings.size() > readings_max_size) {
    throw BadInput({.field = "diameters",
                    .place = "",
                    .value = fmt::format("{} readings", readings.size()),
                    .expected = fmt::format("1 to {} readings", readings_max_size)});
  }
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const DiameterReading& r = readings[i];
    const bool good = std::isfinite(r.section.value()) && std::isfinite(r.clock.value()) &&
                      std::isfinite(r.diameter.value()) && r.diameter.value() > 0;
    if (good) continue;
    throw BadInput(
        {.field = fmt::format("diameter {}", i + 1),
         .place = "",
         .value = fmt::format("{:.9g} m at section {:.9g} m", r.diameter.value(), r.section.value()),
         .expected = "a diameter above zero, at a finite section and clock position"});
  }
}

SectionSize section_of(std::span<const DiameterReading> readings) {
  SectionSize s;
  s.section = readings.front().section;
  s.count = readings.size();
  s.smallest = s.largest = readings.front().diameter;
  Length above_first = metres(0);  // summed about the first, so that nothing is lost beside a large size
  for (const DiameterReading& r : readings) {
    s.smallest = std::min(s.smallest, r.diameter);
    s.largest = std::max(s.largest, r.diameter);
    above_first += r.diameter - readings.front().diameter;
  }
  s.mean = readings.front().diameter + above_first / static_cast<double>(readings.size());
  s.ovality = s.largest - s.smallest;
  return s;
}

std::vector<SectionSize> sections_of(std::vector<DiameterReading> readings) {
  std::stable_sort(readings.begin(), readings.end(),
                   [](const DiameterReading& a, const DiameterReading& b) { return a.section < b.section; });
  std::vector<SectionSize> sections;
  std::size_t begin = 0;
  for (std::size_t i = 1; i <= readings.size(); ++i) {
    const bool ends =
        i == readings.size() || (readings[i].section - readings[begin].section).value() > same_section_m;
    if (!ends) continue;
    sections.push_back(section_of(std::span(readings).subspan(begin, i - begin)));
    begin = i;
  }
  return sections;
}

void state_uncertainty(SizeResult& size, const Instrument* instrument) {
  if (instrument == nullptr) return;
  size.u = reading_budget(*instrument).standard();
  // The mean of section means weighs a reading of section s by 1/(S n_s).
  double weights = 0;
  const auto count = static_cast<double>(size.sections.size());
  for (const SectionSize& s : size.sections)
    weights += 1 / (static_cast<double>(s.count) * count * count);
  const double scatter_m = reading_scatter(*instrument).value() * std::sqrt(weights);
  const double permissible_m = instrument->mpe ? rectangular(*instrument->mpe).value() : 0;
  size.u_mean = metres(std::hypot(scatter_m, permissible_m));
}

Measured<Length> one_diameter(Length value, const Instrument& instrument) {
  const UncertaintyBudget budget = reading_budget(instrument);
  Measured<Length> measured{.value = value, .u = budget.standard(), .dof = budget.effective_dof()};
  measured.graduation = instrument.graduation;
  measured.u_graduation = budget.contributions.front().u;
  measured.u_scatter = instrument.repeatability.value_or(metres(0));
  measured.in_date = instrument.in_date;
  return measured;
}

}  // namespace

SizeResult summarize_size(std::span<const DiameterReading> readings, const Instrument* instrument) {
  validate(readings);
  SizeResult size;
  size.count = readings.size();
  size.sections = sections_of({readings.begin(), readings.end()});
  const SectionSize& first = size.sections.front();
  size.smallest = first.smallest;
  size.largest = first.largest;
  Length mean_low = first.mean;
  Length mean_high = first.mean;
  Length above_first = metres(0);
  for (const SectionSize& s : size.sections) {
    size.smallest = std::min(size.smallest, s.smallest);
    size.largest = std::max(size.largest, s.largest);
    size.ovality = std::max(size.ovality, s.ovality);
    mean_low = std::min(mean_low, s.mean);
    mean_high = std::max(mean_high, s.mean);
    above_first += s.mean - first.mean;
  }
  size.mean = first.mean + above_first / static_cast<double>(size.sections.size());
  size.taper = size.sections.back().mean - first.mean;
  size.section_spread = mean_high - mean_low;
  state_uncertainty(size, instrument);
  return size;
}

Measured<Length> smallest_measured(const SizeResult& size, const Instrument& instrument) {
  return one_diameter(size.smallest, instrument);
}

Measured<Length> largest_measured(const SizeResult& size, const Instrument& instrument) {
  return one_diameter(size.largest, instrument);
}

}  // namespace pumpwright
