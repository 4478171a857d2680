// What `pumpwright torque` prints, for people and as JSON.
#include <fmt/format.h>

#include "cli/display_text.h"
#include "cli/json_values.h"
#include "cli/torque_question.h"
#include "cli/verdict_word.h"
#include "engine/quantity/format.h"

namespace pumpwright {
namespace {

constexpr int shown_digits = 3;

std::string shown(const AnyQuantity& quantity, System system) {
  return format_significant(quantity, suitable_unit(quantity.kind(), quantity.si(), system), shown_digits);
}

std::string range_text(const AnyQuantity& from, const AnyQuantity& to, System system) {
  const auto first = shown(from, system), last = shown(to, system);
  return first == last ? first : fmt::format("{} to {}", first, last);
}

std::string reason_text(const TorqueFinding& f) {
  if (f.reason == "below-proof-load") return "stays below the proof load whatever the friction in its range";
  if (f.reason == "above-proof-load") return "exceeds the proof load whatever the friction in its range";
  if (f.reason == "friction-decides") return "friction decides whether the proof load is exceeded";
  return "a number it rests on is only remembered: confirm it against the document";
}

std::string share_text(const ShareRange& share) {
  if (share.smallest == share.largest) return fmt::format("{:.0f} %", 100 * share.largest);
  return fmt::format("{:.0f} % to {:.0f} %", 100 * share.smallest, 100 * share.largest);
}

std::string torque_row(const TorqueQuestion& q, const TorqueFinding& f) {
  if (!q.torque) return range_text(f.torque_least, f.torque_most, q.system);
  std::string text = shown(q.torque->set, q.system);
  if (q.torque->wrench_error > 0) text += fmt::format(", wrench ± {:g} %", 100 * q.torque->wrench_error);
  return text;
}

}  // namespace

std::string torque_text(const TorqueQuestion& q, const TorqueFinding& f, bool colour) {
  TextTable table({Align::left, Align::left});
  table.add({verdict_word(f.verdict, colour), reason_text(f)});
  table.add({q.torque ? "torque set" : "torque", torque_row(q, f)});
  table.add(
      {q.torque ? "preload" : "preload wanted", range_text(f.preload.smallest, f.preload.largest, q.system)});
  table.add({"share of proof load", share_text(f.share)});
  table.add({"proof load", shown(f.proof_load, q.system)});
  std::string text = q.thread_name + "\n\n" + table.text();
  if (!q.torque && f.torque_least < f.torque_most)
    text += "\n" + wrapped(
                       "Set the least torque to be sure that the wanted preload is not exceeded; the same "
                       "torque then gives less preload where friction is higher.",
                       100);
  if (!q.advice.empty()) text += "\n" + wrapped(q.advice, 100);
  TextTable sources({Align::left, Align::left, Align::left});
  for (const auto& number : q.numbers)
    sources.add({number.what, number.value, number.source ? citation(*number.source) : "as given"});
  return text + "\n" + sources.text();
}

std::string torque_json(const TorqueQuestion& q, const TorqueFinding& f) {
  auto sources = OrderedJson::array();
  for (const auto& number : q.numbers)
    sources.push_back(
        {{"what", number.what},
         {"value", number.value},
         {"source", number.source ? OrderedJson(citation(*number.source)) : OrderedJson(nullptr)}});
  const OrderedJson json = {{"thread", q.thread_name},
                            {"nut_factor_lowest", q.nut_factor.lowest},
                            {"nut_factor_highest", q.nut_factor.highest},
                            {"torque_least_nm", json_number(f.torque_least.value())},
                            {"torque_most_nm", json_number(f.torque_most.value())},
                            {"preload_smallest_n", json_number(f.preload.smallest.value())},
                            {"preload_largest_n", json_number(f.preload.largest.value())},
                            {"proof_load_n", json_number(f.proof_load.value())},
                            {"proof_share_smallest", json_number(f.share.smallest)},
                            {"proof_share_largest", json_number(f.share.largest)},
                            {"verdict", f.verdict},
                            {"reason", f.reason},
                            {"sources", sources}};
  return json_text(json);
}

}  // namespace pumpwright
