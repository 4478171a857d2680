// The shop's server: one data directory, one listening address, the JSON interface of server/openapi.json,
// event streams, and the page that is built into the program.
//
// Nothing but loopback is reachable unless told so; the data directory is locked against a second server.
#pragma once

#include <cstdint>
#include <iosfwd>
#include <memory>
#include <string>
#include <vector>

namespace pumpwright::server {

struct ListenAddress {
  std::string address = "127.0.0.1";  // IPv4 or IPv6 address
  unsigned short port = 8080;         // 0: any that is free
};

// "127.0.0.1:8080", "[::1]:8080", ":8080" (loopback), "8080" (loopback). Throws BadInput (field "--listen").
ListenAddress parse_listen_address(const std::string& text);
bool is_loopback(const std::string& address);

struct ServerOptions {
  std::string data_directory;  // made when it is not there, mode 0700
  ListenAddress listen;
  bool tls = false;
  std::vector<std::string> tls_names;  // names and addresses the tablets use, besides the machine's own
  bool quiet = false;                  // no line per request
  std::uint64_t photo_room_mib = 0;    // most that all photos and papers may take; 0: no bound
  bool public_passwords = false;       // a demonstration shop may be reached from the network
  std::string program;                 // version and build, frozen into plans
  std::string version;                 // "0.1.0"
};

class Server {
 public:
  // Locks and opens the data directory, opens the port, and says on `log` where it listens, what is unsafe
  // about that, and the one-time code while the shop has no people. Throws BadInput for a directory or an
  // address that can not be used and for a demonstration shop, whose passwords everybody knows, on an address
  // that others reach, store::StoreError when the store can not be opened.
  Server(ServerOptions options, std::ostream& log);
  ~Server();
  Server(const Server&) = delete;
  Server& operator=(const Server&) = delete;

  // "http://127.0.0.1:8080"
  std::string address() const;

  // Serves until SIGINT, SIGTERM or stop(): then accepts nothing more, finishes what it has begun, ends the
  // event streams, checkpoints the store and returns.
  void run();
  void stop();  // from any thread

 private:
  class Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace pumpwright::server
