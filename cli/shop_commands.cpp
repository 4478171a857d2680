// Commands over a shop's data directory: backup, restore, rebuild, export, lives, public-key.
#include <filesystem>
#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "cli/command.h"
#include "cli/input_file.h"
#include "cli/program.h"
#include "cli/shop_files.h"
#include "store/event_hash.h"

namespace pumpwright {
namespace {

namespace fs = std::filesystem;

struct ShopArguments {
  std::string data = "shop-data";
  std::string file, hash, number, out;
};

std::string report_text(const char* what, const store::BackupReport& report) {
  return fmt::format("{}: {} bytes, {} events in {} streams, {} files attached; every chain holds\nhash {}\n",
                     what, report.bytes, report.contents.events, report.contents.streams,
                     report.contents.attachments, store::to_hex(report.hash));
}

Answer run_backup(const ShopArguments& a) {
  return telling_store_errors("--to", a.file, [&] {
    if (!fs::exists(store_file_in(a.data)))
      throw bad_argument("--data", a.data, "the data directory of a shop (made by pumpwright serve)");
    const auto store = store::Store::open(store_file_in(a.data));
    return Answer{.text = report_text("copied", store->backup(a.file)), .exit_status = exit_all_pass};
  });
}

Answer run_restore(const ShopArguments& a) {
  const auto hash = a.hash.empty() ? std::nullopt : store::hash_from_hex(a.hash);
  if (!a.hash.empty() && !hash)
    throw bad_argument("--hash", a.hash, "64 hexadecimal digits, as backup printed them");
  return telling_store_errors("BACKUP", a.file, [&] {
    std::error_code error;
    fs::create_directories(a.data, error);
    if (error) throw bad_argument("--data", a.data, "a directory that can be made");
    const auto report = store::restore_backup(a.file, store_file_in(a.data), hash);
    std::string text = report_text("restored", report);
    if (!fs::exists(key_file_in(a.data)))
      text += fmt::format("Put the shop's key back as {} before serving: the copy does not hold it.\n",
                          key_file_in(a.data));
    return Answer{.text = text, .exit_status = exit_all_pass};
  });
}

Answer run_rebuild(const ShopArguments& a) {
  return telling_store_errors("--data", a.data, [&] {
    const OpenShop open = open_shop(a.data, system_now_ms);
    const std::string before = open.store->index().dump();
    open.shop->rebuild_index();
    const bool same = open.store->index().dump() == before;
    return Answer{.text = same ? "The derived tables were made anew and are what they were.\n"
                               : "The derived tables were made anew; they differed from the log before.\n",
                  .exit_status = exit_all_pass};
  });
}

Answer run_export(const ShopArguments& a) {
  return telling_store_errors("--data", a.data, [&]() -> Answer {
    const OpenShop open = open_shop(a.data, system_now_ms);
    try {
      const std::string record = open.shop->record_json(a.number);
      if (a.out.empty()) return {.text = record, .exit_status = exit_all_pass};
      write_output(a.out, record, "--out");
      return {.text = a.out + "\n", .exit_status = exit_all_pass};
    } catch (const shop::Refused&) {
      throw bad_argument("NUMBER", a.number, "the number of one of the shop's jobs");
    }
  });
}

Answer run_lives(const ShopArguments& a) {
  return telling_store_errors("--data", a.data, [&] {
    return Answer{.text = shop::lives_csv(open_shop(a.data, system_now_ms).shop->lives().lives),
                  .exit_status = exit_all_pass};
  });
}

Answer run_public_key(const ShopArguments& a) {
  return telling_store_errors("--data", a.data, [&] {
    return Answer{.text = open_shop(a.data, system_now_ms).shop->public_key_file(),
                  .exit_status = exit_all_pass};
  });
}

void add_data_option(CLI::App& command, ShopArguments& a) {
  is_directory(*command.add_option("--data", a.data, "The shop's data directory (default shop-data)"));
}

}  // namespace

void add_shop_commands(CLI::App& app, Action& chosen) {
  const auto on_call = [&chosen](CLI::App& command, const std::shared_ptr<ShopArguments>& a,
                                 Answer (*run)(const ShopArguments&)) {
    command.callback([a, run, &chosen] { chosen = [a, run](const Surroundings& /*s*/) { return run(*a); }; });
  };
  auto a = std::make_shared<ShopArguments>();
  auto* backup = add_command(app, "backup",
                             "Copy a shop's store into one file while the shop goes on, and verify the copy",
                             "pumpwright backup --data shop-data --to monday.pwbackup");
  add_data_option(*backup, *a);
  is_file(*backup->add_option("--to", a->file, "The file to make; one that is there is never overwritten")
               ->required());
  on_call(*backup, a, run_backup);

  a = std::make_shared<ShopArguments>();
  auto* restore =
      add_command(app, "restore", "Put a copy in place of a store that is gone, after verifying it",
                  "pumpwright restore monday.pwbackup --data shop-data");
  is_file(*restore->add_option("BACKUP", a->file, "A file that pumpwright backup made")->required());
  add_data_option(*restore, *a);
  restore->add_option("--hash", a->hash, "The hash that backup printed")->type_name("HASH");
  on_call(*restore, a, run_restore);

  a = std::make_shared<ShopArguments>();
  auto* rebuild = add_command(app, "rebuild",
                              "Make the derived tables (lists, search, readings by check) anew from the log",
                              "pumpwright rebuild --data shop-data");
  add_data_option(*rebuild, *a);
  on_call(*rebuild, a, run_rebuild);

  a = std::make_shared<ShopArguments>();
  auto* record = add_command(app, "export", "Write the record of one job, which proves itself",
                             "pumpwright export G-2117 --data shop-data --out G-2117.json");
  record->add_option("NUMBER", a->number, "Job number")->required();
  add_data_option(*record, *a);
  is_file(*record->add_option("--out", a->out, "The file to write; standard output without it"));
  on_call(*record, a, run_export);

  a = std::make_shared<ShopArguments>();
  auto* lives = add_command(app, "lives",
                            "Print how long each of a shop's pumps stayed out, as CSV: what returns reads",
                            "pumpwright lives --data shop-data > lives.csv");
  add_data_option(*lives, *a);
  on_call(*lives, a, run_lives);

  a = std::make_shared<ShopArguments>();
  auto* key = add_command(app, "public-key", "Print the shop's public key, which verify --trust takes",
                          "pumpwright public-key --data shop-data > shop.pub");
  add_data_option(*key, *a);
  on_call(*key, a, run_public_key);
}

}  // namespace pumpwright
