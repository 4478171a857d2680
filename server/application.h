// What is done with every request before and after its handler: the checks that hold for all, the table,
// errors made into answers, and the headers every answer carries. Knows nothing of sockets.
#pragma once

#include <functional>
#include <string>

#include "server/endpoints.h"
#include "server/request_guard.h"
#include "server/router.h"
#include "server/static_page.h"
#include "server/transport.h"

namespace pumpwright::server {

class Application {
 public:
  struct Setting {
    HostNames hosts;
    std::span<const PageFile> page;
    std::function<void(const std::string&)> log;  // what an answer does not say: one line for the operator
  };

  Application(Parts& parts, Setting setting);

  // Decides on the head alone, in this order: can it be read, is it for us, is there such a thing, does it
  // come from our own page, who asks, may he, is it the kind of body that is wanted. Throws nothing.
  Admission admit(const HttpRequest& head) noexcept;
  // An answer for what the transport refuses by itself.
  HttpResponse complaint(int status) const noexcept;

  const Router& router() const { return router_; }

 private:
  struct Asking {
    Target target;
    RouteMatch match;
    std::optional<Session> session;
    std::optional<shop::Person> person;
  };
  Admission decide(const HttpRequest& head);
  Admission page_admission(const HttpRequest& head, Target target) const;
  void identify(const HttpRequest& head, Asking& asking) const;
  void want_permission(const HttpRequest& head, const Asking& asking) const;
  HttpResponse run(const HttpRequest& request, const Asking& asking) const noexcept;
  void note_seen(const std::string& session) const;
  HttpResponse failed(const std::exception_ptr& exception, const HttpRequest& request) const;

  Parts& parts_;
  Setting setting_;
  Router router_;
  StaticPage page_;
};

}  // namespace pumpwright::server
