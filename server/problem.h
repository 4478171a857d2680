// The one place that turns what went wrong into an answer: status, code, words in both languages, and what
// would have been valid. Nothing internal gets out; what a person can not act on goes to the log instead.
#pragma once

#include <exception>
#include <optional>
#include <stdexcept>
#include <string>

#include <nlohmann/json_fwd.hpp>

#include "job/text.h"
#include "server/http_response.h"

namespace pumpwright::server {

// What a handler throws when bad input, the shop's refusals and the store's errors do not say it.
class Problem : public std::runtime_error {
 public:
  struct What {
    int status = 500;
    std::string code;  // "bad-input", "not-signed-in", …: see server/openapi.json
    job::Text text;
    std::string field, value, valid;            // empty when it is not about one
    std::optional<std::int64_t> retry_after_s;  // how long to wait before trying again
  };

  explicit Problem(What what) : std::runtime_error(what.text.en), what_(std::move(what)) {}
  const What& what_it_is() const { return what_; }

 private:
  What what_;
};

Problem not_signed_in();
Problem wrong_sign_in();
Problem not_allowed();
Problem not_found();
Problem bad_request(job::Text text);
Problem too_many(std::int64_t retry_after_s);
// For what the transport refuses by itself: 400, 408, 411, 413, 431, 503.
Problem transport_problem(int status);

// What any exception means to the person at the page: BadInput, shop::Refused, store::StoreError, Problem;
// anything else is "internal". `for_log` gets what happened when the answer does not say it.
Problem::What problem_of(const std::exception_ptr& exception, std::string* for_log = nullptr);

// {"code", "text": {"en", "es"}, "field", "value", "valid"}
nlohmann::json error_json(const Problem::What& problem);
// {"error": …}
HttpResponse error_answer(const Problem::What& problem);

HttpResponse json_answer(int status, const nlohmann::json& body);

}  // namespace pumpwright::server
