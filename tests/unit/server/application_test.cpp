// Every request against the whole application without a socket: what each role may do, what protects those
// who are signed in, and that the table and the published description say the same.
#include "server/application.h"

#include <algorithm>
#include <set>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "server/content_coding.h"
#include "server/openapi_document.h"
#include "tests/unit/server/a_shop.h"

namespace pumpwright::server {
namespace {

using nlohmann::json;

TEST(Description, HasExactlyTheRowsOfTheTable) {
  AShop at;
  std::set<std::string> rows;
  for (const auto& route : at.application.router().routes())
    rows.insert(std::string(route.method) + " " + std::string(route.pattern));
  std::set<std::string> described;
  const auto document = json::parse(openapi_document());
  for (const auto& [path, item] : document.at("paths").items())
    for (const auto& [key, value] : item.items())
      if (key != "parameters") {
        std::string method = key;
        std::transform(method.begin(), method.end(), method.begin(),
                       [](char c) { return static_cast<char>(c - 'a' + 'A'); });
        described.insert(method + " " + path);
      }
  EXPECT_EQ(rows, described);
}

TEST(Description, SaysWhichRowsNeedNoSignIn) {
  AShop at;
  const auto document = json::parse(openapi_document());
  for (const auto& route : at.application.router().routes()) {
    std::string method(route.method);
    std::transform(method.begin(), method.end(), method.begin(),
                   [](char c) { return static_cast<char>(c - 'A' + 'a'); });
    const auto& operation = document.at("paths").at(std::string(route.pattern)).at(method);
    EXPECT_EQ(operation.contains("security"), route.allowed.anyone) << route.method << " " << route.pattern;
  }
}

TEST(Description, RefersOnlyToWhatIsThere) {
  const auto document = json::parse(openapi_document());
  const std::function<void(const json&)> look = [&](const json& value) {
    if (value.is_object() && value.contains("$ref")) {
      const auto target = value["$ref"].get<std::string>();
      ASSERT_TRUE(target.starts_with("#")) << target;
      EXPECT_TRUE(document.contains(json::json_pointer(target.substr(1)))) << target;
    }
    for (const auto& inner : value)
      if (inner.is_structured()) look(inner);
  };
  look(document);
}

// A path with something in the place of every name.
std::string sample_path(std::string_view pattern) {
  std::string path;
  for (std::size_t i = 0; i < pattern.size(); ++i) {
    if (pattern[i] == '{') {
      path += "x1";
      i = pattern.find('}', i);
    } else {
      path += pattern[i];
    }
  }
  return path;
}

std::vector<HeaderField> body_type(Content content) {
  if (content == Content::json) return {{"content-type", "application/json"}};
  if (content == Content::attachment) return {{"content-type", "image/png"}};
  return {};
}

TEST(Roles, EveryRowTurnsAwayEveryRoleItDoesNotName) {
  AStaffedShop at;
  std::map<std::string, std::unique_ptr<Browser>> browsers;
  for (const auto* id : {"T.E.", "O.F.", "R.O.", "R.T."}) {
    browsers[id] = std::make_unique<Browser>(at);
    ASSERT_EQ(browsers[id]->sign_in(id).status, 200) << id;
  }
  Browser nobody(at);
  int turned_away = 0;
  for (const auto& route : at.application.router().routes()) {
    if (route.allowed.anyone) continue;
    const auto where = std::string(route.method) + " " + std::string(route.pattern);
    const auto path = sample_path(route.pattern);
    EXPECT_EQ(nobody.ask(std::string(route.method), path, {}, body_type(route.content)).status, 401) << where;
    for (auto& [id, browser] : browsers) {
      const auto role = at.shop.state()->people.at(id).role;
      if (route.allowed.includes(role)) continue;
      const auto response = browser->ask(std::string(route.method), path, {}, body_type(route.content));
      EXPECT_EQ(response.status, 403) << where << " as " << id;
      EXPECT_EQ(code_of(response), "not-allowed") << where << " as " << id;
      ++turned_away;
    }
  }
  EXPECT_GE(turned_away, 20);
}

TEST(Roles, EveryRowThatChangesSomethingWantsTheToken) {
  AStaffedShop at;
  Browser browser(at);
  browser.sign_in("R.T.");
  int looked_at = 0;
  for (const auto& route : at.application.router().routes()) {
    if (route.method == "GET") continue;
    const auto path = sample_path(route.pattern);
    for (const auto* token : {"", "0000000000000000000000000000000000000000000000000000000000000000"}) {
      auto headers = body_type(route.content);
      headers.push_back({"x-pumpwright-token", token});
      EXPECT_EQ(browser.ask(std::string(route.method), path, {}, headers).status, 403)
          << route.method << route.pattern;
    }
    auto headers = body_type(route.content);
    headers.push_back({"origin", "http://evil.example"});
    EXPECT_EQ(browser.ask(std::string(route.method), path, {}, headers).status, 403)
        << route.method << route.pattern;
    ++looked_at;
  }
  EXPECT_GE(looked_at, 12);
}

TEST(Roles, ATokenOfAnotherSessionIsWorthNothing) {
  AStaffedShop at;
  Browser one(at);
  Browser other(at);
  one.sign_in("T.E.");
  other.sign_in("R.T.");
  EXPECT_EQ(other.ask("DELETE", "/api/session", {}, {{"x-pumpwright-token", one.token_}}).status, 403);
}

TEST(Roles, AChangedRoleHoldsAtOnceAndWhoLeftIsOut) {
  AStaffedShop at;
  Browser technician(at);
  technician.sign_in("T.E.");
  EXPECT_EQ(technician.ask("GET", "/api/shop").status, 200);
  const auto change = [&](const json& payload, const std::string& key) {
    const auto response = at.lead_hand.ask(
        "POST", "/api/shop/events",
        {{"device", "test"},
         {"events",
          {{{"key", key}, {"device_seq", 1}, {"type", "person-changed"}, {"payload", payload.dump()}}}}});
    ASSERT_EQ(response.status, 200);
    ASSERT_EQ(json::parse(response.body).at("refused"), json::array()) << response.body;
  };
  change({{"id", "T.E."}, {"role", "read-only"}}, "c1");
  EXPECT_EQ(technician.ask("POST", "/api/jobs/x/events", json::object()).status, 403);
  change({{"id", "T.E."}, {"active", false}}, "c2");
  EXPECT_EQ(technician.ask("GET", "/api/shop").status, 401);
  EXPECT_EQ(technician.sign_in("T.E.").status, 401);
}

TEST(FirstPerson, IsMadeOnceWithTheCodeAndSignedIn) {
  AShop at;
  Browser browser(at);
  EXPECT_EQ(json::parse(browser.ask("GET", "/api/session").body).at("first_start"), true);
  EXPECT_EQ(browser.ask("POST", "/api/first-person", first_person("abcd efgh jkll")).status, 401);
  const auto made = browser.ask("POST", "/api/first-person", first_person());
  ASSERT_EQ(made.status, 200) << made.body;
  EXPECT_EQ(json::parse(made.body).at("person").at("role"), "lead-hand");
  EXPECT_EQ(json::parse(made.body).at("first_start"), false);
  Browser late(at);
  EXPECT_EQ(late.ask("POST", "/api/first-person", first_person()).status, 409);
}

TEST(SignIn, SaysTheSameForAWrongPasswordAndForNobody) {
  AStaffedShop at;
  Browser browser(at);
  const auto wrong = browser.sign_in("T.E.", "not this password");
  const auto nobody = browser.sign_in("X.X.", "not this password");
  EXPECT_EQ(wrong.status, 401);
  EXPECT_EQ(nobody.status, 401);
  EXPECT_EQ(wrong.body, nobody.body);
}

TEST(SignIn, GivesANewCookieAndEndsTheOldSession) {
  AStaffedShop at;
  Browser browser(at);
  browser.sign_in("T.E.");
  const auto before = browser.cookies_.at("pumpwright_session");
  browser.sign_in("O.F.");
  EXPECT_NE(browser.cookies_.at("pumpwright_session"), before);
  EXPECT_FALSE(at.sessions.find(before));
}

TEST(SignIn, GuessingIsSlowedDownAndTheRightPasswordThenHasToWaitToo) {
  AStaffedShop at;
  Browser browser(at);
  int tries = 0;
  while (tries < 100 && browser.sign_in("T.E.", "guess number " + std::to_string(tries)).status == 401)
    ++tries;
  EXPECT_EQ(tries, 5);
  const auto told = browser.sign_in("T.E.");
  EXPECT_EQ(told.status, 429);
  EXPECT_EQ(code_of(told), "too-many");
  at.pass(2);
  EXPECT_EQ(browser.sign_in("T.E.").status, 200);
}

TEST(SignOut, EndsTheSession) {
  AStaffedShop at;
  Browser browser(at);
  browser.sign_in("T.E.");
  const auto cookie = browser.cookies_.at("pumpwright_session");
  EXPECT_EQ(browser.ask("DELETE", "/api/session").status, 204);
  EXPECT_FALSE(at.sessions.find(cookie));
  EXPECT_EQ(browser.ask("GET", "/api/jobs").status, 401);
}

TEST(Password, ChangingItSignsOneOutEverywhereElse) {
  AStaffedShop at;
  Browser here(at);
  Browser there(at);
  here.sign_in("T.E.");
  there.sign_in("T.E.");
  EXPECT_EQ(here.ask("POST", "/api/session/password",
                     {{"password", "wrong password"}, {"new_password", "another long one"}})
                .status,
            403);
  EXPECT_EQ(
      here.ask("POST", "/api/session/password", {{"password", password}, {"new_password", "short"}}).status,
      422);
  const auto changed = here.ask("POST", "/api/session/password",
                                {{"password", password}, {"new_password", "another long one"}});
  EXPECT_EQ(changed.status, 204) << changed.body;
  EXPECT_EQ(here.ask("GET", "/api/shop").status, 200);
  EXPECT_EQ(there.ask("GET", "/api/shop").status, 401);
  EXPECT_EQ(there.sign_in("T.E.").status, 401);
  EXPECT_EQ(there.sign_in("T.E.", "another long one").status, 200);
}

TEST(Pin, WorksOnAnEnrolledDeviceOnlyAndEndsAfterFiveWrongOnes) {
  AStaffedShop at;
  Browser tablet(at);
  tablet.sign_in("R.T.");
  EXPECT_EQ(tablet.ask("POST", "/api/session/pin", {{"password", password}, {"pin", "481516"}}).status, 409);
  const auto enrolled =
      tablet.ask("POST", "/api/shop/devices",
                 {{"key", "enrol"}, {"device", "test"}, {"device_seq", 1}, {"name", "Bench 3"}});
  ASSERT_EQ(enrolled.status, 201) << enrolled.body;
  ASSERT_TRUE(tablet.cookies_.contains("pumpwright_device"));
  tablet.sign_in("T.E.");
  EXPECT_EQ(tablet.ask("POST", "/api/session/pin", {{"password", password}, {"pin", "123456"}}).status, 422);
  EXPECT_EQ(
      tablet.ask("POST", "/api/session/pin", {{"password", "wrong password"}, {"pin", "481516"}}).status,
      403);
  const auto set = tablet.ask("POST", "/api/session/pin", {{"password", password}, {"pin", "481516"}});
  ASSERT_EQ(set.status, 204) << set.body;

  const auto with_pin = [&](Browser& browser, const std::string& pin) {
    auto response = browser.ask("POST", "/api/session", {{"id", "T.E."}, {"pin", pin}});
    browser.learn_token();
    return response;
  };
  EXPECT_EQ(with_pin(tablet, "481516").status, 200);
  Browser elsewhere(at);
  EXPECT_EQ(with_pin(elsewhere, "481516").status, 401);

  for (int i = 0; i < 5; ++i) {
    EXPECT_EQ(with_pin(tablet, "90210" + std::to_string(i)).status, 401) << i;
    at.pass(1000);
  }
  const auto shut = with_pin(tablet, "481516");
  EXPECT_EQ(shut.status, 401);
  EXPECT_EQ(json::parse(shut.body).at("error").at("field"), "pin");
  at.pass(1000);
  EXPECT_EQ(tablet.sign_in("T.E.").status, 200);
  EXPECT_EQ(with_pin(tablet, "481516").status, 200);
}

TEST(Pin, PeopleAreNamedOnAnEnrolledDeviceOnlyAndToNobodyElse) {
  AStaffedShop at;
  const auto people_seen_by = [](Browser& browser) {
    const auto session = json::parse(browser.ask("GET", "/api/session").body);
    std::vector<std::string> ids;
    for (const auto& person : session.value("people", json::array()))
      ids.push_back(person.at("id"));
    return ids;
  };
  Browser stranger(at);
  EXPECT_TRUE(people_seen_by(stranger).empty());
  EXPECT_FALSE(json::parse(stranger.ask("GET", "/api/session").body).contains("people"));

  Browser tablet(at);
  tablet.sign_in("R.T.");
  const json enrolment{{"key", "enrol"}, {"device", "test"}, {"device_seq", 1}, {"name", "Bench 3"}};
  ASSERT_EQ(tablet.ask("POST", "/api/shop/devices", enrolment).status, 201);
  EXPECT_TRUE(people_seen_by(tablet).empty()) << "signed in, they are not needed";
  ASSERT_EQ(tablet.ask("DELETE", "/api/session").status, 204);
  EXPECT_EQ(people_seen_by(tablet), (std::vector<std::string>{"O.F.", "R.O.", "R.T.", "T.E."}));

  const auto change = [&](const std::string& key, const std::string& type, const json& payload) {
    return at.lead_hand
        .ask(
            "POST", "/api/shop/events",
            {{"device", "test"},
             {"events",
              json::array({{{"key", key}, {"device_seq", 2}, {"type", type}, {"payload", payload.dump()}}})}})
        .status;
  };
  ASSERT_EQ(change("leaves", "person-changed", {{"id", "T.E."}, {"active", false}}), 200);
  EXPECT_EQ(people_seen_by(tablet), (std::vector<std::string>{"O.F.", "R.O.", "R.T."}));
  const auto device = at.shop.state()->devices.begin()->first;
  ASSERT_EQ(change("dropped", "device-dropped", {{"id", device}}), 200);
  EXPECT_TRUE(people_seen_by(tablet).empty());
}

// Among many names a compressed answer would tell something of the token beside them.
TEST(SignIn, TheTokenIsNeverCompressedBesideNames) {
  AStaffedShop at;
  for (int i = 0; i < 26; ++i) {
    const auto id = "P" + std::to_string(i);
    ASSERT_EQ(at.lead_hand
                  .ask("POST", "/api/shop/people",
                       {{"key", id},
                        {"device", "test"},
                        {"device_seq", 10 + i},
                        {"id", id},
                        {"name", std::string(60, 'n')},
                        {"role", "office"},
                        {"password", password}})
                  .status,
              201);
  }
  Browser tablet(at);
  tablet.sign_in("R.T.");
  ASSERT_EQ(tablet
                .ask("POST", "/api/shop/devices",
                     {{"key", "enrol"}, {"device", "test"}, {"device_seq", 1}, {"name", "Bench 3"}})
                .status,
            201);
  tablet.ask("DELETE", "/api/session");
  const auto answer = tablet.ask("GET", "/api/session", {}, {{"accept-encoding", "gzip"}});
  ASSERT_GT(answer.content().size(), compressed_from_bytes);
  EXPECT_TRUE(json::accept(answer.content()));
  for (const auto& field : answer.headers)
    EXPECT_NE(field.name, "Content-Encoding");
}

TEST(Requests, ForAnotherHostAreNotAnswered) {
  AShop at;
  Browser browser(at);
  for (const auto* path : {"/api/health", "/", "/api/session"})
    EXPECT_EQ(browser.ask("GET", path, {}, {{"host", "evil.example"}}).status, 421) << path;
}

TEST(Requests, ThatCanNotBeReadOrAreUnknownGetAnErrorInBothLanguages) {
  AShop at;
  Browser browser(at);
  for (const auto& [method, path, status] :
       {std::tuple("GET", "/../etc/passwd", 400), std::tuple("GET", "/api/%00", 400),
        std::tuple("GET", "/api/nothing", 404), std::tuple("PUT", "/api/jobs", 405),
        std::tuple("POST", "/", 405), std::tuple("POST", "/api/session", 415)}) {
    const auto response = browser.ask(method, path);
    EXPECT_EQ(response.status, status) << method << path;
    const auto text = json::parse(response.body).at("error").at("text");
    EXPECT_FALSE(text.at("en").get<std::string>().empty());
    EXPECT_FALSE(text.at("es").get<std::string>().empty());
  }
}

TEST(Requests, BodiesThatAreNoJsonObjectAreBadRequests) {
  AStaffedShop at;
  for (const auto& body : {json::array(), json("text"), json(7)})
    EXPECT_EQ(at.lead_hand.ask("POST", "/api/shop/events", body).status, 400) << body;
  EXPECT_EQ(at.lead_hand.ask("POST", "/api/shop/events", {{"unknown", 1}}).status, 422);
}

TEST(Requests, EveryAnswerCarriesTheHeadersThatProtect) {
  AStaffedShop at;
  for (const auto* path : {"/", "/x.js", "/api/health", "/api/nothing", "/api/jobs", "/api/shop", "/../x"}) {
    const auto response = at.lead_hand.ask("GET", path);
    std::set<std::string> names;
    for (const auto& field : response.headers)
      names.insert(field.name);
    for (const auto* name :
         {"Content-Security-Policy", "X-Content-Type-Options", "Referrer-Policy", "Permissions-Policy",
          "Cross-Origin-Opener-Policy", "Cross-Origin-Resource-Policy"})
      EXPECT_TRUE(names.contains(name)) << path << " " << name;
  }
}

TEST(Requests, RowsWhoseAnswersHoldTheRequestTokenSaySo) {
  AShop at;
  int secret = 0;
  for (const auto& route : at.application.router().routes()) {
    const bool of_sessions =
        route.pattern.starts_with("/api/session") || route.pattern == "/api/first-person";
    EXPECT_EQ(route.holds_secret, of_sessions) << route.method << " " << route.pattern;
    secret += route.holds_secret ? 1 : 0;
  }
  EXPECT_EQ(secret, 6);
}

TEST(Admission, ABodyMayBeAsLargeAsItsRowSaysAndNoLarger) {
  AStaffedShop at;
  Browser nobody(at);
  HttpRequest head{.method = "POST",
                   .target = "/api/session",
                   .headers = {{"host", "localhost"},
                               {"content-type", "application/json"},
                               {"cookie", "pumpwright_visit=" + nobody.cookies_.at("pumpwright_visit")},
                               {"x-pumpwright-token", nobody.token_}},
                   .body = {},
                   .peer = "10.0.0.1",
                   .local = "127.0.0.1",
                   .secure = false};
  const auto admission = at.application.admit(head);
  EXPECT_FALSE(admission.refused);
  EXPECT_EQ(admission.body_bytes_max, 16U * 1024);
  for (const auto& route : at.application.router().routes()) {
    // A shop's old book comes in one piece, from a lead hand alone.
    if (route.pattern.starts_with("/api/shop/old-jobs")) {
      EXPECT_LE(route.body_bytes_max, std::size_t{16} * 1024 * 1024);
      EXPECT_FALSE(route.allowed.technician || route.allowed.office || route.allowed.read_only ||
                   route.allowed.anyone);
      continue;
    }
    EXPECT_LE(route.body_bytes_max,
              route.content == Content::attachment ? attachment_body_bytes_max : json_body_bytes_max);
  }
}

}  // namespace
}  // namespace pumpwright::server
