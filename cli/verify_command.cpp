#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "cli/command.h"
#include "cli/input_file.h"
#include "cli/json_values.h"
#include "cli/program.h"
#include "shop/record.h"

namespace pumpwright {
namespace {

constexpr std::size_t record_bytes_max = 256'000'000;
constexpr std::size_t key_bytes_max = 4096;

struct VerifyArguments {
  std::string file, trust, head;
  bool json = false;
};

std::string proof_text(const shop::Record& record, const shop::RecordProof& proof) {
  std::string text = fmt::format("{}  {}, {} events, last {}\n", proof.holds() ? "PROVEN" : "NOT PROVEN",
                                 record.stream, proof.events, proof.head);
  for (const auto& s : proof.signatures)
    text += fmt::format("  signed    event {}: {}, {} ({}), {}: {}\n", s.seq, s.person, s.name, s.role,
                        s.time, s.statement);
  if (proof.signatures.empty()) text += "  nobody has signed this record\n";
  for (const auto& fault : proof.faults)
    text += fmt::format("  {}\n", fault.what);
  return text;
}

std::string proof_json(const shop::Record& record, const shop::RecordProof& proof) {
  OrderedJson json{
      {"stream", record.stream}, {"proven", proof.holds()}, {"events", proof.events}, {"head", proof.head}};
  json["signatures"] = OrderedJson::array();
  for (const auto& s : proof.signatures)
    json["signatures"].push_back({{"seq", s.seq},
                                  {"person", s.person},
                                  {"name", s.name},
                                  {"role", s.role},
                                  {"time", s.time},
                                  {"statement", s.statement}});
  json["faults"] = OrderedJson::array();
  for (const auto& fault : proof.faults)
    json["faults"].push_back({{"seq", fault.seq}, {"what", fault.what}});
  return json.dump(2) + "\n";
}

Answer run_verify(const VerifyArguments& a, const Surroundings& surroundings) {
  const std::string bytes = read_input(a.file, record_bytes_max, surroundings.in);
  const auto record = naming_file(a.file, [&] { return shop::decode_record(bytes); });
  const std::string key = naming_file(a.trust, [&] {
    return shop::public_key_from_text(read_input(a.trust, key_bytes_max, surroundings.in));
  });
  const auto proof = shop::prove(record, key, a.head.empty() ? std::nullopt : std::optional(a.head));
  return {.text = a.json ? proof_json(record, proof) : proof_text(record, proof),
          .exit_status = proof.holds() ? exit_all_pass : exit_not_all_pass};
}

}  // namespace

void add_verify_command(CLI::App& app, Action& chosen) {
  auto a = std::make_shared<VerifyArguments>();
  auto* verify =
      add_command(app, "verify", "Prove that a record is whole, unchanged and signed, without a database",
                  "pumpwright verify G-2117.json --trust shop.pub");
  is_file(*verify->add_option("RECORD", a->file, "Record as the shop exported it; - for standard input")
               ->required());
  is_file(
      *verify
           ->add_option("--trust", a->trust,
                        "The shop's public key, got on another way than the record (pumpwright public-key)")
           ->required());
  verify->add_option("--head", a->head, "Hash the last event must have: shows a record that was cut short")
      ->type_name("HASH");
  verify->add_flag("--json", a->json, "Answer as JSON");
  verify->callback([a, &chosen] { chosen = [a](const Surroundings& s) { return run_verify(*a, s); }; });
}

}  // namespace pumpwright
