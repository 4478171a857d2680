#include "job/returns_finding.h"

#include <algorithm>
#include <map>
#include <unordered_map>

#include <fmt/format.h>

#include "engine/quantity/bad_input.h"
#include "job/csv_lines.h"

namespace pumpwright::job {
namespace {

using namespace reliability;

constexpr const char* before_name = "before";
constexpr const char* after_name = "after";

Life life_of(const ReturnsRow& row) {
  return {.time = row.time, .ending = row.ending};
}

// By their times: where many coincide that makes every sum over them short.
Lives lives_of(const ReturnsTable& table) {
  Lives lives;
  lives.reserve(table.rows.size());
  for (const auto& row : table.rows)
    lives.push_back(life_of(row));
  std::sort(lives.begin(), lives.end(), [](const Life& a, const Life& b) { return a.time < b.time; });
  return lives;
}

// Groups in the order in which they first occur.
struct NamedLives {
  std::vector<std::string> names;
  std::vector<Lives> lives;
};

NamedLives groups_of(const ReturnsQuestion& q) {
  NamedLives groups;
  std::map<std::string, std::size_t> number;
  for (const auto& row : q.table.rows) {
    const auto [at, is_new] = number.emplace(row.group, groups.names.size());
    if (is_new) {
      if (groups.names.size() == groups_max)
        refuse_csv(row.line, q.columns.group.value_or("group"), row.group,
                   fmt::format("at most {} groups", groups_max));
      groups.names.push_back(row.group);
      groups.lives.emplace_back();
    }
    groups.lives[at->second].push_back(life_of(row));
  }
  return groups;
}

void add_weibull(const ReturnsQuestion& q, const Lives& lives, ReturnsFinding& f) {
  if (f.returned < returns_for_weibull) {
    f.not_computed.push_back(
        {Text{"curve over age", "curva según la edad"},
         Text{fmt::format("it takes at least {} returns", returns_for_weibull),
              fmt::format("hacen falta al menos {} devoluciones", returns_for_weibull)}});
    return;
  }
  const WeibullData data(lives);
  const auto fit = fit_weibull(data);
  if (!fit) {
    f.not_computed.push_back({Text{"curve over age", "curva según la edad"},
                              Text{"all returns came at the longest time seen",
                                   "todas las devoluciones llegaron en el tiempo más largo visto"}});
    return;
  }
  f.weibull = WeibullSheet{.fit = *fit,
                           .shape = shape_limits(data, *fit, q.confidence),
                           .scale = scale_limits(data, *fit, q.confidence),
                           .b10 = life_at(data, *fit, 0.1),
                           .b10_limits = life_limits(data, *fit, 0.1, q.confidence)};
  if (q.threshold && f.returned >= returns_for_threshold) f.threshold = fit_threshold(lives, q.confidence);
}

void add_groups(const ReturnsQuestion& q, const NamedLives& named, ReturnsFinding& f) {
  if (named.names.size() < 2) {
    f.not_computed.push_back({Text{"comparison of groups", "comparación de grupos"},
                              Text{"all rows are of one group", "todas las filas son de un grupo"}});
    return;
  }
  GroupsSheet sheet{.groups = {}, .log_rank = log_rank(named.lives), .weibull = weibull_ratio(named.lives)};
  for (std::size_t g = 0; g < named.names.size(); ++g)
    sheet.groups.push_back({named.names[g], return_rate(named.lives[g], q.confidence)});
  f.groups = sheet;
}

const Lives& group_named(const ReturnsQuestion& q, const NamedLives& named, const std::string& name) {
  const auto found = std::find(named.names.begin(), named.names.end(), name);
  if (found == named.names.end())
    throw BadInput({.field = q.columns.group.value_or("group"),
                    .place = "",
                    .value = fmt::format("no row with \"{}\"", name),
                    .expected = "rows of both groups, before and after"});
  return named.lives[static_cast<std::size_t>(found - named.names.begin())];
}

void require_before_and_after(const ReturnsQuestion& q) {
  if (!q.table.has_group)
    throw BadInput({.field = "--before-after",
                    .place = "",
                    .value = "no column of groups",
                    .expected = "a column \"group\" (or --group COLUMN) with the words before and after"});
  for (const auto& row : q.table.rows)
    if (row.group != before_name && row.group != after_name)
      refuse_csv(row.line, q.columns.group.value_or("group"), row.group,
                 "before or after, with --before-after");
}

const char* code(ChangeReason reason) {
  switch (reason) {
    case ChangeReason::interval_below_one:
      return "interval-below-one";
    case ChangeReason::interval_above_one:
      return "interval-above-one";
    case ChangeReason::one_in_the_interval:
      return "one-in-the-interval";
    case ChangeReason::too_few_returns:
      break;
  }
  return "too-few-returns";
}

const char* verdict_of(Change change) {
  if (change == Change::fewer_returns) return "pass";
  return change == Change::more_returns ? "fail" : "unproven";
}

void add_change(const ReturnsQuestion& q, const NamedLives& named, ReturnsFinding& f) {
  f.change = before_after(group_named(q, named, before_name), group_named(q, named, after_name),
                          q.ratio_to_prove, {.confidence = q.confidence});
  f.verdict = verdict_of(f.change->change);
  f.reason = code(f.change->reason);
}

// "readings/2" is the covariate of that number.
BadInput named_by_covariate(const BadInput& error, const ReturnsQuestion& q) {
  auto what = error.what_was_wrong();
  const std::string prefix = "readings/";
  if (!what.field.starts_with(prefix) || what.field.find('/', prefix.size()) != std::string::npos)
    return error;
  const std::string column = q.columns.covariates.at(std::stoul(what.field.substr(prefix.size())));
  what.value = fmt::format("{} ({})", column, what.value);
  what.field = "--covariate";
  return BadInput(what);
}

void add_readings(const ReturnsQuestion& q, ReturnsFinding& f) {
  Lives lives;
  std::vector<double> values;
  for (const auto& row : q.table.rows) {
    const bool is_whole = std::all_of(row.readings.begin(), row.readings.end(),
                                      [](const std::optional<double>& r) { return r.has_value(); });
    if (!is_whole) continue;
    lives.push_back(life_of(row));
    for (const auto& reading : row.readings)
      values.push_back(*reading);
  }
  const Readings readings{values, q.columns.covariates.size()};
  if (count_of(lives, Ending::returned) < 2) {
    f.not_computed.push_back({Text{"readings and return", "lecturas y devolución"},
                              Text{"it takes at least 2 returns with all readings",
                                   "hacen falta al menos 2 devoluciones con todas las lecturas"}});
    return;
  }
  try {
    const auto fit = fit_cox(lives, readings, q.ties, q.confidence);
    if (!fit) {
      f.not_computed.push_back(
          {Text{"readings and return", "lecturas y devolución"},
           Text{"a reading parts the pumps that came back from the rest without overlap; "
                "no finite figure says how strongly",
                "una lectura separa sin solape las bombas que volvieron de las demás; "
                "ninguna cifra finita dice con qué fuerza"}});
      return;
    }
    f.readings = ReadingsSheet{.pumps = lives.size(),
                               .left_out = q.table.rows.size() - lives.size(),
                               .fit = *fit,
                               .proportional = proportional_hazards(lives, readings, q.ties)};
  } catch (const BadInput& error) {
    throw named_by_covariate(error, q);
  }
}

// One pump's times out, one after the other, make its age.
std::vector<History> histories_of(const ReturnsQuestion& q) {
  std::vector<History> histories;
  std::unordered_map<std::string, std::size_t> number;
  std::unordered_map<std::string, std::size_t> still_running;  // pump to the line that says so
  for (const auto& row : q.table.rows) {
    const auto [at, is_new] = number.emplace(row.pump, histories.size());
    if (is_new) histories.push_back({.returns = {}, .until = seconds(0)});
    if (const auto before = still_running.find(row.pump); before != still_running.end())
      refuse_csv(row.line, q.columns.pump.value_or("pump"), row.pump,
                 fmt::format("no further row of a pump that line {} says is running", before->second));
    History& history = histories[at->second];
    history.until += row.time;
    if (row.ending == Ending::returned) history.returns.push_back(history.until);
    if (row.ending == Ending::running) still_running.emplace(row.pump, row.line);
  }
  return histories;
}

void add_trend(const ReturnsQuestion& q, ReturnsFinding& f) {
  const auto histories = histories_of(q);
  if (histories.size() == q.table.rows.size()) {
    f.not_computed.push_back(
        {Text{"trend of a pump over its builds", "tendencia de una bomba a lo largo de sus armados"},
         Text{"no pump went out twice", "ninguna bomba salió dos veces"}});
    return;
  }
  f.trend = trend(histories, q.confidence);
  if (!f.trend)
    f.not_computed.push_back(
        {Text{"trend of a pump over its builds", "tendencia de una bomba a lo largo de sus armados"},
         Text{"no return but such as ended the watching",
              "ninguna devolución salvo las que cerraron la observación"}});
}

}  // namespace

ReturnsFinding answer(const ReturnsQuestion& q) {
  if (q.before_after) require_before_and_after(q);
  const Lives lives = lives_of(q.table);
  ReturnsFinding f;
  f.returned = count_of(lives, Ending::returned);
  f.running = count_of(lives, Ending::running);
  f.replaced = count_of(lives, Ending::replaced);
  f.rate = return_rate(lives, q.confidence);
  f.curve = survival_curve(lives, q.band, q.confidence);
  f.median = time_until(f.curve, 0.5);
  f.incidence = incidence(lives);
  add_weibull(q, lives, f);
  if (q.table.has_group) {
    const auto named = groups_of(q);
    add_groups(q, named, f);
    if (q.before_after) add_change(q, named, f);
  }
  if (!q.columns.covariates.empty()) add_readings(q, f);
  if (q.table.has_pump) add_trend(q, f);
  return f;
}

}  // namespace pumpwright::job
