// What stands beside the shop's own data: is the server well, what does it offer, how do tablets come to
// trust it.
#include <nlohmann/json.hpp>

#include "server/endpoints.h"
#include "server/openapi_document.h"
#include "server/problem.h"

namespace pumpwright::server {
namespace {

HttpResponse health(Parts& parts, const Call& /*call*/) {
  return json_answer(200, {{"ok", true}, {"version", parts.version}});
}

HttpResponse description(Parts& /*parts*/, const Call& /*call*/) {
  HttpResponse response;
  response.set("Content-Type", "application/json; charset=utf-8");
  response.embedded = openapi_document();
  return response;
}

HttpResponse certificate(Parts& parts, const Call& /*call*/) {
  if (parts.shop_certificate.empty()) throw not_found();
  HttpResponse response;
  response.set("Content-Type", "application/x-x509-ca-cert");
  response.set("Content-Disposition", "attachment; filename=\"shop-certificate.crt\"");
  response.set("Cache-Control", "no-cache");
  response.body = parts.shop_certificate;
  return response;
}

constexpr std::string_view trust_page = R"(<!doctype html>
<html lang="en">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Trust this shop's server</title>
<h1>Trust this shop's server</h1>
<ol>
<li>Compare the fingerprint: the server printed one when it started. Continue only with someone who can read it there.</li>
<li>Load <a href="/shop-certificate.crt">shop-certificate.crt</a> onto the tablet.</li>
<li>Android: Settings, Security, Encryption and credentials, Install a certificate, CA certificate; choose the file.</li>
<li>iPadOS: Settings, Profile downloaded, Install; then General, About, Certificate Trust Settings, and switch it on.</li>
<li>Windows: open the file, Install Certificate, Local Machine, Trusted Root Certification Authorities.</li>
<li>Linux or another browser: in the browser's settings, Certificates, Authorities, Import; trust it for web sites.</li>
<li>Open the shop's page again: no warning appears. Camera, serial indicators and working without the network are on.</li>
</ol>
<p>The certificate says that this server is the shop's own; it can not read anything on the tablet. The key behind it is a
file in the server's data directory: whoever holds that directory can pose as the shop's server, so guard it.</p>
<h1 lang="es">Confiar en el servidor del taller</h1>
<ol lang="es">
<li>Compare la huella: el servidor la mostró al arrancar. Siga solo con alguien que pueda leerla allí.</li>
<li>Cargue <a href="/shop-certificate.crt">shop-certificate.crt</a> en la tableta.</li>
<li>Android: Ajustes, Seguridad, Cifrado y credenciales, Instalar un certificado, Certificado CA; elija el archivo.</li>
<li>iPadOS: Ajustes, Perfil descargado, Instalar; después General, Información, Ajustes de confianza, y actívelo.</li>
<li>Windows: abra el archivo, Instalar certificado, Equipo local, Entidades de certificación raíz de confianza.</li>
<li>Linux u otro navegador: en los ajustes del navegador, Certificados, Autoridades, Importar; confíe para sitios web.</li>
<li>Abra de nuevo la página del taller: ya no aparece ninguna advertencia.</li>
</ol>
</html>
)";

HttpResponse how_to_trust(Parts& parts, const Call& /*call*/) {
  if (parts.shop_certificate.empty()) throw not_found();
  HttpResponse response;
  response.set("Content-Type", "text/html; charset=utf-8");
  response.set("Cache-Control", "no-cache");
  response.embedded = trust_page;
  return response;
}

}  // namespace

std::vector<Route> general_routes(Parts& parts) {
  const auto get = [&parts](std::string_view pattern, auto function) {
    return Route{.method = "GET",
                 .pattern = pattern,
                 .allowed = allow::anyone,
                 .runs = Runs::at_once,
                 .handler = [&parts, function](const Call& call) { return function(parts, call); }};
  };
  return {get("/api/health", health), get("/api/openapi.json", description),
          get("/shop-certificate.crt", certificate), get("/shop-certificate", how_to_trust)};
}

std::vector<Route> all_routes(Parts& parts) {
  std::vector<Route> all;
  for (auto&& family : {general_routes(parts), session_routes(parts), job_routes(parts), file_routes(parts),
                        shop_routes(parts), history_routes(parts), change_routes(parts)})
    all.insert(all.end(), family.begin(), family.end());
  return all;
}

std::optional<std::string> enrolled_device(const Parts& parts, const HttpRequest& request) {
  const auto sent = cookie(request, "pumpwright_device");
  if (!sent) return std::nullopt;
  auto device = parts.devices.find(*sent);
  if (!device) return std::nullopt;
  const auto state = parts.shop.state();
  const auto found = state->devices.find(*device);
  if (found == state->devices.end() || !found->second.active) return std::nullopt;
  return device;
}

}  // namespace pumpwright::server
