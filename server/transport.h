// HTTP/1.1 over TCP or TLS: turns bytes into HttpRequest and HttpResponse into bytes, and nothing else.
//
// Built on Boost.Beast and Asio because its connections are asynchronous: an event stream is a few kilobytes
// of state and no thread, so that a shop full of listening tablets costs the same two I/O threads as one.
// Library servers that give each connection a thread run out of threads exactly when every bench listens.
// Beast is confined to transport.cpp and connection.h; it parses requests (strictly, with limits) and sets
// deadlines; answers are written by hand.
//
// Every wait has a deadline and every buffer a bound: head, body, idle time, a reader that does not read, the
// number of connections in total and from one address.
#pragma once

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "server/http_request.h"
#include "server/http_response.h"
#include "server/router.h"

namespace pumpwright::server {

struct TransportLimits {
  std::size_t connections_max = 1024;
  std::size_t connections_per_address_max = 256;
  std::uint32_t head_bytes_max = 16 * 1024;
  std::size_t body_bytes_max = std::size_t{12} * 1024 * 1024;  // no request may ever have more
  std::chrono::milliseconds handshake_time{10'000};
  std::chrono::milliseconds head_time{10'000};  // from the first byte of a request to the end of its head
  std::chrono::milliseconds body_time{120'000};
  std::chrono::milliseconds idle_time{60'000};  // between two requests
  std::chrono::milliseconds write_time{60'000};
  std::chrono::milliseconds stream_write_time{20'000};
  std::chrono::milliseconds heartbeat{15'000};
  std::chrono::milliseconds drain_time{10'000};  // for the rest of a body that is refused
  std::chrono::milliseconds stop_time{10'000};   // for what was begun when the server was told to stop
};

// What is decided once the head of a request is there and before its body is read.
struct Admission {
  std::optional<HttpResponse> refused;  // answer at once; the body is not read
  std::size_t body_bytes_max = 0;
  Runs runs = Runs::at_once;
  std::function<HttpResponse(HttpRequest)> answer;  // throws nothing
};

// One line for the log.
struct RequestRecord {
  std::string method, target, peer, person;
  int status = 0;
  std::size_t bytes = 0;
  std::chrono::microseconds took{0};
};

struct TlsFiles {
  std::string certificate_chain;  // PEM files
  std::string key;
};

struct TransportOptions {
  std::string address;
  unsigned short port = 0;
  std::optional<TlsFiles> tls;
  TransportLimits limits;
};

class Transport {
 public:
  struct Callbacks {
    std::function<Admission(const HttpRequest& head)> admit;  // on an I/O thread; must not block or throw
    // An answer for what goes wrong before a request can be admitted: 400, 408, 411, 413, 431, 503.
    std::function<HttpResponse(int status)> complaint;
    std::function<void(const RequestRecord&)> log;
  };

  // Opens the port. Throws BadInput (field "--listen") when that can not be done.
  Transport(const TransportOptions& options, Callbacks callbacks);
  ~Transport();
  Transport(const Transport&) = delete;
  Transport& operator=(const Transport&) = delete;

  unsigned short port() const;

  // Serves until stop() or, when asked to listen to signals, SIGINT or SIGTERM; `stopping` is called first
  // then. Returns when every connection is closed.
  void run(const std::function<void()>& stopping);
  void stop();

 private:
  class Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace pumpwright::server
