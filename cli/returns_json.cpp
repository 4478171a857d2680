// What `pumpwright returns --json` prints.
#include "cli/json_values.h"
#include "cli/returns_report.h"

namespace pumpwright {
namespace {

using namespace reliability;
using job::ReturnsFinding;
using job::ReturnsQuestion;

OrderedJson json_seconds(Time time) {
  return json_number(time.value());
}
OrderedJson json_seconds(const std::optional<Time>& time) {
  return time ? json_seconds(*time) : OrderedJson(nullptr);
}

OrderedJson test_json(const ChiSquareTest& test) {
  return {{"chi_square", json_number(test.chi_square)}, {"dof", test.dof}, {"p", json_number(test.p)}};
}

OrderedJson rate_json(const ReturnRate& rate) {
  return {{"total_s", json_seconds(rate.total)},
          {"mean_s", json_seconds(rate.mean)},
          {"mean_low_s", json_seconds(rate.low)},
          {"mean_high_s", json_seconds(rate.high)}};
}

OrderedJson curve_json(const ReturnsQuestion& q, const ReturnsFinding& f) {
  auto steps = OrderedJson::array();
  for (const CurveStep& step : f.curve.steps)
    steps.push_back({{"time_s", json_seconds(step.time)},
                     {"at_risk", step.at_risk},
                     {"returned", step.returned},
                     {"surviving", json_number(step.surviving)},
                     {"standard_error", json_number(step.standard_error)},
                     {"low", step.band ? json_number(step.band->low) : OrderedJson(nullptr)},
                     {"high", step.band ? json_number(step.band->high) : OrderedJson(nullptr)}});
  auto incidence = OrderedJson::array();
  for (const Incidence& at : f.incidence)
    incidence.push_back({{"time_s", json_seconds(at.time)},
                         {"returned", json_number(at.returned)},
                         {"replaced", json_number(at.replaced)}});
  return {{"band", q.band == BandTransform::log ? "log" : "log-log"},
          {"longest_s", json_seconds(f.curve.last)},
          {"median_s", json_seconds(f.median.value)},
          {"median_low_s", json_seconds(f.median.low)},
          {"median_high_s", json_seconds(f.median.high)},
          {"steps", steps},
          {"incidence", incidence}};
}

OrderedJson threshold_json(const std::optional<ThresholdFit>& threshold) {
  if (!threshold) return nullptr;
  return {{"threshold_s", json_seconds(threshold->threshold)},
          {"threshold_low_s", json_seconds(threshold->low)},
          {"threshold_high_s", json_seconds(threshold->high)},
          {"proven", threshold->is_proven},
          {"shape", json_number(threshold->fit.shape)},
          {"scale_s", json_seconds(threshold->fit.scale)},
          {"log_likelihood", json_number(threshold->fit.log_likelihood)}};
}

OrderedJson weibull_json(const ReturnsFinding& f) {
  if (!f.weibull) return nullptr;
  const auto& sheet = *f.weibull;
  return {{"shape", json_number(sheet.fit.shape)},
          {"shape_low", json_number(sheet.shape.low)},
          {"shape_high", json_number(sheet.shape.high)},
          {"scale_s", json_seconds(sheet.fit.scale)},
          {"scale_low_s", json_seconds(sheet.scale.low)},
          {"scale_high_s", json_seconds(sheet.scale.high)},
          {"b10_s", json_seconds(sheet.b10)},
          {"b10_low_s", json_seconds(sheet.b10_limits.low)},
          {"b10_high_s", json_seconds(sheet.b10_limits.high)},
          {"log_likelihood", json_number(sheet.fit.log_likelihood)},
          {"with_threshold", threshold_json(f.threshold)}};
}

OrderedJson groups_json(const ReturnsFinding& f) {
  if (!f.groups) return nullptr;
  auto list = OrderedJson::array();
  for (std::size_t g = 0; g < f.groups->groups.size(); ++g) {
    const auto& counts = f.groups->log_rank.groups[g];
    list.push_back({{"name", f.groups->groups[g].name},
                    {"pumps", counts.units},
                    {"returned", counts.returned},
                    {"expected", json_number(counts.expected)},
                    {"rate", rate_json(f.groups->groups[g].rate)}});
  }
  return {{"list", list},
          {"log_rank", test_json(f.groups->log_rank.test)},
          {"weibull_ratio", f.groups->weibull ? test_json(*f.groups->weibull) : OrderedJson(nullptr)}};
}

OrderedJson change_json(const ReturnsFinding& f) {
  if (!f.change) return nullptr;
  const auto& s = f.change->settling;
  return {{"ratio", json_number(f.change->ratio)},
          {"ratio_low", json_number(f.change->ratio_low)},
          {"ratio_high", json_number(f.change->ratio_high)},
          {"settling",
           {{"ratio", s.ratio},
            {"power", json_number(s.power)},
            {"returns_needed", json_number(s.returns_needed)},
            {"returns_more", s.returns_more},
            {"pumps_more", s.pumps_more ? OrderedJson(*s.pumps_more) : OrderedJson(nullptr)}}}};
}

OrderedJson readings_json(const ReturnsQuestion& q, const ReturnsFinding& f) {
  if (!f.readings) return nullptr;
  const auto& sheet = *f.readings;
  auto list = OrderedJson::array();
  for (std::size_t j = 0; j < sheet.fit.coefficients.size(); ++j) {
    const auto& c = sheet.fit.coefficients[j];
    list.push_back({{"name", q.columns.covariates[j]},
                    {"coefficient", json_number(c.value)},
                    {"standard_error", json_number(c.standard_error)},
                    {"ratio", json_number(c.ratio)},
                    {"ratio_low", json_number(c.ratio_low)},
                    {"ratio_high", json_number(c.ratio_high)},
                    {"p", json_number(c.p)},
                    {"proportional", sheet.proportional ? test_json(sheet.proportional->readings[j])
                                                        : OrderedJson(nullptr)}});
  }
  return {{"ties", q.ties == Ties::efron ? "efron" : "breslow"},
          {"pumps", sheet.pumps},
          {"left_out", sheet.left_out},
          {"returned", sheet.fit.returned},
          {"list", list},
          {"log_likelihood", json_number(sheet.fit.log_likelihood)},
          {"log_likelihood_null", json_number(sheet.fit.log_likelihood_null)},
          {"ratio_test", test_json(sheet.fit.ratio_test)},
          {"score_test", test_json(sheet.fit.score_test)},
          {"proportional", sheet.proportional ? test_json(sheet.proportional->all) : OrderedJson(nullptr)}};
}

OrderedJson trend_json(const ReturnsFinding& f) {
  if (!f.trend) return nullptr;
  const auto& t = *f.trend;
  return {{"pumps", t.pumps},
          {"returned", t.returned},
          {"shape", json_number(t.shape)},
          {"shape_low", json_number(t.shape_low)},
          {"shape_high", json_number(t.shape_high)},
          {"corrected_shape", json_number(t.corrected_shape)},
          {"scale_s", json_seconds(t.scale)},
          {"chi_square", json_number(t.test_chi_square)},
          {"dof", json_number(t.test_dof)},
          {"p", json_number(t.p)},
          {"age_s", json_seconds(t.age)},
          {"mean_at_age_s", json_seconds(t.mean_at_age)},
          {"mean_at_age_low_s", json_seconds(t.mean_at_age_low)},
          {"mean_at_age_high_s", json_seconds(t.mean_at_age_high)}};
}

OrderedJson not_computed_json(const ReturnsFinding& f) {
  auto list = OrderedJson::array();
  for (const auto& missing : f.not_computed)
    list.push_back({{"what", missing.what.en}, {"why", missing.why.en}});
  return list;
}

OrderedJson word_or_null(const std::string& word) {
  return word.empty() ? OrderedJson(nullptr) : OrderedJson(word);
}

}  // namespace

std::string returns_json(const std::string& file, const ReturnsQuestion& q, const ReturnsFinding& f) {
  const OrderedJson json = {{"file", file},
                            {"clock", q.is_calendar ? "calendar" : "running"},
                            {"confidence", q.confidence},
                            {"rows", q.table.rows.size()},
                            {"returned", f.returned},
                            {"running", f.running},
                            {"replaced", f.replaced},
                            {"rate", rate_json(f.rate)},
                            {"curve", curve_json(q, f)},
                            {"weibull", weibull_json(f)},
                            {"groups", groups_json(f)},
                            {"change", change_json(f)},
                            {"readings", readings_json(q, f)},
                            {"trend", trend_json(f)},
                            {"not_computed", not_computed_json(f)},
                            {"columns_left_alone", q.table.left_alone},
                            {"verdict", word_or_null(f.verdict)},
                            {"reason", word_or_null(f.reason)}};
  return json_text(json);
}

}  // namespace pumpwright
