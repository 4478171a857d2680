#include "cli/shop_files.h"

#include <chrono>
#include <filesystem>

#include "catalog/embedded.h"
#include "cli/command.h"
#include "cli/program_identity.h"

namespace pumpwright {
namespace {

namespace fs = std::filesystem;

OpenShop open_at(const std::string& directory, std::function<std::int64_t()> now_ms, shop::Effort effort) {
  return telling_store_errors("--data", directory, [&] {
    OpenShop out;
    store::StoreOptions options;
    options.now_ms = now_ms;
    out.store = store::Store::open(store_file_in(directory), options);
    const auto catalog = embedded_catalog();
    out.shop = std::make_unique<shop::Shop>(
        *out.store, shop::Foundations{.catalog_files = {catalog.begin(), catalog.end()},
                                      .step_files = files_under(catalog, "steps/"),
                                      .program = program_identity(),
                                      .key_file = key_file_in(directory),
                                      .now_ms = std::move(now_ms),
                                      .effort = effort});
    return out;
  });
}

}  // namespace

std::string store_file_in(const std::string& directory) {
  return (fs::path(directory) / "shop.sqlite").string();
}

std::string key_file_in(const std::string& directory) {
  return (fs::path(directory) / "shop.key").string();
}

OpenShop open_shop(const std::string& directory, std::function<std::int64_t()> now_ms, shop::Effort effort) {
  if (!fs::exists(store_file_in(directory)))
    throw bad_argument("--data", directory, "the data directory of a shop (made by pumpwright serve)");
  return open_at(directory, std::move(now_ms), effort);
}

OpenShop make_shop(const std::string& directory, std::function<std::int64_t()> now_ms, shop::Effort effort) {
  std::error_code error;
  fs::create_directories(directory, error);
  if (error) throw bad_argument("--data", directory, "a directory that can be made");
  fs::permissions(directory, fs::perms::owner_all, error);
  return open_at(directory, std::move(now_ms), effort);
}

std::int64_t system_now_ms() {
  using namespace std::chrono;
  return duration_cast<milliseconds>(system_clock::now().time_since_epoch()).count();
}

}  // namespace pumpwright
