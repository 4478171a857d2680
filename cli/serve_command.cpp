#include <filesystem>
#include <iostream>
#include <memory>

#include <CLI/CLI.hpp>

#include "cli/command.h"
#include "cli/program.h"
#include "cli/program_identity.h"
#include "server/server.h"

namespace pumpwright {
namespace {

constexpr std::uint64_t photo_room_mib_max = std::uint64_t{1} << 30U;  // a pebibyte

struct ServeArguments {
  std::string data = "shop-data";
  std::string listen = "127.0.0.1:8080";
  std::vector<std::string> tls_names;
  std::string photo_room;
  bool tls = false;
  bool quiet = false;
  bool public_passwords = false;
};

// 0: no bound.
std::uint64_t photo_room_mib(const std::string& text) {
  return text.empty() ? 0 : whole_number("--photo-room", text, 1, photo_room_mib_max);
}

// Speaks on standard error while it runs: standard output is for answers, and a server gives none.
Answer run_serve(const ServeArguments& a) {
  if (!a.tls && !a.tls_names.empty())
    throw bad_argument("--tls-name", a.tls_names.front(), "--tls beside it");
  server::Server server({.data_directory = a.data,
                         .listen = server::parse_listen_address(a.listen),
                         .tls = a.tls,
                         .tls_names = a.tls_names,
                         .quiet = a.quiet,
                         .photo_room_mib = photo_room_mib(a.photo_room),
                         .public_passwords = a.public_passwords,
                         .program = program_identity(),
                         .version = std::string(program_version())},
                        std::cerr);
  server.run();
  return {.text = "", .exit_status = exit_all_pass};
}

}  // namespace

void add_serve_command(CLI::App& app, Action& chosen) {
  auto a = std::make_shared<ServeArguments>();
  auto* serve =
      add_command(app, "serve", "Serve the shop: its page, its data, on this machine or its network",
                  "pumpwright serve --data shop-data --listen 0.0.0.0:8443 --tls --tls-name shop.local");
  is_directory(*serve->add_option(
      "--data", a->data, "Directory of the shop's data; made when it is not there (default shop-data)"));
  serve
      ->add_option("--listen", a->listen,
                   "Address and port; nothing but this machine by default (127.0.0.1:8080). Port 0 takes any "
                   "that is free")
      ->type_name("ADDR:PORT");
  serve->add_flag(
      "--tls", a->tls,
      "Encrypt, with a certificate of the shop's own that is made in the data directory; the server says how "
      "tablets come to trust it");
  serve
      ->add_option(
          "--tls-name", a->tls_names,
          "A name or address tablets use for this machine, besides those it knows itself; may be repeated")
      ->type_name("NAME");
  serve
      ->add_option(
          "--photo-room", a->photo_room,
          "Most that the photos and papers of all jobs may take together; one that does not fit any more is "
          "refused, readings go on (default: what the disk holds)")
      ->type_name("MIB");
  serve->add_flag(
      "--public-passwords", a->public_passwords,
      "Let others reach a demonstration shop, whose people have public passwords; without it such a "
      "shop is served to this machine alone");
  serve->add_flag("--quiet", a->quiet, "No line for each request");
  serve->callback(
      [a, &chosen] { chosen = [a](const Surroundings& /*surroundings*/) { return run_serve(*a); }; });
}

}  // namespace pumpwright
