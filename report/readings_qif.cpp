#include "report/readings_qif.h"

#include <algorithm>
#include <map>
#include <sstream>
#include <vector>

#include <fmt/format.h>
#include <pugixml.hpp>

#include "job/one_line.h"
#include "report/record_text.h"

namespace pumpwright::report {
namespace {

using pugi::xml_node;

constexpr const char* qif_namespace = "http://qifstandards.org/xsd/qif3";
constexpr const char* qif_version = "3.0.0";
constexpr double mm_per_metre = 1000;
constexpr double coverage_factor = 2;

void put_text(xml_node parent, const char* name, const std::string& text) {
  parent.append_child(name).text().set(one_line(text).c_str());
}

// xs:decimal has no exponent; a tenth of a nanometre is far below any instrument.
std::string mm_text(double si) {
  std::string text = fmt::format("{:.7f}", mm_per_metre * si);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.ends_with('.')) text.pop_back();
  return text == "-0" ? "0" : text;
}

// One check whose readings are lengths.
struct Measured {
  const job::Check* check = nullptr;
  const job::CheckFinding* finding = nullptr;
};

bool is_dimensional(const job::Check& check, const job::CheckFinding& finding) {
  const bool is_read = check.kind == job::CheckKind::sweep || check.kind == job::CheckKind::size ||
                       check.kind == job::CheckKind::value || check.kind == job::CheckKind::chain;
  return is_read && check.quantity == Kind::length &&
         std::any_of(finding.readings.begin(), finding.readings.end(),
                     [](const job::JudgedReading& judged) { return judged.value.has_value(); });
}

std::vector<Measured> measured_in(const BuildRecordInput& in) {
  std::vector<Measured> out;
  for (const auto& step : in.snapshot.plan.steps)
    for (const auto& check : step.checks)
      if (const auto* finding = in.judgement.find(check.id); is_dimensional(check, *finding))
        out.push_back({&check, finding});
  return out;
}

// The standard's name of the characteristic. A runout must have a tolerance.
std::string characteristic_of(const job::Check& check) {
  const bool bounded = !check.limits.empty() && check.limits.front().upper;
  if (check.judged == job::Judged::tir && bounded) return "CircularRunoutCharacteristic";
  return check.judged == job::Judged::local_size ? "DiameterCharacteristic" : "LengthCharacteristic";
}

const char* status_of(job::Verdict verdict) {
  if (verdict == job::Verdict::pass) return "PASS";
  return verdict == job::Verdict::fail ? "FAIL" : "INDETERMINATE";
}

// Ids in a document are numbers of their own.
class Document {
 public:
  explicit Document(const BuildRecordInput& in) : in_(in), measured_(measured_in(in)) {}

  std::string text() {
    root_ = document_.append_child("QIFDocument");
    root_.append_attribute("xmlns") = qif_namespace;
    root_.append_attribute("versionQIF") = qif_version;
    root_.append_attribute("idMax");
    put_text(root_, "QPId", qpid());
    put_front();
    put_units();
    put_devices();
    if (!measured_.empty()) put_characteristics();
    put_results();
    root_.attribute("idMax") = last_id_;
    std::ostringstream out;
    document_.save(out, "  ", pugi::format_default, pugi::encoding_utf8);
    return out.str();
  }

 private:
  int next_id() { return ++last_id_; }

  // A UUID of the record's hash (RFC 9562, version 8): the same record, the same document.
  std::string qpid() const {
    std::string hex = (in_.record_hash + std::string(32, '0')).substr(0, 32);
    hex[12] = '8';
    hex[16] = 'a';
    return hex.substr(0, 8) + "-" + hex.substr(8, 4) + "-" + hex.substr(12, 4) + "-" + hex.substr(16, 4) +
           "-" + hex.substr(20);
  }

  void put_front() {
    const auto last = last_event(in_.state, in_.header.opened);
    put_text(root_.append_child("Version"), "TimeCreated", job::format_utc_time(last));
    xml_node header = root_.append_child("Header");
    put_text(header.append_child("Application"), "Name", "Pumpwright");
    put_text(header, "Description", "Job " + in_.header.number + ", " + in_.header.pump);
    put_text(header, "Scope", "Results");
  }

  void put_units() {
    xml_node unit = root_.append_child("FileUnits").append_child("PrimaryUnits").append_child("LinearUnit");
    put_text(unit, "SIUnitName", "meter");
    put_text(unit, "UnitName", "mm");
    put_text(unit.append_child("UnitConversion"), "Factor", "0.001");
  }

  void put_devices() {
    for (const Measured& one : measured_)
      for (const auto& judged : one.finding->readings)
        if (const job::Reading* taken = find_reading(in_.state, judged.reading_id);
            taken != nullptr && !taken->instrument.empty())
          device_ids_.emplace(taken->instrument, 0);
    if (device_ids_.empty()) return;
    xml_node devices = root_.append_child("MeasurementResources").append_child("MeasurementDevices");
    devices.append_attribute("n") = device_ids_.size();
    for (auto& [instrument, id] : device_ids_) {
      id = next_id();
      xml_node device = devices.append_child("MeasurementDevice");
      device.append_attribute("id") = id;
      const auto known = in_.snapshot.instruments.find(instrument);
      put_text(device, "Name",
               known == in_.snapshot.instruments.end()
                   ? instrument
                   : instrument + ", " + known->second.kind + " " + known->second.graduation.text);
    }
  }

  xml_node list(xml_node parent, const char* name, std::size_t count) {
    xml_node out = parent.append_child(name);
    out.append_attribute("n") = count;
    return out;
  }

  xml_node numbered(xml_node parent, const std::string& name, int id) {
    xml_node out = parent.append_child(name.c_str());
    out.append_attribute("id") = id;
    return out;
  }

  void put_tolerance(xml_node definition, const job::Check& check) {
    const job::Limit* limit = check.limits.empty() ? nullptr : &check.limits.front();
    if (characteristic_of(check) == "CircularRunoutCharacteristic") {
      put_text(definition, "ToleranceValue", mm_text(limit->upper->si));
      return;
    }
    if (limit == nullptr || (!limit->lower && !limit->upper)) {
      put_text(definition, "NonTolerance", "MEASURED");
      return;
    }
    xml_node tolerance = definition.append_child("Tolerance");
    if (limit->upper) put_text(tolerance, "MaxValue", mm_text(limit->upper->si));
    if (limit->lower) put_text(tolerance, "MinValue", mm_text(limit->lower->si));
    put_text(tolerance, "DefinedAsLimit", "true");
  }

  void put_characteristics() {
    xml_node all = root_.append_child("Characteristics");
    std::vector<int> definitions, nominals;
    xml_node part = list(all, "CharacteristicDefinitions", measured_.size());
    for (const Measured& one : measured_) {
      definitions.push_back(next_id());
      put_tolerance(numbered(part, characteristic_of(*one.check) + "Definition", definitions.back()),
                    *one.check);
    }
    part = list(all, "CharacteristicNominals", measured_.size());
    for (std::size_t i = 0; i < measured_.size(); ++i) {
      nominals.push_back(next_id());
      put_text(numbered(part, characteristic_of(*measured_[i].check) + "Nominal", nominals.back()),
               "CharacteristicDefinitionId", std::to_string(definitions[i]));
    }
    part = list(all, "CharacteristicItems", measured_.size());
    for (std::size_t i = 0; i < measured_.size(); ++i) {
      const job::Check& check = *measured_[i].check;
      items_.push_back(next_id());
      xml_node item = numbered(part, characteristic_of(check) + "Item", items_.back());
      put_text(item, "Name", check.title.in(in_.language));
      put_text(item.append_child("CharacteristicDesignator"), "Designator", check.id);
      put_text(item, "CharacteristicNominalId", std::to_string(nominals[i]));
    }
  }

  void put_attributes(xml_node measurement, const job::JudgedReading& judged) {
    std::vector<std::pair<std::string, std::string>> facts{
        {"reason", std::string(job::word_of(judged.reason))}};
    if (!judged.as_written.empty()) facts.emplace_back("as written", judged.as_written);
    if (judged.standard_uncertainty)
      facts.emplace_back("expanded uncertainty (k = 2), mm",
                         mm_text(coverage_factor * *judged.standard_uncertainty));
    xml_node attributes = list(measurement, "Attributes", facts.size());
    for (const auto& [name, value] : facts) {
      xml_node attribute = attributes.append_child("AttributeStr");
      attribute.append_attribute("name") = name.c_str();
      attribute.append_attribute("value") = one_line(value).c_str();
    }
  }

  void put_measurement(xml_node list_of, std::size_t which, const job::JudgedReading& judged) {
    xml_node out = numbered(list_of, characteristic_of(*measured_[which].check) + "Measurement", next_id());
    put_attributes(out, judged);
    put_text(out.append_child("Status"), "CharacteristicStatusEnum", status_of(judged.verdict));
    put_text(out, "CharacteristicItemId", std::to_string(items_[which]));
    if (const job::Reading* taken = find_reading(in_.state, judged.reading_id)) {
      put_text(out, "TimeStamp", job::format_utc_time(taken->time));
      if (const auto device = device_ids_.find(taken->instrument); device != device_ids_.end())
        put_text(list(out, "MeasurementDeviceIds", 1), "Id", std::to_string(device->second));
    }
    put_text(out, "Value", mm_text(judged.value->si()));
  }

  void put_results() {
    const int results = next_id(), component = next_id();
    xml_node root = root_.append_child("Results");
    xml_node one = numbered(list(root, "MeasurementResultsSet", 1), "MeasurementResults", results);
    std::vector<std::pair<std::size_t, const job::JudgedReading*>> readings;
    for (std::size_t i = 0; i < measured_.size(); ++i)
      for (const auto& judged : measured_[i].finding->readings)
        if (judged.value) readings.emplace_back(i, &judged);
    if (!readings.empty()) {
      xml_node measurements =
          list(one.append_child("MeasuredCharacteristics"), "CharacteristicMeasurements", readings.size());
      for (const auto& [which, judged] : readings)
        put_measurement(measurements, which, *judged);
    }
    const std::string status = overall(readings);
    put_text(one.append_child("InspectionStatus"), "InspectionStatusEnum", status);
    put_text(list(one, "ActualComponentIds", 1), "Id", std::to_string(component));
    xml_node actual = numbered(list(list(root, "ActualComponentSets", 1), "ActualComponentSet", 1),
                               "ActualComponent", component);
    if (!in_.header.serial.empty()) put_text(actual, "SerialNumber", in_.header.serial);
    put_text(actual.append_child("Status"), "InspectionStatusEnum", status);
  }

  static std::string overall(const std::vector<std::pair<std::size_t, const job::JudgedReading*>>& readings) {
    if (readings.empty()) return "NOT_MEASURED";
    std::string status = "PASS";
    for (const auto& [which, judged] : readings) {
      if (judged->verdict == job::Verdict::fail) return "FAIL";
      if (judged->verdict != job::Verdict::pass) status = "UNKNOWN";
    }
    return status;
  }

  const BuildRecordInput& in_;
  std::vector<Measured> measured_;
  pugi::xml_document document_;
  xml_node root_;
  int last_id_ = 0;
  std::map<std::string, int> device_ids_;  // by instrument
  std::vector<int> items_;                 // in the order of measured_
};

}  // namespace

std::string readings_qif(const BuildRecordInput& input) {
  return Document(input).text();
}

}  // namespace pumpwright::report
