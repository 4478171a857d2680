#include "server/transport.h"

#include <array>
#include <cassert>
#include <thread>
#include <utility>
#include <vector>

#include <boost/asio/io_context.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/asio/strand.hpp>
#include <fmt/format.h>

#include "engine/quantity/bad_input.h"
#include "server/connection.h"

namespace pumpwright::server {
namespace {

using asio::ip::tcp;
using Error = boost::system::error_code;

constexpr int io_threads = 2;
// Many, because a thread that appends waits for the disk, and those that wait together share one sync; as
// many as there are tablets in a full shop, so that none waits for a thread that waits.
constexpr WorkerPool::Size workers_size{.threads = 64, .waiting_max = 512};
constexpr WorkerPool::Size slow_workers_size{.threads = 2, .waiting_max = 64};

asio::ip::address plain_address(const asio::ip::address& address) {
  if (address.is_v6() && address.to_v6().is_v4_mapped())
    return asio::ip::make_address_v4(asio::ip::v4_mapped, address.to_v6());
  return address;
}

// One household has many IPv6 addresses: its /64 counts as one.
std::string counted_as(const asio::ip::address& address) {
  if (!address.is_v6()) return address.to_string();
  auto bytes = address.to_v6().to_bytes();
  for (std::size_t i = 8; i < bytes.size(); ++i)
    bytes.at(i) = 0;
  return asio::ip::make_address_v6(bytes).to_string();
}

asio::ssl::context tls_context(const TlsFiles& files) {
  asio::ssl::context context(asio::ssl::context::tls_server);
  ::SSL_CTX_set_min_proto_version(context.native_handle(), TLS1_2_VERSION);
  // Of TLS 1.2 only what agrees a key for this connection alone and proves every byte; TLS 1.3 has nothing
  // else.
  [[maybe_unused]] const int known =
      ::SSL_CTX_set_cipher_list(context.native_handle(), "ECDHE+AESGCM:ECDHE+CHACHA20");
  assert(known == 1);
  ::SSL_CTX_set_options(context.native_handle(), SSL_OP_NO_RENEGOTIATION | SSL_OP_NO_COMPRESSION);
  context.use_certificate_chain_file(files.certificate_chain);
  context.use_private_key_file(files.key, asio::ssl::context::pem);
  return context;
}

[[noreturn]] void refuse_address(const TransportOptions& options, const Error& error) {
  throw BadInput({.field = "--listen",
                  .place = "",
                  .value = fmt::format("{} port {}: {}", options.address, options.port, error.message()),
                  .expected = "an address of this machine and a port that is free"});
}

}  // namespace

class Transport::Impl {
 public:
  Impl(const TransportOptions& options, Callbacks callbacks)
      : registry_({.connections_max = options.limits.connections_max,
                   .per_address_max = options.limits.connections_per_address_max}),
        acceptor_(strand_),
        signals_(strand_),
        deadline_(strand_),
        workers_(workers_size),
        slow_workers_(slow_workers_size) {
    if (options.tls) tls_.emplace(tls_context(*options.tls));
    surroundings_.limits = options.limits;
    surroundings_.callbacks = std::move(callbacks);
    surroundings_.workers = &workers_;
    surroundings_.slow_workers = &slow_workers_;
    // From here on, so that one that comes before run() ends it as any other does, once it runs.
    signals_.add(SIGINT);
    signals_.add(SIGTERM);
    open_port(options);
  }

  unsigned short port() const { return port_; }

  void run(const std::function<void()>& stopping) {
    stopping_ = stopping;
    signals_.async_wait([this](Error error, int /*signal*/) {
      if (!error) begin_to_stop();
    });
    accept();
    std::vector<std::thread> threads;
    for (int i = 1; i < io_threads; ++i)
      threads.emplace_back([this] { io_.run(); });
    io_.run();
    for (auto& thread : threads)
      thread.join();
    workers_.finish();
    slow_workers_.finish();
  }

  void stop() {
    asio::post(strand_, [this] { begin_to_stop(); });
  }

 private:
  void open_port(const TransportOptions& options) {
    Error error;
    const auto address = asio::ip::make_address(options.address, error);
    if (error) refuse_address(options, error);
    const tcp::endpoint endpoint(address, options.port);
    acceptor_.open(endpoint.protocol(), error);
    if (!error) acceptor_.set_option(tcp::acceptor::reuse_address(true), error);
    if (!error) acceptor_.bind(endpoint, error);
    if (!error) acceptor_.listen(asio::socket_base::max_listen_connections, error);
    if (error) refuse_address(options, error);
    port_ = acceptor_.local_endpoint().port();
  }

  void accept() {
    acceptor_.async_accept(asio::make_strand(io_), [this](Error error, tcp::socket socket) {
      if (!acceptor_.is_open()) return;
      if (!error) welcome(std::move(socket));
      // Out of file descriptors: wait for some to come back instead of spinning.
      if (error == boost::system::errc::too_many_files_open) return accept_later();
      accept();
    });
  }

  void accept_later() {
    deadline_.expires_after(std::chrono::milliseconds(100));
    deadline_.async_wait([this](Error error) {
      if (!error && acceptor_.is_open()) accept();
    });
  }

  void welcome(tcp::socket socket) {
    Error error;
    const auto peer = plain_address(socket.remote_endpoint(error).address());
    if (error) return;
    const auto local = plain_address(socket.local_endpoint(error).address());
    if (error) return;
    auto place = registry_.take_place(counted_as(peer));
    if (!place) return;
    socket.set_option(tcp::no_delay(true), error);
    ConnectionEnds ends{.peer = peer.to_string(), .local = local.to_string()};
    using Plain = Connection<beast::tcp_stream>;
    using Secure = Connection<beast::ssl_stream<beast::tcp_stream>>;
    if (tls_)
      begin(std::make_shared<Secure>(beast::ssl_stream<beast::tcp_stream>(std::move(socket), *tls_),
                                     std::move(ends), std::move(place), surroundings_));
    else
      begin(std::make_shared<Plain>(beast::tcp_stream(std::move(socket)), std::move(ends), std::move(place),
                                    surroundings_));
  }

  template <class AnyConnection>
  void begin(const std::shared_ptr<AnyConnection>& connection) {
    registry_.add(connection);
    connection->start();
  }

  void begin_to_stop() {
    if (surroundings_.stopping.exchange(true)) return;
    Error ignored;
    acceptor_.close(ignored);
    signals_.cancel(ignored);
    if (stopping_) stopping_();
    deadline_.expires_after(surroundings_.limits.stop_time);
    deadline_.async_wait([this](Error error) {
      if (!error) io_.stop();
    });
    registry_.finish_all();
    registry_.when_empty([this] { asio::post(strand_, [this] { deadline_.cancel(); }); });
  }

  // Destroyed from the bottom up: first the workers, then what holds connections, last what connections use.
  ConnectionSurroundings surroundings_;
  ConnectionRegistry registry_;
  std::optional<asio::ssl::context> tls_;
  std::function<void()> stopping_;
  asio::io_context io_{io_threads};
  asio::strand<asio::io_context::executor_type> strand_ = asio::make_strand(io_);  // for the three below
  tcp::acceptor acceptor_;
  asio::signal_set signals_;
  asio::steady_timer deadline_;
  unsigned short port_ = 0;
  WorkerPool workers_;
  WorkerPool slow_workers_;
};

Transport::Transport(const TransportOptions& options, Callbacks callbacks)
    : impl_(std::make_unique<Impl>(options, std::move(callbacks))) {}
Transport::~Transport() = default;

unsigned short Transport::port() const {
  return impl_->port();
}
void Transport::run(const std::function<void()>& stopping) {
  impl_->run(stopping);
}
void Transport::stop() {
  impl_->stop();
}

}  // namespace pumpwright::server
