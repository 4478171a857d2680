#include "shop/release.h"

#include <array>
#include <limits>

#include <nlohmann/json.hpp>

#include "job/json_reader.h"

namespace pumpwright::shop {
namespace {

std::string bytes_of(const Release& r) {
  const std::array<std::string, 8> fields{r.stream,
                                          std::to_string(r.seq),
                                          r.head,
                                          r.statement,
                                          r.time,
                                          r.person.id,
                                          std::string(word_of(r.person.role)),
                                          r.person.public_key};
  return signed_bytes("pumpwright-release-1", fields);
}

}  // namespace

void sign(Release& release, const SigningKey& key) {
  release.signature = key.sign(bytes_of(release));
}

bool is_signed(const Release& release) {
  return signature_holds(release.person.public_key, bytes_of(release), release.signature);
}

std::string encode_release(const Release& r) {
  const nlohmann::ordered_json json{{"as", "release"},
                                    {"seq", r.seq},
                                    {"head", r.head},
                                    {"statement", r.statement},
                                    {"time", r.time},
                                    {"person", r.person.id},
                                    {"name", r.person.name},
                                    {"role", word_of(r.person.role)},
                                    {"public_key", r.person.public_key},
                                    {"certificate", r.person.certificate},
                                    {"signature", r.signature}};
  return json.dump();
}

Release decode_release(const std::string& payload, const std::string& stream) {
  const auto at = job::JsonReader::parse(payload);
  Release r;
  r.stream = stream;
  at.required("as").word({"release"});
  r.seq = static_cast<std::uint64_t>(at.required("seq").integer(0, std::numeric_limits<std::int64_t>::max()));
  r.head = at.required("head").text(64);
  r.statement = at.required("statement").text(2048);
  r.time = at.required("time").text(64);
  r.person.id = at.required("person").text(64);
  r.person.name = at.required("name").text(128);
  r.person.role = *role_from(at.required("role").word({"technician", "lead-hand", "office", "read-only"}));
  r.person.public_key = at.required("public_key").text(64);
  r.person.certificate = at.required("certificate").text(128);
  r.signature = at.required("signature").text(128);
  return r;
}

}  // namespace pumpwright::shop
