#include "server/problem.h"

#include <new>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "engine/quantity/bad_input.h"
#include "shop/refused.h"
#include "store/store_error.h"

namespace pumpwright::server {
namespace {

Problem::What of_bad_input(const BadInput& error) {
  const auto& what = error.what_was_wrong();
  const auto place = what.place.empty() ? "" : what.place + ": ";
  return {.status = 422,
          .code = "bad-input",
          .text = {.en = fmt::format("{}{}: read \"{}\"; valid: {}", place, what.field, what.value,
                                     what.expected),
                   .es = fmt::format("{}{}: se leyó «{}»; válido: {}", place, what.field, what.value,
                                     what.expected)},
          .field = what.field,
          .value = what.value,
          .valid = what.expected,
          .retry_after_s = std::nullopt};
}

Problem::What simple(int status, std::string code, job::Text text) {
  return {.status = status,
          .code = std::move(code),
          .text = std::move(text),
          .field = {},
          .value = {},
          .valid = {},
          .retry_after_s = std::nullopt};
}

Problem::What of_refusal(const shop::Refused& refused) {
  switch (refused.refusal()) {
    case shop::Refusal::not_allowed:
      return simple(403, "not-allowed", refused.text());
    case shop::Refusal::not_found:
      return simple(404, "not-found", refused.text());
    case shop::Refusal::conflict:
      return simple(409, "conflict", refused.text());
  }
  return simple(409, "conflict", refused.text());
}

Problem::What internal() {
  return simple(500, "internal",
                {.en = "The server could not do this. The reason is in its log; nothing was changed.",
                 .es = "El servidor no pudo hacerlo. El motivo está en su registro; no se cambió nada."});
}

Problem::What busy() {
  auto what = simple(503, "busy",
                     {.en = "The server has too much to do. Try again in a moment.",
                      .es = "El servidor tiene demasiado trabajo. Inténtelo de nuevo en un momento."});
  what.retry_after_s = 1;
  return what;
}

Problem::What of_store_error(const store::StoreError& error) {
  switch (error.code()) {
    case store::StoreErrorCode::disk_full:
      return simple(
          507, "disk-full",
          {.en = "The server's disk is full: nothing was stored. Make room, then try again.",
           .es =
               "El disco del servidor está lleno: no se guardó nada. Libere espacio y vuelva a intentarlo."});
    case store::StoreErrorCode::read_only:
      return simple(503, "read-only-store",
                    {.en = "The server can not write to its disk: nothing was stored.",
                     .es = "El servidor no puede escribir en su disco: no se guardó nada."});
    case store::StoreErrorCode::busy:
      return busy();
    default:
      return internal();
  }
}

}  // namespace

Problem not_signed_in() {
  return Problem(simple(401, "not-signed-in", {.en = "Sign in first.", .es = "Primero inicie sesión."}));
}

Problem wrong_sign_in() {
  return Problem(simple(401, "not-signed-in",
                        {.en = "Name and password or PIN do not belong together.",
                         .es = "El nombre y la contraseña o el PIN no corresponden."}));
}

Problem not_allowed() {
  return Problem(simple(403, "not-allowed",
                        {.en = "Your role does not carry this.", .es = "Su función no permite esto."}));
}

Problem not_found() {
  return Problem(simple(404, "not-found", {.en = "There is nothing here.", .es = "Aquí no hay nada."}));
}

Problem bad_request(job::Text text) {
  return Problem(simple(400, "bad-input", std::move(text)));
}

Problem too_many(std::int64_t retry_after_s) {
  auto what = simple(429, "too-many",
                     {.en = fmt::format("Too many attempts. Wait {} s.", retry_after_s),
                      .es = fmt::format("Demasiados intentos. Espere {} s.", retry_after_s)});
  what.retry_after_s = retry_after_s;
  return Problem(what);
}

Problem transport_problem(int status) {
  switch (status) {
    case 411:
      return Problem(simple(411, "bad-input",
                            {.en = "A body needs its length: send Content-Length.",
                             .es = "El cuerpo necesita su longitud: envíe Content-Length."}));
    case 413:
      return Problem(simple(413, "too-large",
                            {.en = "This is larger than the server takes.",
                             .es = "Es más grande de lo que el servidor acepta."}));
    case 431:
      return Problem(simple(431, "too-large",
                            {.en = "The head of the request is too large.",
                             .es = "La cabecera de la petición es demasiado grande."}));
    case 503:
      return Problem(busy());
    default:
      return Problem(simple(status, "bad-input",
                            {.en = "The request can not be read.", .es = "No se puede leer la petición."}));
  }
}

Problem::What problem_of(const std::exception_ptr& exception, std::string* for_log) {
  const auto log = [&](const char* text) {
    if (for_log != nullptr) *for_log = text;
  };
  try {
    std::rethrow_exception(exception);
  } catch (const Problem& e) {
    return e.what_it_is();
  } catch (const BadInput& e) {
    return of_bad_input(e);
  } catch (const shop::Refused& e) {
    return of_refusal(e);
  } catch (const store::StoreError& e) {
    log(e.what());
    return of_store_error(e);
  } catch (const std::bad_alloc&) {
    log("out of memory");
    return busy();
  } catch (const std::exception& e) {
    log(e.what());
    return internal();
  }
}

nlohmann::json error_json(const Problem::What& problem) {
  return {{"code", problem.code},
          {"text", {{"en", problem.text.en}, {"es", problem.text.es}}},
          {"field", problem.field},
          {"value", problem.value},
          {"valid", problem.valid}};
}

HttpResponse error_answer(const Problem::What& problem) {
  auto response = json_answer(problem.status, {{"error", error_json(problem)}});
  if (problem.retry_after_s) response.set("Retry-After", std::to_string(*problem.retry_after_s));
  return response;
}

HttpResponse json_answer(int status, const nlohmann::json& body) {
  HttpResponse response;
  response.status = status;
  response.set("Content-Type", "application/json; charset=utf-8");
  // What a hand wrote may be cut inside a character; that must not keep the rest from being shown.
  response.body = body.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
  return response;
}

}  // namespace pumpwright::server
