// A whole application over a store of its own, without a socket, and browsers that talk to it.
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "catalog/embedded.h"
#include "server/application.h"
#include "server/random_token.h"
#include "tests/unit/server/a_store.h"

namespace pumpwright::server {

using nlohmann::json;

inline constexpr const char* password = "a long enough one";

struct AShop : AStore {
  shop::Shop shop{*store,
                  {.catalog_files = {embedded_catalog().begin(), embedded_catalog().end()},
                   .step_files = files_under(embedded_catalog(), "steps/"),
                   .program = "test",
                   .key_file = (directory.path() / "shop.key").string(),
                   .now_ms = clock(),
                   .effort = shop::Effort::brief}};
  Sessions sessions{store->secrets(), clock()};
  DeviceCookies devices{store->secrets()};
  SignInThrottle throttle{store->secrets(), clock()};
  ChangeHub changes{store->events()};
  FirstStart first_start{"ABCD-EFGH-JKLM"};
  Parts parts{.store = *store,
              .shop = shop,
              .sessions = sessions,
              .devices = devices,
              .throttle = throttle,
              .changes = changes,
              .first_start = first_start,
              .now_ms = clock(),
              .token_key = random_token(),
              .version = "0.0.0",
              .shop_certificate = ""};
  std::vector<std::string> logged;
  Application application{parts, {.hosts = HostNames({}), .page = {}, .log = [this](const std::string& line) {
                                    logged.push_back(line);
                                  }}};
};

// One browser: keeps cookies and the request token, as the page does.
class Browser {
 public:
  explicit Browser(AShop& shop) : shop_(shop) { learn_token(); }

  HttpResponse ask(const std::string& method, const std::string& target, const json& body = {},
                   std::vector<HeaderField> more = {}) {
    HttpRequest request{.method = method,
                        .target = target,
                        .headers = std::move(more),
                        .body = {},
                        .peer = "10.0.0.1",
                        .local = "127.0.0.1",
                        .secure = false};
    const auto with = [&](const std::string& name, const std::string& value) {
      if (!request.header(name)) request.headers.push_back({name, value});
    };
    with("host", "localhost:8080");
    with("x-pumpwright-token", token_);
    if (!body.is_null()) with("content-type", "application/json");
    std::string cookies;
    for (const auto& [name, value] : cookies_)
      cookies += name + "=" + value + "; ";
    with("cookie", cookies);
    auto admission = shop_.application.admit(request);
    if (admission.refused) return keep_cookies(std::move(*admission.refused));
    if (!body.is_null()) request.body = body.dump();
    return keep_cookies(admission.answer(std::move(request)));
  }

  HttpResponse sign_in(const std::string& id, const std::string& with_password = password) {
    auto response = ask("POST", "/api/session", {{"id", id}, {"password", with_password}});
    learn_token();
    return response;
  }

  void learn_token() { token_ = json::parse(ask("GET", "/api/session").body).at("token"); }

  std::map<std::string, std::string> cookies_;
  std::string token_;

 private:
  HttpResponse keep_cookies(HttpResponse response) {
    for (const auto& field : response.headers) {
      if (field.name != "Set-Cookie") continue;
      const auto equals = field.value.find('=');
      const auto name = field.value.substr(0, equals);
      const auto value = field.value.substr(equals + 1, field.value.find(';') - equals - 1);
      if (value.empty())
        cookies_.erase(name);
      else
        cookies_[name] = value;
    }
    return response;
  }

  AShop& shop_;
};

inline json first_person(const std::string& code = "abcd efgh jklm") {
  return {
      {"code", code}, {"id", "R.T."}, {"initials", "R.T."}, {"name", "Lead hand"}, {"password", password}};
}

// A shop with one person of each role, all with the same password.
struct AStaffedShop : AShop {
  Browser lead_hand{*this};

  AStaffedShop() {
    EXPECT_EQ(lead_hand.ask("POST", "/api/first-person", first_person()).status, 200);
    lead_hand.learn_token();
    for (const auto& [id, role] :
         {std::pair("T.E.", "technician"), std::pair("O.F.", "office"), std::pair("R.O.", "read-only")}) {
      const auto added = lead_hand.ask("POST", "/api/shop/people",
                                       {{"key", std::string("add-") + id},
                                        {"device", "test"},
                                        {"device_seq", 1},
                                        {"id", id},
                                        {"name", role},
                                        {"role", role},
                                        {"password", password}});
      EXPECT_EQ(added.status, 201) << added.body;
    }
  }
};

// The code of an error answer; empty for any other.
inline std::string code_of(const HttpResponse& response) {
  const auto body = json::parse(response.body, nullptr, false);
  return body.is_object() && body.contains("error") ? body["error"]["code"].get<std::string>() : "";
}

}  // namespace pumpwright::server
