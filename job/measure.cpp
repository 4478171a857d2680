// Value and size readings, and the instrument behind them.
#include <cmath>

#include <fmt/format.h>

#include "engine/metrology/temperature.h"
#include "engine/quantity/bad_input.h"
#include "engine/quantity/format.h"
#include "job/measurement.h"
#include "job/sheets/sheet_check.h"
#include "job/wording.h"

namespace pumpwright::job {
namespace {

// Standard uncertainty taken for a part temperature read at a bench [K]; common practice, no source.
constexpr double part_temperature_u_k = 1;
// Published expansion coefficients of one material differ by about this share.
constexpr double expansion_u_share = 0.05;

struct Scatter {
  double mean = 0;
  double u_of_mean = 0;  // 0 for a single value
  double dof = std::numeric_limits<double>::infinity();
};

Scatter scatter_of(const std::vector<Written>& values) {
  Scatter s;
  for (const auto& v : values)
    s.mean += v.si;
  const auto n = static_cast<double>(values.size());
  s.mean /= n;
  if (values.size() < 2) return s;
  double squares = 0;
  for (const auto& v : values)
    squares += (v.si - s.mean) * (v.si - s.mean);
  s.dof = n - 1;
  s.u_of_mean = std::sqrt(squares / (n - 1) / n);
  return s;
}

std::string listed(const std::vector<Written>& values) {
  std::string out;
  for (const auto& v : values)
    out += (out.empty() ? "" : ", ") + v.text;
  return out;
}

// Correction of one size to 20 °C, with the uncertainty it adds; nothing when no temperature was written
// down.
std::optional<SizeAtReference> at_20_degrees(const SizeReading& body, Length size, Length u,
                                             const JudgeContext& in) {
  if (!body.part_temperature) return std::nullopt;
  const Expansion alpha = in.snapshot.expansions.at(*body.material);
  return at_reference_temperature(
      {size, u}, Warmth{kelvin(body.part_temperature->si), kelvin_step(part_temperature_u_k), alpha,
                        alpha * expansion_u_share});
}

void want_material(const SizeReading& body, const Reading& reading, const Snapshot& snapshot) {
  if (!body.part_temperature) return;
  if (body.material && snapshot.expansions.count(*body.material) != 0) return;
  throw BadInput(
      {.field = "material",
       .place = "reading " + reading.id,
       .value = body.material.value_or(""),
       .expected =
           "a row of the catalog table materials that has an expansion, since a part temperature is given"});
}

// Sections are named at the bench; the engine wants them in order along the axis.
std::vector<DiameterReading> diameters_of(const SizeReading& body) {
  std::vector<std::string> names;
  std::vector<DiameterReading> out;
  for (const auto& p : body.points) {
    auto at = std::find(names.begin(), names.end(), p.section);
    if (at == names.end()) at = names.insert(names.end(), p.section);
    out.push_back({metres(0.001 * static_cast<double>(at - names.begin())), degrees(p.clock_deg),
                   metres(p.diameter.si)});
  }
  return out;
}

Measurement as_measurement(const pumpwright::Measured<Length>& m, Length corrected, Length u) {
  Measurement out;
  out.value = corrected.value();
  out.u = u.value();
  out.dof = m.dof;
  if (m.graduation) out.graduation = m.graduation->value();
  out.u_graduation = m.u_graduation.value();
  out.u_scatter = m.u_scatter.value();
  out.in_date = m.in_date;
  return out;
}

Measurement size_extreme(const SizeReading& body, const pumpwright::Measured<Length>& m,
                         const JudgeContext& in) {
  const auto corrected = at_20_degrees(body, m.value, m.u, in);
  return corrected ? as_measurement(m, corrected->value, corrected->u) : as_measurement(m, m.value, m.u);
}

// A difference of two diameters (ovality) or of two section means (taper), by one instrument.
Measurement size_difference(Length value, const Instrument& instrument, UtcTime) {
  const UncertaintyBudget budget = difference_budget(instrument);
  Measurement out;
  out.value = std::fabs(value.value());
  out.u = budget.standard().value();
  out.dof = budget.effective_dof();
  out.graduation = instrument.graduation.value();
  out.never_negative = true;
  out.in_date = instrument.in_date;
  return out;
}

std::string size_as_written(const SizeReading& body) {
  const auto by_si = [](const SizePoint& a, const SizePoint& b) { return a.diameter.si < b.diameter.si; };
  const auto [least, most] = std::minmax_element(body.points.begin(), body.points.end(), by_si);
  if (body.points.size() == 1) return least->diameter.text;
  return fmt::format("{} × {} … {}", body.points.size(), least->diameter.text, most->diameter.text);
}

}  // namespace

const ShopInstrument& instrument_of(const Reading& reading, Kind quantity, const Snapshot& snapshot) {
  const auto at = snapshot.instruments.find(reading.instrument);
  if (at == snapshot.instruments.end())
    throw BadInput({.field = "instrument",
                    .place = "reading " + reading.id,
                    .value = reading.instrument,
                    .expected = "the id of an instrument of this file"});
  if (at->second.quantity != quantity)
    throw BadInput({.field = "instrument",
                    .place = "reading " + reading.id,
                    .value = reading.instrument,
                    .expected = fmt::format("an instrument that measures {}", info(quantity).phrase)});
  return at->second;
}

const Unit* unit_of(const ShopInstrument& instrument) {
  return find_unit(instrument.unit, instrument.quantity);
}

Instrument engine_instrument(const ShopInstrument& instrument, UtcTime at) {
  Instrument out;
  out.id = instrument.id;
  out.graduation = metres(instrument.graduation.si);
  if (instrument.mpe) out.mpe = metres(instrument.mpe->si);
  if (instrument.repeatability) out.repeatability = metres(instrument.repeatability->si);
  out.in_date = instrument.in_date(at);
  return out;
}

MeasuredReading measure_value(const Check& check, const Reading& reading, const JudgeContext& in) {
  const auto& body = std::get<ValueReading>(reading.body);
  const ShopInstrument& shop = instrument_of(reading, check.quantity, in.snapshot);
  const Instrument instrument = engine_instrument(shop, reading.time);
  const UncertaintyBudget budget = reading_budget(instrument);
  const Scatter scatter = scatter_of(body.values);
  UncertaintyBudget whole = budget;
  if (scatter.u_of_mean > 0)
    whole.contributions.push_back(
        {"scatter of repeats", metres(scatter.u_of_mean), scatter.dof, AssumedShape::normal});
  Measurement m;
  m.value = scatter.mean;
  m.u = whole.standard().value();
  m.dof = whole.effective_dof();
  m.graduation = instrument.graduation.value();
  m.u_scatter = scatter.u_of_mean;
  m.in_date = instrument.in_date;
  MeasuredReading out;
  out.shown.reading_id = reading.id;
  out.shown.as_written = fmt::format("{} on {}", listed(body.values), shop.id);
  out.shown.unit = unit_of(shop);
  out.shown.instrument_graduation_si = instrument.graduation.value();
  out.numbers = {m};
  return out;
}

MeasuredReading measure_size(const Check& check, const Reading& reading, const JudgeContext& in) {
  const auto& body = std::get<SizeReading>(reading.body);
  want_material(body, reading, in.snapshot);
  const ShopInstrument& shop = instrument_of(reading, Kind::length, in.snapshot);
  const Instrument instrument = engine_instrument(shop, reading.time);
  const std::vector<DiameterReading> diameters = diameters_of(body);
  const SizeResult size = summarize_size(diameters, &instrument);
  MeasuredReading out;
  out.shown.reading_id = reading.id;
  out.shown.as_written = fmt::format("{} on {}", size_as_written(body), shop.id);
  out.shown.unit = unit_of(shop);
  out.shown.instrument_graduation_si = instrument.graduation.value();
  out.shown.size = size;
  if (check.judged == Judged::ovality || check.judged == Judged::taper) {
    out.numbers = {size_difference(check.judged == Judged::ovality ? size.ovality : size.taper, instrument,
                                   reading.time)};
    return out;
  }
  Measurement smallest = size_extreme(body, smallest_measured(size, instrument), in);
  Measurement largest = size_extreme(body, largest_measured(size, instrument), in);
  smallest.bounds_below_only = true;
  largest.bounds_above_only = true;
  out.numbers = {smallest, largest};
  const auto mean = at_20_degrees(body, size.mean, size.u_mean, in);
  if (mean)
    out.shown.remarks.push_back(
        wording::temperature_corrected(mean->correction, parse_unit(shop.unit, Kind::length, "unit")));
  return out;
}

MeasuredReading measure(const Check& check, const Reading& reading, const JudgeContext& in) {
  try {
    if (std::holds_alternative<SweepReading>(reading.body)) return measure_sweep(check, reading, in);
    if (check.sheet) return measure_sheet(check, &reading, in);
    if (std::holds_alternative<SizeReading>(reading.body)) return measure_size(check, reading, in);
    return measure_value(check, reading, in);
  } catch (const BadInput& e) {
    if (!e.what_was_wrong().place.empty()) throw;
    throw e.at("reading " + reading.id);
  }
}

std::optional<MeanValue> mean_of(const Check& check, const JudgeContext& in) {
  const auto at = in.state.standing.find(check.from.empty() ? check.id : check.from);
  if (at == in.state.standing.end() || at->second.empty()) return std::nullopt;
  const Reading& reading = at->second.back();
  if (const auto* body = std::get_if<SizeReading>(&reading.body)) {
    const MeasuredReading measured = measure(check, reading, in);
    const SizeResult& size = *measured.shown.size;
    const bool in_date = measured.numbers.front().in_date;
    const Unit* unit = measured.shown.unit;
    const auto corrected = at_20_degrees(*body, size.mean, size.u_mean, in);
    if (corrected) return MeanValue{corrected->value.value(), corrected->u.value(), in_date, unit};
    return MeanValue{size.mean.value(), size.u_mean.value(), in_date, unit};
  }
  if (!std::holds_alternative<ValueReading>(reading.body)) return std::nullopt;
  const MeasuredReading measured = measure(check, reading, in);
  const Measurement& number = measured.numbers.front();
  return MeanValue{number.value, number.u, number.in_date, measured.shown.unit};
}

}  // namespace pumpwright::job
