// The shop's own certificate authority and the server certificate it signs, so that tablets can speak to the
// server over TLS without anyone outside the shop. Elliptic curve P-256; keys are files only their owner can
// read.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace pumpwright::server {

struct CertificateFiles {
  std::filesystem::path shop_certificate;    // what a tablet is told to trust (PEM)
  std::filesystem::path server_certificate;  // with the shop's behind it (PEM)
  std::filesystem::path server_key;
};

struct ShopCertificate {
  CertificateFiles files;
  std::string fingerprint;  // SHA-256 of the shop's certificate, "3F:2A:…"
};

// Makes what is missing in `directory`: the authority for ten years, the server certificate for 397 days. The
// server certificate is made anew when it has less than 30 days left or does not carry every name. `names`
// are host names and addresses. Throws BadInput for a name that can be neither, std::runtime_error when a
// file can not be written.
ShopCertificate prepare_certificate(const std::filesystem::path& directory,
                                    const std::vector<std::string>& names, std::int64_t now_s);

// The host name of this machine, with and without ".local", and the addresses of its network interfaces.
std::vector<std::string> names_of_this_machine();

}  // namespace pumpwright::server
