#include "server/certificate.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <ctime>
#include <memory>
#include <stdexcept>
#include <string_view>

#include <arpa/inet.h>
#include <fcntl.h>
#include <ifaddrs.h>
#include <openssl/evp.h>
#include <openssl/pem.h>
#include <openssl/rand.h>
#include <openssl/x509v3.h>
#include <sys/stat.h>
#include <unistd.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright::server {
namespace {

namespace fs = std::filesystem;

constexpr std::int64_t day_s = std::int64_t{24} * 3600;
constexpr std::int64_t shop_days = 3650;
constexpr std::int64_t server_days = 397;
constexpr std::int64_t renew_days = 30;

template <auto free>
struct Freed {
  template <class T>
  void operator()(T* object) const {
    free(object);
  }
};
using Key = std::unique_ptr<EVP_PKEY, Freed<EVP_PKEY_free>>;
using Certificate = std::unique_ptr<X509, Freed<X509_free>>;
using Bio = std::unique_ptr<BIO, Freed<BIO_free_all>>;
using Extension = std::unique_ptr<X509_EXTENSION, Freed<X509_EXTENSION_free>>;

[[noreturn]] void fail(const std::string& what) {
  throw std::runtime_error("certificate: " + what);
}

template <class T>
T want(T value, const char* what) {
  if (!value) fail(what);
  return value;
}

// --- files

std::string pem_of(const Key& key) {
  const Bio bio(want(BIO_new(BIO_s_mem()), "no memory"));
  want(PEM_write_bio_PKCS8PrivateKey(bio.get(), key.get(), nullptr, nullptr, 0, nullptr, nullptr),
       "key to text");
  char* bytes = nullptr;
  const auto size = BIO_get_mem_data(bio.get(), &bytes);
  return {bytes, static_cast<std::size_t>(size)};
}

std::string pem_of(const Certificate& certificate) {
  const Bio bio(want(BIO_new(BIO_s_mem()), "no memory"));
  want(PEM_write_bio_X509(bio.get(), certificate.get()), "certificate to text");
  char* bytes = nullptr;
  const auto size = BIO_get_mem_data(bio.get(), &bytes);
  return {bytes, static_cast<std::size_t>(size)};
}

// Written beside and renamed, so that a power cut leaves the old file or the new one.
void write_file(const fs::path& path, const std::string& bytes, mode_t mode) {
  const auto beside = path.string() + ".new";
  ::unlink(beside.c_str());
  const int file = ::open(beside.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, mode);
  if (file < 0) fail("can not write " + beside);
  const bool written =
      ::write(file, bytes.data(), bytes.size()) == static_cast<ssize_t>(bytes.size()) && ::fsync(file) == 0;
  ::close(file);
  if (!written || ::rename(beside.c_str(), path.c_str()) != 0) fail("can not write " + path.string());
}

Key read_key(const fs::path& path) {
  const Bio bio(BIO_new_file(path.c_str(), "r"));
  return Key(bio ? PEM_read_bio_PrivateKey(bio.get(), nullptr, nullptr, nullptr) : nullptr);
}

Certificate read_certificate(const fs::path& path) {
  const Bio bio(BIO_new_file(path.c_str(), "r"));
  return Certificate(bio ? PEM_read_bio_X509(bio.get(), nullptr, nullptr, nullptr) : nullptr);
}

// --- making

struct Wanted {
  std::string common_name;
  std::int64_t now_s = 0;
  std::int64_t days = 0;
};

Certificate blank(const Key& key, const Wanted& wanted) {
  Certificate made(want(X509_new(), "no memory"));
  X509_set_version(made.get(), X509_VERSION_3);
  std::array<unsigned char, 16> serial{};
  want(RAND_bytes(serial.data(), static_cast<int>(serial.size())) == 1, "no random bytes");
  serial[0] &= 0x7F;
  const std::unique_ptr<BIGNUM, Freed<BN_free>> number(
      want(BN_bin2bn(serial.data(), static_cast<int>(serial.size()), nullptr), "no memory"));
  BN_to_ASN1_INTEGER(number.get(), X509_get_serialNumber(made.get()));
  // An hour back: a tablet's clock may be behind.
  ASN1_TIME_set(X509_getm_notBefore(made.get()), wanted.now_s - 3600);
  ASN1_TIME_set(X509_getm_notAfter(made.get()), wanted.now_s + wanted.days * day_s);
  auto* subject = X509_get_subject_name(made.get());
  X509_NAME_add_entry_by_txt(subject, "CN", MBSTRING_UTF8,
                             reinterpret_cast<const unsigned char*>(wanted.common_name.c_str()), -1, -1, 0);
  want(X509_set_pubkey(made.get(), key.get()), "public key");
  return made;
}

void extend(const Certificate& certificate, const Certificate& issuer, int what, const std::string& value) {
  X509V3_CTX context;
  X509V3_set_ctx(&context, issuer.get(), certificate.get(), nullptr, nullptr, 0);
  const Extension extension(want(X509V3_EXT_conf_nid(nullptr, &context, what, value.c_str()), "extension"));
  want(X509_add_ext(certificate.get(), extension.get(), -1), "extension");
}

Certificate make_shop_certificate(const Key& key, std::int64_t now_s) {
  auto made = blank(key, {.common_name = "Pumpwright shop certificate", .now_s = now_s, .days = shop_days});
  want(X509_set_issuer_name(made.get(), X509_get_subject_name(made.get())), "issuer");
  extend(made, made, NID_basic_constraints, "critical,CA:TRUE,pathlen:0");
  extend(made, made, NID_key_usage, "critical,keyCertSign,cRLSign");
  extend(made, made, NID_subject_key_identifier, "hash");
  want(X509_sign(made.get(), key.get(), EVP_sha256()), "signature");
  return made;
}

bool is_address(const std::string& name) {
  std::array<unsigned char, 16> bytes{};
  return ::inet_pton(AF_INET, name.c_str(), bytes.data()) == 1 ||
         ::inet_pton(AF_INET6, name.c_str(), bytes.data()) == 1;
}

bool is_host_name(const std::string& name) {
  const auto plain = [](char c) {
    return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '-' || c == '.' || c == '_';
  };
  return !name.empty() && name.size() <= 253 && name.front() != '.' && name.front() != '-' &&
         std::all_of(name.begin(), name.end(), plain);
}

std::string alternative_names(const std::vector<std::string>& names) {
  std::string list;
  for (const auto& name : names) {
    if (!is_address(name) && !is_host_name(name))
      throw BadInput(
          {.field = "--tls-name", .place = "", .value = name, .expected = "a host name or an address"});
    list.append(list.empty() ? "" : ",").append(is_address(name) ? "IP:" : "DNS:").append(name);
  }
  return list;
}

struct Authority {
  Key key;
  Certificate certificate;
};

Certificate make_server_certificate(const Key& key, const Authority& shop,
                                    const std::vector<std::string>& names, std::int64_t now_s) {
  auto made = blank(key, {.common_name = "Pumpwright server", .now_s = now_s, .days = server_days});
  want(X509_set_issuer_name(made.get(), X509_get_subject_name(shop.certificate.get())), "issuer");
  extend(made, shop.certificate, NID_basic_constraints, "critical,CA:FALSE");
  extend(made, shop.certificate, NID_key_usage, "critical,digitalSignature");
  extend(made, shop.certificate, NID_ext_key_usage, "serverAuth");
  extend(made, shop.certificate, NID_subject_key_identifier, "hash");
  extend(made, shop.certificate, NID_authority_key_identifier, "keyid:always");
  extend(made, shop.certificate, NID_subject_alt_name, alternative_names(names));
  want(X509_sign(made.get(), shop.key.get(), EVP_sha256()), "signature");
  return made;
}

// --- looking

bool lasts(const Certificate& certificate, std::int64_t until_s) {
  std::time_t until = until_s;
  return X509_cmp_time(X509_get0_notAfter(certificate.get()), &until) > 0;
}

bool carries(const Certificate& certificate, const std::string& name) {
  if (is_address(name)) return X509_check_ip_asc(certificate.get(), name.c_str(), 0) == 1;
  return X509_check_host(certificate.get(), name.c_str(), name.size(), 0, nullptr) == 1;
}

bool still_serves(const Certificate& certificate, const Key& key, const Authority& shop,
                  const std::vector<std::string>& names, std::int64_t now_s) {
  return certificate && key && X509_check_private_key(certificate.get(), key.get()) == 1 &&
         X509_verify(certificate.get(), shop.key.get()) == 1 &&
         lasts(certificate, now_s + renew_days * day_s) &&
         std::all_of(names.begin(), names.end(),
                     [&](const auto& name) { return carries(certificate, name); });
}

std::string fingerprint_of(const Certificate& certificate) {
  std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
  unsigned int size = 0;
  want(X509_digest(certificate.get(), EVP_sha256(), digest.data(), &size), "fingerprint");
  static constexpr std::string_view digits = "0123456789ABCDEF";
  std::string text;
  for (unsigned int i = 0; i < size; ++i) {
    if (i > 0) text += ':';
    text += digits[digest.at(i) >> 4U];
    text += digits[digest.at(i) & 15U];
  }
  return text;
}

Authority prepare_authority(const fs::path& key_file, const fs::path& certificate_file, std::int64_t now_s) {
  Authority shop{.key = read_key(key_file), .certificate = read_certificate(certificate_file)};
  if (shop.key && shop.certificate && X509_check_private_key(shop.certificate.get(), shop.key.get()) == 1 &&
      lasts(shop.certificate, now_s + server_days * day_s))
    return shop;
  shop.key = Key(want(EVP_EC_gen("P-256"), "key"));
  shop.certificate = make_shop_certificate(shop.key, now_s);
  write_file(key_file, pem_of(shop.key), 0600);
  write_file(certificate_file, pem_of(shop.certificate), 0644);
  return shop;
}

}  // namespace

ShopCertificate prepare_certificate(const fs::path& directory, const std::vector<std::string>& names,
                                    std::int64_t now_s) {
  const ShopCertificate prepared{.files = {.shop_certificate = directory / "shop-certificate.pem",
                                           .server_certificate = directory / "server-certificate.pem",
                                           .server_key = directory / "server-key.pem"},
                                 .fingerprint = {}};
  const auto shop = prepare_authority(directory / "shop-key.pem", prepared.files.shop_certificate, now_s);
  auto key = read_key(prepared.files.server_key);
  if (!still_serves(read_certificate(prepared.files.server_certificate), key, shop, names, now_s)) {
    key = Key(want(EVP_EC_gen("P-256"), "key"));
    const auto made = make_server_certificate(key, shop, names, now_s);
    write_file(prepared.files.server_key, pem_of(key), 0600);
    write_file(prepared.files.server_certificate, pem_of(made) + pem_of(shop.certificate), 0644);
  }
  return {.files = prepared.files, .fingerprint = fingerprint_of(shop.certificate)};
}

std::vector<std::string> names_of_this_machine() {
  std::vector<std::string> names;
  std::array<char, 256> host{};
  if (::gethostname(host.data(), host.size() - 1) == 0 && is_host_name(host.data())) {
    const std::string name = host.data();
    names.push_back(name);
    if (name.find('.') == std::string::npos) names.push_back(name + ".local");
  }
  ifaddrs* first = nullptr;
  if (::getifaddrs(&first) != 0) return names;
  const std::unique_ptr<ifaddrs, Freed<::freeifaddrs>> interfaces(first);
  for (const auto* at = first; at != nullptr; at = at->ifa_next) {
    if (at->ifa_addr == nullptr) continue;
    std::array<char, INET6_ADDRSTRLEN> text{};
    const void* address = nullptr;
    if (at->ifa_addr->sa_family == AF_INET)
      address = &reinterpret_cast<const sockaddr_in*>(at->ifa_addr)->sin_addr;
    else if (at->ifa_addr->sa_family == AF_INET6)
      address = &reinterpret_cast<const sockaddr_in6*>(at->ifa_addr)->sin6_addr;
    if (address == nullptr ||
        ::inet_ntop(at->ifa_addr->sa_family, address, text.data(), text.size()) == nullptr)
      continue;
    const std::string name = text.data();
    if (!name.starts_with("fe80:") && std::find(names.begin(), names.end(), name) == names.end())
      names.push_back(name);
  }
  return names;
}

}  // namespace pumpwright::server
