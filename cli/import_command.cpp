// `pumpwright import`: takes the shop's older records in from a spreadsheet's CSV file.
#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "cli/command.h"
#include "cli/display_text.h"
#include "cli/input_file.h"
#include "cli/json_values.h"
#include "cli/program.h"
#include "cli/shop_files.h"
#include "shop/old_table.h"

namespace pumpwright {
namespace {

struct ImportArguments {
  std::string file, columns, by;
  std::string data = "shop-data";
  bool look = false;
  bool json = false;
};

struct Imported {
  shop::OldTable table;
  std::optional<shop::OldTaken> done;  // nothing when it was only looked at
};

shop::Hand hand_of(const shop::Shop& shop, const std::string& id) {
  const auto state = shop.state();
  const auto found = state->people.find(id);
  if (found == state->people.end() || !found->second.active || found->second.role != shop::Role::lead_hand)
    throw bad_argument("--by", id, "the initials of one of the shop's lead hands");
  return {.person = found->second, .device = "command line"};
}

Imported import(const ImportArguments& a, const Surroundings& surroundings) {
  const auto columns = naming_file(a.columns, [&] {
    const auto bytes = read_input(a.columns, json_bytes_max, surroundings.in);
    return shop::decode_old_columns(job::JsonReader::parse(bytes));
  });
  const auto bytes = read_input(a.file, shop::old_csv_bytes_max, surroundings.in);
  Imported out;
  out.table = naming_file(a.file, [&] {
    return shop::read_old_csv(bytes, shown_name(a.file), columns, job::UtcTime{system_now_ms() / 1000});
  });
  if (a.look) return out;
  out.done = telling_store_errors("--data", a.data, [&] {
    const OpenShop open = open_shop(a.data, system_now_ms);
    return open.shop->take_old_jobs(hand_of(*open.shop, a.by), out.table.jobs);
  });
  return out;
}

std::string wrong_text(const BadInput::What& what) {
  return one_line(fmt::format("{}: {} \"{}\": {}", what.place, what.field, what.value, what.expected));
}

std::string import_text(const Imported& imported) {
  const auto& table = imported.table;
  std::string text = fmt::format("{} rows fit, {} do not\n", table.jobs.size(), table.wrong_count);
  for (const auto& what : table.wrong)
    text += "  " + wrong_text(what) + "\n";
  if (table.wrong.size() < table.wrong_count)
    text += fmt::format("  and {} more\n", table.wrong_count - table.wrong.size());
  for (const auto& [word, times] : table.words_unknown)
    text += fmt::format("\"{}\" ({} times) says neither a fault nor another reason\n", one_line(word), times);
  if (!imported.done) return text + "Nothing was taken in: this was only a look.\n";
  return text +
         fmt::format("{} taken in, {} were known already\n", imported.done->taken, imported.done->known);
}

std::string import_json(const Imported& imported) {
  const auto& table = imported.table;
  auto wrong = OrderedJson::array();
  for (const auto& what : table.wrong)
    wrong.push_back(
        {{"place", what.place}, {"field", what.field}, {"value", what.value}, {"valid", what.expected}});
  const auto count = [&](std::size_t shop::OldTaken::*which) {
    return imported.done ? OrderedJson(*imported.done.*which) : OrderedJson(nullptr);
  };
  return json_text({{"fit", table.jobs.size()},
                    {"wrong_count", table.wrong_count},
                    {"wrong", wrong},
                    {"words_unknown", table.words_unknown},
                    {"columns_left_alone", table.left_alone},
                    {"taken", count(&shop::OldTaken::taken)},
                    {"known", count(&shop::OldTaken::known)}});
}

Answer run_import(const ImportArguments& a, const Surroundings& surroundings) {
  if (!a.look && a.by.empty())
    throw bad_argument("--by", "", "the initials of the lead hand who takes them in");
  const Imported imported = import(a, surroundings);
  return {.text = a.json ? import_json(imported) : import_text(imported),
          .exit_status = imported.table.wrong_count == 0 ? exit_all_pass : exit_not_all_pass};
}

}  // namespace

void add_import_command(CLI::App& app, Action& chosen) {
  auto a = std::make_shared<ImportArguments>();
  auto* command =
      add_command(app, "import", "Take the shop's older records in from a CSV file, one row a job",
                  "pumpwright import demo/ledger.csv --columns demo/ledger.columns --look");
  is_file(*command->add_option("CSV", a->file, "The old records, with a first line that names the columns")
               ->required());
  is_file(*command
               ->add_option("--columns", a->columns,
                            "File that says which column means what (docs/old-columns.schema.json)")
               ->required());
  is_directory(*command->add_option("--data", a->data, "The shop's data directory (default shop-data)"));
  command->add_option("--by", a->by, "Initials of the lead hand who takes them in")->type_name("ID");
  command->add_flag("--look", a->look, "Only say what would come of it; needs no shop");
  command->add_flag("--json", a->json, "Print JSON instead of text");
  command->callback([a, &chosen] {
    chosen = [a](const Surroundings& surroundings) { return run_import(*a, surroundings); };
  });
}

}  // namespace pumpwright
