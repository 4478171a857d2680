#include "server/server.h"

#include <algorithm>
#include <chrono>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <limits>
#include <optional>
#include <ostream>
#include <thread>
#include <utility>

#include <fmt/format.h>

#include "catalog/embedded.h"
#include "engine/quantity/bad_input.h"
#include "server/application.h"
#include "server/certificate.h"
#include "server/data_lock.h"
#include "server/random_token.h"
#include "server/request_log.h"

namespace pumpwright::server {
namespace {

namespace fs = std::filesystem;

std::int64_t system_now_ms() {
  using std::chrono::duration_cast;
  return duration_cast<std::chrono::milliseconds>(std::chrono::system_clock::now().time_since_epoch())
      .count();
}

shop::Foundations foundations_of(const ServerOptions& options) {
  const auto files = embedded_catalog();
  return {.catalog_files = {files.begin(), files.end()},
          .step_files = files_under(files, "steps/"),
          .program = options.program,
          .key_file = (fs::path(options.data_directory) / "shop.key").string(),
          .now_ms = system_now_ms,
          .effort = shop::Effort::interactive};
}

// The key under which request tokens are derived: made once, so that a restart leaves open pages working.
std::string token_key_in(store::Secrets& secrets) {
  std::string key;
  secrets.change("server-key", "request-token",
                 [&](std::optional<store::Secret> stands) -> std::optional<store::Secret> {
                   if (!stands)
                     stands = store::Secret{
                         .id = "request-token", .bytes = random_token(), .expires_at_ms = std::nullopt};
                   key = stands->bytes;
                   return stands;
                 });
  return key;
}

std::string bytes_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

std::uint64_t photo_room_bytes(std::uint64_t mib) {
  return mib == 0 ? std::numeric_limits<std::uint64_t>::max() : mib * bytes_per_mib;
}

std::vector<std::string> certified_names(const ServerOptions& options) {
  auto names = names_of_this_machine();
  names.insert(names.end(), {"localhost", "127.0.0.1", "::1"});
  names.insert(names.end(), options.tls_names.begin(), options.tls_names.end());
  if (options.listen.address != "0.0.0.0" && options.listen.address != "::")
    names.push_back(options.listen.address);
  std::sort(names.begin(), names.end());
  names.erase(std::unique(names.begin(), names.end()), names.end());
  return names;
}

// Names a browser may use for us. What stands for "every address" is none; the address a connection came in
// on is always ours (request_guard.h).
HostNames host_names(const ServerOptions& options) {
  auto names = options.tls_names;
  names.push_back(options.listen.address);
  for (const auto& name : names_of_this_machine())
    names.push_back(name);
  std::erase_if(names, [](const auto& name) { return name == "0.0.0.0" || name == "::"; });
  return HostNames(names);
}

}  // namespace

class Server::Impl {
 public:
  Impl(ServerOptions options, std::ostream& out)
      : options_(std::move(options)),
        log_(out, options_.quiet),
        lock_(options_.data_directory),
        store_(
            store::Store::open(fs::path(options_.data_directory) / "shop.sqlite", {.now_ms = system_now_ms})),
        shop_(*store_, foundations_of(options_)),
        sessions_(store_->secrets(), system_now_ms),
        devices_(store_->secrets()),
        throttle_(store_->secrets(), system_now_ms),
        changes_(store_->events()),
        first_start_(shop_.has_people() ? std::string() : announced_code()) {
    want_loopback_for_a_demonstration();
    store_->secrets().purge_expired();
    store_->events().set_listener([this](auto events) { changes_.on_committed(events); });
    prepare_tls();
    parts_.emplace(
        Parts{.store = *store_,
              .shop = shop_,
              .sessions = sessions_,
              .devices = devices_,
              .throttle = throttle_,
              .changes = changes_,
              .first_start = first_start_,
              .now_ms = system_now_ms,
              .token_key = token_key_in(store_->secrets()),
              .version = options_.version,
              .shop_certificate = certificate_ ? bytes_of(certificate_->files.shop_certificate) : "",
              .photo_room_bytes = photo_room_bytes(options_.photo_room_mib)});
    application_.emplace(*parts_,
                         Application::Setting{.hosts = host_names(options_),
                                              .page = embedded_page(),
                                              .log = [this](const std::string& line) { log_.say(line); }});
    open_port();
    announce();
  }

  ~Impl() { store_->events().set_listener({}); }

  std::string address() const {
    const bool v6 = options_.listen.address.find(':') != std::string::npos;
    return fmt::format("{}://{}:{}", options_.tls ? "https" : "http",
                       v6 ? "[" + options_.listen.address + "]" : options_.listen.address,
                       transport_->port());
  }

  void run() {
    std::signal(SIGPIPE, SIG_IGN);  // a closed connection is seen when writing
    const std::jthread ahead([this] { read_ahead(); });
    transport_->run([this] {
      log_.say("Stopping: finishing what was begun.");
      changes_.end_all();
    });
    log_.say("Stopped.");
  }

  void stop() { transport_->stop(); }

 private:
  // So that who first asks what comes back does not wait until every job was read.
  void read_ahead() const {
    try {
      (void)shop_.lives();
    } catch (const store::StoreError&) {
      // Told to whoever asks.
    }
  }

  std::string announced_code() {
    auto code = random_code();
    log_.say("The shop has no people yet. One-time code for the first lead hand: " + code);
    return code;
  }

  // Encryption is no help: whoever reaches the page can sign in.
  void want_loopback_for_a_demonstration() const {
    if (options_.public_passwords || is_loopback(options_.listen.address) || !shop_.state()->invented) return;
    throw BadInput({.field = "--listen",
                    .place = "",
                    .value = options_.listen.address,
                    .expected = "an address of this machine alone, such as 127.0.0.1:8080: the people of a "
                                "demonstration shop have public passwords. With --public-passwords it may be "
                                "reached by others"});
  }

  void prepare_tls() {
    if (!options_.tls) return;
    certificate_ =
        prepare_certificate(options_.data_directory, certified_names(options_), system_now_ms() / 1000);
  }

  void open_port() {
    TransportOptions to;
    to.address = options_.listen.address;
    to.port = options_.listen.port;
    if (certificate_)
      to.tls = TlsFiles{.certificate_chain = certificate_->files.server_certificate.string(),
                        .key = certificate_->files.server_key.string()};
    transport_.emplace(
        to, Transport::Callbacks{
                .admit = [this](const HttpRequest& head) { return application_->admit(head); },
                .complaint = [this](int status) { return application_->complaint(status); },
                .log = [this](const RequestRecord& record) { log_.request(record, system_now_ms()); }});
  }

  void announce() {
    log_.say("Listening on " + address());
    if (certificate_) {
      log_.say("Fingerprint of the shop's certificate (SHA-256): " + certificate_->fingerprint);
      log_.say("How a tablet comes to trust it: " + address() + "/shop-certificate");
    } else if (!is_loopback(options_.listen.address)) {
      log_.say(
          "WARNING: reachable from the network without encryption. Passwords and readings can be read and "
          "changed "
          "on the way. Use --tls.");
    }
  }

  ServerOptions options_;
  Log log_;
  DataLock lock_;
  std::unique_ptr<store::Store> store_;
  shop::Shop shop_;
  Sessions sessions_;
  DeviceCookies devices_;
  SignInThrottle throttle_;
  ChangeHub changes_;
  FirstStart first_start_;
  std::optional<ShopCertificate> certificate_;
  std::optional<Parts> parts_;
  std::optional<Application> application_;
  std::optional<Transport> transport_;
};

Server::Server(ServerOptions options, std::ostream& log)
    : impl_(std::make_unique<Impl>(std::move(options), log)) {}
Server::~Server() = default;

std::string Server::address() const {
  return impl_->address();
}
void Server::run() {
  impl_->run();
}
void Server::stop() {
  impl_->stop();
}

}  // namespace pumpwright::server
