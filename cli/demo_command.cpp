#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "cli/command.h"
#include "cli/demo_shop.h"
#include "cli/program.h"
#include "cli/shop_files.h"

namespace pumpwright {
namespace {

struct DemoArguments {
  std::string data = "demo-shop";
  std::string jobs = "demo";
  bool people = false;
};

std::string people_text() {
  std::string text;
  for (const auto& p : demo_people())
    text += fmt::format("  {:<5} {:<22} {}\n", p.id, p.name, p.password);
  return text;
}

Answer run_demo(const DemoArguments& a) {
  if (a.people) return {.text = people_text(), .exit_status = exit_all_pass};
  const bool filled = telling_store_errors("--data", a.data, [&] { return fill_demo_shop(a.data, a.jobs); });
  return {.text = filled ? "A shop with invented data is ready in " + a.data + ".\n"
                         : "The shop in " + a.data + " has people already; nothing was changed.\n",
          .exit_status = exit_all_pass};
}

}  // namespace

void add_demo_command(CLI::App& app, Action& chosen) {
  auto a = std::make_shared<DemoArguments>();
  auto* demo =
      add_command(app, "demo", "Make a shop with the demonstration's invented people, instruments and jobs",
                  "pumpwright demo --data demo-shop --jobs demo");
  is_directory(*demo->add_option("--data", a->data, "Directory to make the shop in (default demo-shop)"));
  is_directory(*demo->add_option("--jobs", a->jobs, "Directory of the job files (default demo)"));
  demo->add_flag("--people", a->people, "Only list the people and their public passwords");
  demo->callback([a, &chosen] { chosen = [a](const Surroundings& /*s*/) { return run_demo(*a); }; });
}

}  // namespace pumpwright
