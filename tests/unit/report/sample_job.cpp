#include "tests/unit/report/sample_job.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/metrology/sweep.h"
#include "report/sweep_points.h"

namespace pumpwright::report::testing {
namespace {

using job::Check;
using job::Reason;
using job::Text;
using job::Verdict;

job::UtcTime at(const char* iso) {
  return job::parse_utc_time(iso, "time");
}

job::Limit upper_limit(const std::string& id, job::Rank rank, const std::string& text,
                       const std::string& document, Obtained obtained) {
  job::Limit limit;
  limit.id = id;
  limit.rank = rank;
  limit.upper = written(text);
  limit.source = {document, "2011", "clause 4", obtained, ""};
  return limit;
}

Check check_of(const std::string& id, job::CheckKind kind, job::Judged judged, const std::string& place,
               const Text& title) {
  Check check;
  check.id = id;
  check.kind = kind;
  check.judged = judged;
  check.place = place;
  check.title = title;
  return check;
}

job::Plan plan() {
  job::Step receive;
  receive.id = "identify";
  receive.stage = job::Stage::receive;
  receive.title = {"Identify the pump", "Identificar la bomba"};
  receive.checks = {check_of("plate", job::CheckKind::confirmation, job::Judged::confirmed, "nameplate",
                             {"Nameplate agrees with the job", "La placa coincide con el trabajo"})};

  job::Step parts;
  parts.id = "parts";
  parts.stage = job::Stage::measure_parts;
  parts.title = {"Measure the sleeve", "Medir la camisa"};
  parts.hold = true;
  Check size = check_of("sleeve-size", job::CheckKind::size, job::Judged::local_size, "sleeve",
                        {"Sleeve outside diameter", "Diámetro exterior de la camisa"});
  size.limits = {
      upper_limit("seal/size", job::Rank::family, "1.3755 in", "Invented pump sheet", Obtained::read)};
  size.limits.front().lower = written("1.3735 in");
  Check sweep = check_of("register-sweep", job::CheckKind::sweep, job::Judged::tir, "register",
                         {"Register runout", "Alabeo radial del centrador"});
  sweep.turning = job::Turning::standing;
  sweep.limits = {
      upper_limit("frame/register", job::Rank::standard, "4 thou", "An invented standard", Obtained::read),
      upper_limit("habit/register", job::Rank::common_practice, "5 thou", "Habit of the trade",
                  Obtained::common_practice)};
  sweep.if_it_fails = {"Clean the register and sweep again.", "Limpiar el centrador y volver a barrer."};
  Check value = check_of("end-float", job::CheckKind::value, job::Judged::value, "shaft-end",
                         {"End float", "Juego axial"});
  value.limits = {upper_limit("float", job::Rank::common_practice, "10 thou", "Habit of the trade",
                              Obtained::common_practice)};
  parts.checks = {size, sweep, value};

  job::Step fit;
  fit.id = "fit";
  fit.stage = job::Stage::fit;
  fit.title = {"Fit the seal", "Montar el sello"};
  Check chain = check_of("working-length", job::CheckKind::chain, job::Judged::value, "seal-head",
                         {"Seal working length as installed", "Longitud de trabajo del sello montado"});
  chain.limits = {
      upper_limit("seal/length", job::Rank::family, "34.1 mm", "Invented pump sheet", Obtained::read)};
  chain.limits.front().lower = written("32.5 mm");
  fit.checks = {chain};
  return {{receive, parts, fit}};
}

job::Reading reading_of(const std::string& id, const std::string& check, const char* time) {
  job::Reading reading;
  reading.id = id;
  reading.check = check;
  reading.time = at(time);
  reading.actor = "T.B.";
  return reading;
}

job::CheckFinding finding_of(const std::string& check, job::JudgedReading judged) {
  job::CheckFinding finding;
  finding.check = check;
  finding.verdict = judged.verdict;
  finding.reason = judged.reason;
  finding.readings = {std::move(judged)};
  return finding;
}

job::JudgedReading judged_of(const std::string& id, Verdict verdict, Reason reason) {
  job::JudgedReading judged;
  judged.reading_id = id;
  judged.verdict = verdict;
  judged.reason = reason;
  return judged;
}

job::CheckFinding chain_finding() {
  job::JudgedReading judged = judged_of("", Verdict::fail, Reason::outside);
  judged.value = AnyQuantity(Kind::length, 0.0346);
  judged.standard_uncertainty = 8e-5;
  job::CheckFinding finding = finding_of("working-length", judged);
  finding.deviation_accepted = true;
  finding.chain = {
      {{"Mounting face to impeller hub", "Cara de montaje al cubo"},
       1,
       AnyQuantity(Kind::length, 0.0931),
       6e-5,
       0.6},
      {{"Mounting face to seat shoulder", "Cara de montaje al hombro del asiento"},
       -1,
       AnyQuantity(Kind::length, 0.0475),
       4e-5,
       0.3},
      {{"Seat thickness", "Espesor del asiento"}, -1, AnyQuantity(Kind::length, 0.0110), 2e-5, 0.1}};
  return finding;
}

}  // namespace

Written written(const std::string& text, Kind kind) {
  return parse_written(text, kind, {.field = "sample", .default_unit = nullptr});
}

job::Check& SampleJob::check(const std::string& id) {
  for (job::Step& step : snapshot.plan.steps)
    for (job::Check& candidate : step.checks)
      if (candidate.id == id) return candidate;
  throw std::out_of_range(id);
}

job::CheckFinding& SampleJob::finding(const std::string& id) {
  for (job::CheckFinding& candidate : judgement.findings)
    if (candidate.check == id) return candidate;
  throw std::out_of_range(id);
}

job::SweepReading sweep_with(std::size_t points, double amplitude_thou, const std::string& mount) {
  job::SweepReading sweep;
  sweep.mount = mount;
  sweep.base = "shaft";
  for (std::size_t i = 0; i < points; ++i) {
    const double deg = 360.0 * double(i) / double(points);
    const double thou =
        amplitude_thou * std::cos((deg - 120) * pi / 180) + 0.2 * std::sin(3 * deg * pi / 180);
    sweep.points.push_back({deg, written(fmt::format("{:+.1f} thou", thou))});
  }
  return sweep;
}

void put_sweep(SampleJob& job, const job::SweepReading& sweep) {
  const job::Check& check = job.check("register-sweep");
  job.state.standing["register-sweep"].front().body = sweep;
  job::JudgedReading& judged = job.finding("register-sweep").readings.front();
  judged.sweep.reset();
  judged.value.reset();
  if (sweep.points.size() < 3) return;
  std::vector<pumpwright::SweepReading> readings;
  for (const job::SweepPoint& p : sweep.points)
    readings.push_back({degrees(p.angle_deg), metres(p.reading.si)});
  Instrument instrument;
  instrument.id = "dial-1";
  instrument.graduation = metres(1.27e-5);
  judged.sweep = evaluate_sweep(readings, sweep_setup_of(check, sweep), &instrument);
  judged.value = AnyQuantity(judged.sweep->tir.value);
  if (judged.sweep->tir_u) judged.standard_uncertainty = judged.sweep->tir_u->value();
  judged.instrument_graduation_si = 1.27e-5;
  judged.conformance_probability = 0.62;
}

SampleJob sample_job() {
  SampleJob sample;
  sample.header = {"T-0001",           "orchard packing line", "invented end-suction pump", "SN-17",
                   "leak at the seal", job::CameFor::fault,    at("2026-11-18T07:50:00Z"),  true};
  sample.record_hash = "4f0c9a1de2b7358846aa01c3d5e7f90b4f0c9a1de2b7358846aa01c3d5e7f90b";
  sample.snapshot.plan = plan();
  sample.snapshot.program = "pumpwright 0.1.0";
  sample.snapshot.catalog_digest = "00112233445566778899aabbccddeeff";
  job::MakeUp& make_up = sample.snapshot.make_up;
  make_up.driver.standard = "nema";
  make_up.driver.frame = "184JM";
  make_up.sleeve = true;
  make_up.seal.kind = "elastomer-bellows";
  make_up.seal.elastomer = "EPDM";
  make_up.seal.lubricant = "glycol-water";
  make_up.service.fluid = "water-glycol";
  make_up.service.temperature = written("82 degC", Kind::temperature);
  make_up.speed = written("3550 rpm", Kind::speed);
  for (const auto& [name, mm] :
       {std::pair{"shaft_diameter", 28.6}, {"shaft_length", 133.0}, {"impeller_diameter", 178.0}}) {
    job::Dimension dimension;
    dimension.nominal = metres(mm / 1000);
    make_up.dimensions[name] = dimension;
  }
  sample.section = job::section_of(make_up);

  job::Reading plate = reading_of("r1", "plate", "2026-11-18T08:04:00Z");
  plate.body = job::Confirmation{true, ""};
  job::Reading size = reading_of("r2", "sleeve-size", "2026-11-18T08:30:00Z");
  size.instrument = "mic-1";
  size.body = job::SizeReading{
      {{"at the end", 0, written("1.3741 in")}, {"at the end", 90, written("1.3740 in")}}, {}, {}};
  job::Reading old = reading_of("r3", "register-sweep", "2026-11-18T08:40:00Z");
  old.body = sweep_with(4, 1.8, "housing");
  job::Reading sweep = reading_of("r4", "register-sweep", "2026-11-18T09:10:30Z");
  sweep.instrument = "dial-1";
  sweep.replaces = "r3";
  sample.state.standing = {{"plate", {plate}}, {"sleeve-size", {size}}, {"register-sweep", {sweep}}};
  sample.state.replaced = {old};
  sample.state.deviations["working-length"] = {
      "working-length", "The seal maker allows 35 mm for this spring.", at("2026-11-18T09:30:00Z"), "L.H."};
  sample.state.holds_released["parts"] = {"parts", at("2026-11-18T09:20:00Z"), "L.H."};

  job::JudgedReading judged_size = judged_of("r2", Verdict::pass, Reason::inside);
  judged_size.value = AnyQuantity(Kind::length, size.body.index() == 2 ? 0.034902 : 0);
  judged_size.standard_uncertainty = 1.5e-6;
  judged_size.instrument_graduation_si = 2.54e-6;
  judged_size.conformance_probability = 0.99999;
  job::JudgedReading judged_sweep = judged_of("r4", Verdict::unproven, Reason::inside_uncertainty);
  judged_sweep.settle = job::Settle{{"an indicator of 0.1 thou", "un comparador de 0.1 thou"}, std::nullopt};
  job::Judgement& j = sample.judgement;
  j.findings = {finding_of("plate", judged_of("r1", Verdict::pass, Reason::confirmed)),
                finding_of("sleeve-size", judged_size), finding_of("register-sweep", judged_sweep),
                finding_of("end-float", judged_of("", Verdict::not_taken, Reason::not_taken)),
                chain_finding()};
  j.open = {{"parts", "end-float", {"no reading yet", "todavía sin lectura"}}};
  j.passed = 2;
  j.failed = 1;
  j.unproven = 1;
  j.not_taken = 1;
  put_sweep(sample, sweep_with(12, 1.9, "housing"));
  return sample;
}

SampleJob empty_job() {
  SampleJob sample = sample_job();
  for (job::Step& step : sample.snapshot.plan.steps)
    for (job::Check& check : step.checks)
      check.limits.clear();
  sample.state = {};
  for (job::CheckFinding& finding : sample.judgement.findings) {
    const std::string id = finding.check;
    finding = finding_of(id, judged_of("", Verdict::not_taken, Reason::not_taken));
  }
  sample.judgement.open.clear();
  sample.snapshot.make_up.dimensions.clear();
  sample.section = job::section_of(sample.snapshot.make_up);
  return sample;
}

}  // namespace pumpwright::report::testing
