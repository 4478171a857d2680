#include "server/job_view.h"

#include <map>
#include <set>

#include <nlohmann/json.hpp>

#include "engine/quantity/bad_input.h"
#include "server/amount_json.h"
#include "server/finding_view.h"
#include "server/plan_view.h"
#include "server/section_view.h"

namespace pumpwright::server {
namespace {

using nlohmann::json;

json header_view(const job::JobHeader& h) {
  return {{"number", h.number},
          {"customer", h.customer},
          {"pump", h.pump},
          {"serial", h.serial},
          {"reason", h.reason},
          {"came_for", text_or_null(std::string(job::word_of(h.came_for)))},
          {"opened", job::format_utc_time(h.opened)},
          {"invented", h.invented}};
}

// Few readings do: the others are not parsed for it.
bool names_remedy(const std::string& payload) {
  if (payload.find("\"remedy\"") == std::string::npos) return false;
  const json reading = json::parse(payload);
  return reading.contains("sweep") && reading["sweep"].contains("remedy");
}

// By the reading that corrects it, or the first sweep of the check after its part was moved.
std::map<std::string, std::string> replaced_by_in(const job::LoggedJob& logged) {
  std::map<std::string, std::string> out;
  std::map<std::string, std::vector<std::string>> of_check;
  for (const auto& reading : logged.readings) {
    if (!reading.replaces.empty()) out.emplace(reading.replaces, reading.id);
    std::vector<std::string>& earlier = of_check[reading.check];
    if (names_remedy(reading.payload))
      for (const std::string& id : earlier)
        out.emplace(id, reading.id);
    earlier.push_back(reading.id);
  }
  return out;
}

json readings_view(const job::LoggedJob& logged) {
  const std::map<std::string, std::string> replaced_by = replaced_by_in(logged);
  json out = json::array();
  for (const auto& reading : logged.readings) {
    const json payload = json::parse(reading.payload);
    const auto by = replaced_by.find(reading.id);
    out.push_back({{"seq", reading.seq},
                   {"id", reading.id},
                   {"check", reading.check},
                   {"time", payload.at("time")},
                   {"actor", payload.at("actor")},
                   {"instrument", payload.value("instrument", json(nullptr))},
                   {"replaces", text_or_null(reading.replaces)},
                   {"replaced_by", by == replaced_by.end() ? json(nullptr) : json(by->second)},
                   {"payload", payload}});
  }
  return out;
}

// Those of the shop and those the job was read with.
json instruments_view(const job::Snapshot& snapshot, const shop::ShopState& shop, job::UtcTime today) {
  std::map<std::string, job::ShopInstrument> known = snapshot.instruments;
  for (const auto& [id, instrument] : shop.instruments)
    known[id] = instrument;
  json out = json::array();
  for (const auto& [id, i] : known)
    out.push_back({{"id", id},
                   {"kind", i.kind},
                   {"quantity", info(i.quantity).name},
                   {"unit", i.unit},
                   {"graduation", i.graduation.text},
                   {"due", job::format_utc_day(i.due)},
                   {"in_date", i.in_date(today)},
                   {"in_use", shop.instruments.count(id) != 0}});
  return out;
}

json open_view(const job::Judgement& judgement) {
  json out = json::array();
  for (const auto& point : judgement.open)
    out.push_back(
        {{"step", point.step}, {"check", text_or_null(point.check)}, {"what", text_json(point.what)}});
  return out;
}

json counts_view(const job::Judgement& j) {
  return {{"pass", j.passed}, {"fail", j.failed}, {"unproven", j.unproven}, {"not_taken", j.not_taken}};
}

json signatures_view(const job::LoggedJob& logged) {
  json out = json::array();
  for (const auto& s : logged.signatures)
    out.push_back({{"seq", s.seq},
                   {"person", s.person},
                   {"initials", s.person},
                   {"at", s.at},
                   {"statement", s.statement},
                   {"head", s.head}});
  return out;
}

json logged_rows_view(const job::LoggedJob& logged) {
  json out = json::array();
  for (const auto& row : logged.logged_rows)
    out.push_back({{"seq", row.seq}, {"check", row.check}, {"row", json::parse(row.row)}});
  return out;
}

const std::map<std::string, job::Text>& event_titles() {
  static const std::map<std::string, job::Text> table{
      {"opened", {"job opened", "trabajo abierto"}},
      {"make-up-set", {"make-up set", "composición anotada"}},
      {"plan-made", {"plan made", "plan hecho"}},
      {"instrument-joined", {"instrument joined", "instrumento añadido"}},
      {"limit-adopted", {"limit adopted", "límite adoptado"}},
      {"reading", {"reading", "lectura"}},
      {"step-done", {"step done", "paso hecho"}},
      {"hold-released", {"hold point released", "punto de espera liberado"}},
      {"deviation-accepted", {"deviation accepted", "desviación aceptada"}},
      {"placed", {"placed on bench", "puesto en el banco"}},
      {"waiting", {"waiting", "en espera"}},
      {"note", {"note", "nota"}},
      {"row-logged", {"row from a logger", "fila de un registrador"}},
      {"attachment-added", {"photo or paper added", "foto o papel añadido"}},
      {"signed", {"signed and released", "firmado y liberado"}},
      {"reopened", {"opened again", "abierto de nuevo"}}};
  return table;
}

// What an event was about, for the list of what happened: a step's or a check's title, a bench, a reason.
job::Text subject_of(const store::StoredEvent& event, const job::Plan& plan) {
  const json payload = json::parse(event.payload);
  const auto text = [&](const char* key) {
    return payload.contains(key) && payload[key].is_string() ? payload[key].get<std::string>()
                                                             : std::string();
  };
  if (const auto* check = plan.find(text("check"))) return check->title;
  if (const auto* step = plan.step(text("step"))) return step->title;
  for (const auto* key : {"bench", "for", "reason", "limit", "statement"})
    if (const std::string found = text(key); !found.empty()) return {found, found};
  return {};
}

json log_view(std::span<const store::StoredEvent> log, const job::Plan& plan) {
  json out = json::array();
  for (const auto& event : log) {
    const auto title = event_titles().find(event.type);
    job::Text line = title == event_titles().end() ? job::Text{event.type, event.type} : title->second;
    if (const job::Text subject = subject_of(event, plan); !subject.empty()) {
      line.en += ": " + subject.en;
      line.es += ": " + subject.es;
    }
    out.push_back({{"seq", event.seq},
                   {"at", event.accepted_at},
                   {"actor", event.actor},
                   {"device", event.device},
                   {"type", event.type},
                   {"text", text_json(line)}});
  }
  return out;
}

// Dimensions that checks of the plan are computed from and the make-up does not give.
std::set<std::string> needed_dimensions(const job::Snapshot& snapshot) {
  std::set<std::string> wanted;
  for (const auto& step : snapshot.plan.steps)
    for (const auto& check : step.checks) {
      for (const auto& part : check.chain)
        wanted.insert(part.dimension);
      wanted.insert(check.sweep.radius_dimension);
      wanted.insert(check.sweep.over_dimension);
    }
  wanted.erase("");
  std::erase_if(wanted, [&](const std::string& name) { return snapshot.make_up.dimension(name) != nullptr; });
  return wanted;
}

}  // namespace

json job_view(const shop::JobPicture& picture, const shop::ShopState& shop,
              std::span<const store::StoredEvent> log, std::int64_t now_ms) {
  const auto& logged = picture.logged;
  const PlanInView plan{picture.snapshot, picture.state, picture.judgement, &logged};
  return {{"number", logged.file.header.number},
          {"header", header_view(logged.file.header)},
          {"state", logged.released ? "released" : "open"},
          {"bench", logged.bench},
          {"waiting", logged.waiting},
          {"seq", picture.seq},
          {"head", picture.head},
          {"make_up", json::parse(logged.make_up_json)},
          {"stages", stages_view(picture.snapshot.plan)},
          {"steps", steps_view(plan)},
          {"checks", checks_view(plan)},
          {"readings", readings_view(logged)},
          {"logged_rows", logged_rows_view(logged)},
          {"instruments", instruments_view(picture.snapshot, shop, job::UtcTime{now_ms / 1000})},
          {"section", section_view(picture.snapshot.make_up)},
          {"open", open_view(picture.judgement)},
          {"counts", counts_view(picture.judgement)},
          {"next_step", next_step_view(picture.snapshot.plan, picture.state)},
          {"signatures", signatures_view(logged)},
          {"log", log_view(log, picture.snapshot.plan)}};
}

json finding_json(const shop::JobPicture& picture, const shop::TriedReading& tried) {
  const job::Check* check = picture.snapshot.plan.find(tried.finding.check);
  job::JobState alone;
  alone.standing[tried.finding.check] = {tried.reading};
  return finding_view(*check, tried.finding, alone).at("readings").at(0);
}

json card_json(const shop::JobCard& card) {
  return {{"number", card.number},
          {"customer", card.customer},
          {"pump", card.pump},
          {"serial", card.serial},
          {"bench", card.bench},
          {"waiting", card.waiting},
          {"state", card.released ? "released" : "open"},
          {"old", card.old},
          {"opened", card.opened},
          {"last_at", card.last_at},
          {"last_actor", card.last_actor},
          {"seq", card.seq}};
}

json card_json(const shop::JobCard& card, const shop::JobPicture& picture) {
  json out = card_json(card);
  out["head"] = picture.head;
  out["counts"] = counts_view(picture.judgement);
  out["next_step"] = next_step_view(picture.snapshot.plan, picture.state);
  out["failing"] = json::array();
  for (const auto& finding : picture.judgement.findings)
    if (finding.verdict == job::Verdict::fail && !finding.deviation_accepted)
      out["failing"].push_back({{"check", finding.check},
                                {"step", picture.snapshot.plan.step_of(finding.check)->id},
                                {"title", text_json(picture.snapshot.plan.find(finding.check)->title)}});
  return out;
}

json plan_preview(const job::Snapshot& snapshot) {
  const job::JobState nothing;
  const job::Judgement judgement = job::judge(snapshot, nothing);
  const PlanInView plan{snapshot, nothing, judgement, nullptr};
  return {{"stages", stages_view(snapshot.plan)},
          {"steps", steps_view(plan)},
          {"checks", checks_view(plan)},
          {"section", section_view(snapshot.make_up)},
          {"needed", needed_dimensions(snapshot)}};
}

}  // namespace pumpwright::server
