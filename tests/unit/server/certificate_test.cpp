#include "server/certificate.h"

#include <fstream>
#include <iterator>

#include <gtest/gtest.h>
#include <openssl/pem.h>
#include <openssl/x509v3.h>
#include <sys/stat.h>

#include "engine/quantity/bad_input.h"
#include "server/data_lock.h"
#include "tests/unit/server/a_store.h"

namespace pumpwright::server {
namespace {

constexpr std::int64_t now_s = 1'764'000'000;
constexpr std::int64_t day_s = 24 * 3600;

using Certificate = std::unique_ptr<X509, decltype(&X509_free)>;

Certificate read(const std::filesystem::path& path) {
  const std::unique_ptr<BIO, decltype(&BIO_free_all)> bio(BIO_new_file(path.c_str(), "r"), BIO_free_all);
  return {PEM_read_bio_X509(bio.get(), nullptr, nullptr, nullptr), X509_free};
}

std::string bytes_of(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

mode_t mode_of(const std::filesystem::path& path) {
  struct stat found {};
  EXPECT_EQ(::stat(path.c_str(), &found), 0);
  return found.st_mode & 0777U;
}

TEST(ShopCertificate, SignsAServerCertificateWithEveryName) {
  const TemporaryDirectory directory;
  const auto prepared =
      prepare_certificate(directory.path(), {"localhost", "127.0.0.1", "::1", "shop.local"}, now_s);
  const auto shop = read(prepared.files.shop_certificate);
  const auto server = read(prepared.files.server_certificate);
  ASSERT_TRUE(shop && server);
  EXPECT_EQ(X509_verify(server.get(), X509_get0_pubkey(shop.get())), 1);
  EXPECT_EQ(X509_check_ca(shop.get()), 1);
  EXPECT_EQ(X509_check_ca(server.get()), 0);
  EXPECT_EQ(X509_check_host(server.get(), "shop.local", 0, 0, nullptr), 1);
  EXPECT_EQ(X509_check_host(server.get(), "other.local", 0, 0, nullptr), 0);
  EXPECT_EQ(X509_check_ip_asc(server.get(), "127.0.0.1", 0), 1);
  EXPECT_EQ(X509_check_ip_asc(server.get(), "::1", 0), 1);
  EXPECT_EQ(EVP_PKEY_bits(X509_get0_pubkey(server.get())), 256);
  EXPECT_EQ(prepared.fingerprint.size(), 32 * 3 - 1U);
}

TEST(ShopCertificate, KeysAreReadableByTheirOwnerOnly) {
  const TemporaryDirectory directory;
  const auto prepared = prepare_certificate(directory.path(), {"localhost"}, now_s);
  EXPECT_EQ(mode_of(directory.path() / "shop-key.pem"), 0600U);
  EXPECT_EQ(mode_of(prepared.files.server_key), 0600U);
}

TEST(ShopCertificate, StaysTheSameWhileItServes) {
  const TemporaryDirectory directory;
  const auto first = prepare_certificate(directory.path(), {"localhost", "a.local"}, now_s);
  const auto server = bytes_of(first.files.server_certificate);
  const auto again = prepare_certificate(directory.path(), {"localhost"}, now_s + 300 * day_s);
  EXPECT_EQ(again.fingerprint, first.fingerprint);
  EXPECT_EQ(bytes_of(again.files.server_certificate), server);
}

TEST(ShopCertificate, OnlyTheServersIsMadeAnewForANewNameOrBeforeItEnds) {
  const TemporaryDirectory directory;
  const auto first = prepare_certificate(directory.path(), {"localhost"}, now_s);
  const auto server = bytes_of(first.files.server_certificate);
  const auto named = prepare_certificate(directory.path(), {"localhost", "b.local"}, now_s);
  EXPECT_EQ(named.fingerprint, first.fingerprint);
  EXPECT_NE(bytes_of(named.files.server_certificate), server);
  const auto renamed = bytes_of(named.files.server_certificate);
  const auto later = prepare_certificate(directory.path(), {"localhost", "b.local"}, now_s + 370 * day_s);
  EXPECT_EQ(later.fingerprint, first.fingerprint);
  EXPECT_NE(bytes_of(later.files.server_certificate), renamed);
}

TEST(ShopCertificate, RefusesANameThatIsNone) {
  const TemporaryDirectory directory;
  for (const auto* name : {"a b", "", "a,DNS:evil.example", "https://shop", "-x"})
    EXPECT_THROW(prepare_certificate(directory.path(), {name}, now_s), BadInput) << name;
}

TEST(DataLock, KeepsASecondServerOutWhileTheFirstLives) {
  const TemporaryDirectory directory;
  const auto data = directory.path() / "a" / "shop";
  {
    const DataLock first(data);
    EXPECT_EQ(mode_of(data), 0700U);
    EXPECT_THROW(DataLock second(data), BadInput);
  }
  EXPECT_NO_THROW(DataLock third(data));
}

TEST(DataLock, RefusesWhatIsNoDirectory) {
  const TemporaryDirectory directory;
  const auto file = directory.path() / "file";
  std::ofstream(file) << "x";
  EXPECT_THROW(DataLock lock(file), BadInput);
  EXPECT_THROW(DataLock lock(file / "below"), BadInput);
}

}  // namespace
}  // namespace pumpwright::server
