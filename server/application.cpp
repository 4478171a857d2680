#include "server/application.h"

#include <utility>

#include "server/content_coding.h"
#include "server/media_type.h"
#include "server/problem.h"
#include "server/security_headers.h"
#include "server/session_answer.h"
#include "server/set_cookie.h"

namespace pumpwright::server {
namespace {

Problem wrong_host() {
  return Problem(
      {.status = 421,
       .code = "not-allowed",
       .text =
           {.en = "This server does not go by that name. Start it with --tls-name or open it by its address.",
            .es = "Este servidor no se llama así. Inícielo con --tls-name o ábralo por su dirección."},
       .field = "Host",
       .value = {},
       .valid = {},
       .retry_after_s = {}});
}

Problem foreign_page() {
  return Problem({.status = 403,
                  .code = "not-allowed",
                  .text = {.en = "The request does not come from the shop's own page. Load the page again.",
                           .es = "La petición no viene de la página del taller. Vuelva a cargar la página."},
                  .field = {},
                  .value = {},
                  .valid = {},
                  .retry_after_s = {}});
}

Problem wrong_content(std::string valid) {
  return Problem(
      {.status = 415,
       .code = "bad-input",
       .text = {.en = "This kind of body is not taken here.", .es = "Aquí no se acepta ese tipo de cuerpo."},
       .field = "Content-Type",
       .value = {},
       .valid = std::move(valid),
       .retry_after_s = {}});
}

HttpResponse wrong_method(const std::string& methods) {
  auto response =
      error_answer({.status = 405,
                    .code = "bad-input",
                    .text = {.en = "This can not be done here.", .es = "Esto no se puede hacer aquí."},
                    .field = "method",
                    .value = {},
                    .valid = methods,
                    .retry_after_s = {}});
  response.set("Allow", methods);
  return response;
}

void want_content(const HttpRequest& head, Content content) {
  if (content == Content::none) return;
  const auto type = plain_media_type(head.header("content-type").value_or(""));
  if (content == Content::json && type != "application/json") throw wrong_content("application/json");
  if (content == Content::attachment && !may_be_attached(type))
    throw wrong_content("image/jpeg, image/png, image/webp, application/pdf or audio/wav");
}

bool is_api(const Target& target) {
  return !target.segments.empty() && target.segments.front() == "api";
}

Admission refused(HttpResponse response) {
  Admission admission;
  admission.refused = std::move(response);
  return admission;
}

}  // namespace

Application::Application(Parts& parts, Setting setting)
    : parts_(parts), setting_(std::move(setting)), router_(all_routes(parts)), page_(setting_.page) {}

Admission Application::admit(const HttpRequest& head) noexcept {
  try {
    auto admission = decide(head);
    if (admission.refused) add_security_headers(*admission.refused, {.api = true, .secure = head.secure});
    return admission;
  } catch (...) {
    return refused(failed(std::current_exception(), head));
  }
}

HttpResponse Application::complaint(int status) const noexcept {
  auto response = error_answer(transport_problem(status).what_it_is());
  add_security_headers(response, {.api = true, .secure = !parts_.shop_certificate.empty()});
  return response;
}

Admission Application::decide(const HttpRequest& head) {
  auto target = parse_target(head.target);
  if (!target || has_doubtful_headers(head))
    throw bad_request({.en = "The request can not be read.", .es = "No se puede leer la petición."});
  if (!setting_.hosts.ours(*head.header("host"), head.local)) throw wrong_host();

  auto asking = std::make_shared<Asking>();
  asking->match = router_.match(head.method, *target);
  asking->target = std::move(*target);
  const auto* route = asking->match.route;
  if (route == nullptr) {
    if (!asking->match.other_methods.empty()) return refused(wrong_method(asking->match.other_methods));
    if (is_api(asking->target)) throw not_found();
    if (changes_something(head.method)) return refused(wrong_method("GET, HEAD"));
    return page_admission(head, std::move(asking->target));
  }
  identify(head, *asking);
  want_permission(head, *asking);
  want_content(head, route->content);

  Admission admission;
  admission.body_bytes_max = route->body_bytes_max;
  admission.runs = route->runs;
  admission.answer = [this, asking](const HttpRequest& request) { return run(request, *asking); };
  return admission;
}

Admission Application::page_admission(const HttpRequest& /*head*/, Target target) const {
  Admission admission;
  admission.answer = [this, target = std::move(target)](const HttpRequest& request) {
    auto response = page_.answer(request, target);
    add_security_headers(response, {.api = false, .secure = request.secure});
    return response;
  };
  return admission;
}

// Role and being in the shop are looked up anew for every request: a change holds at once.
void Application::identify(const HttpRequest& head, Asking& asking) const {
  const auto sent = cookie(head, session_cookie);
  if (!sent) return;
  auto session = parts_.sessions.find(*sent);
  if (!session) return;
  const auto state = parts_.shop.state();
  const auto found = state->people.find(session->person);
  if (found == state->people.end() || !found->second.active) return;
  asking.person = found->second;
  asking.session = std::move(session);
}

void Application::want_permission(const HttpRequest& head, const Asking& asking) const {
  const auto& allowed = asking.match.route->allowed;
  if (!allowed.anyone && !asking.person) throw not_signed_in();
  if (changes_something(head.method)) {
    const auto* session = asking.session ? &*asking.session : nullptr;
    if (!from_our_own_page(head) || !has_token(parts_, head, session)) throw foreign_page();
  }
  if (!allowed.anyone && !allowed.includes(asking.person->role)) throw not_allowed();
}

HttpResponse Application::run(const HttpRequest& request, const Asking& asking) const noexcept {
  HttpResponse response;
  try {
    const auto* route = asking.match.route;
    if (asking.session && route->runs != Runs::at_once) note_seen(asking.session->id);
    response = route->handler({.request = request,
                               .target = asking.target,
                               .path = asking.match.path,
                               .person = asking.person ? &*asking.person : nullptr,
                               .session = asking.session ? &*asking.session : nullptr});
    if (!route->holds_secret) compress_answer(response, request);
  } catch (...) {
    response = failed(std::current_exception(), request);
  }
  if (asking.person && response.person.empty()) response.person = asking.person->id;
  add_security_headers(response, {.api = is_api(asking.target), .secure = request.secure});
  return response;
}

// A disk that takes nothing any more must not keep anyone from reading what is there.
void Application::note_seen(const std::string& session) const {
  try {
    parts_.sessions.write_seen(session);
  } catch (const store::StoreError& error) {
    setting_.log(std::string("when a session was last seen could not be written: ") + error.what());
  }
}

HttpResponse Application::failed(const std::exception_ptr& exception, const HttpRequest& request) const {
  std::string reason;
  auto response = error_answer(problem_of(exception, &reason));
  if (!reason.empty())
    setting_.log(request.method + " " + request.target.substr(0, request.target.find('?')) + ": " + reason);
  add_security_headers(response, {.api = true, .secure = request.secure});
  return response;
}

}  // namespace pumpwright::server
