# Live references for life data: R's survival package computes, the test compares. Runs as a process of its own.
#
#   live_reference.R versions
#   live_reference.R curve DATA log|log-log
#   live_reference.R incidence
#   live_reference.R groups DATA
#   live_reference.R weibull DATA
#   live_reference.R threshold
#   live_reference.R cox DATA efron|breslow
#   live_reference.R rate TOTAL RETURNS CONFIDENCE
#   live_reference.R trend
#
# Every line is a name and its numbers; the data travel with the results, so that both sides see the same.

suppressPackageStartupMessages(library(survival))

say <- function(name, values) cat(name, format(as.numeric(values), digits = 17, trim = TRUE), "\n")

# time, ended (1: the event), and what else a command needs; rows with gaps are left out.
data_named <- function(name) {
  if (name == "lung") return(na.omit(data.frame(time = lung$time, ended = lung$status - 1, group = lung$sex,
    age = lung$age, sex = lung$sex, ecog = lung$ph.ecog)))
  if (name == "veteran") return(data.frame(time = veteran$time, ended = veteran$status,
    group = as.integer(veteran$celltype), karno = veteran$karno, months = veteran$diagtime, age = veteran$age,
    prior = veteran$prior))
  if (name == "ovarian") return(data.frame(time = ovarian$futime, ended = ovarian$fustat, group = ovarian$rx,
    age = ovarian$age, rx = ovarian$rx))
  if (name == "colon") return(na.omit(with(subset(colon, etype == 2), data.frame(time = time, ended = status,
    group = as.integer(rx), nodes = nodes, age = age, obstruct = obstruct))))
  stop("unknown data ", name)
}

say_lives <- function(d) {
  say("time", d$time)
  say("ended", d$ended)
}

curve <- function(name, transform) {
  d <- data_named(name)
  fit <- survfit(Surv(time, ended) ~ 1, data = d, conf.type = transform)
  at <- fit$n.event > 0 & fit$surv > 0
  say_lives(d)
  say("steps", fit$time[at])
  say("surviving", fit$surv[at])
  say("error", fit$surv[at] * fit$std.err[at])
  say("low", fit$lower[at])
  say("high", fit$upper[at])
  q <- quantile(fit, 0.5)
  say("median", c(q$quantile, q$lower, q$upper))
}

incidence <- function() {
  d <- with(mgus2, data.frame(time = ifelse(pstat == 0, futime, ptime), ended = ifelse(pstat == 0, 2 * death, 1)))
  d <- d[d$time > 0, ]
  fit <- survfit(Surv(time, factor(ended, 0:2)) ~ 1, data = d)
  at <- rowSums(fit$n.event[, -1]) > 0
  say_lives(d)
  say("times", fit$time[at])
  say("returned", fit$pstate[at, 2])
  say("replaced", fit$pstate[at, 3])
}

groups <- function(name) {
  d <- data_named(name)
  test <- survdiff(Surv(time, ended) ~ group, data = d)
  say_lives(d)
  say("group", d$group)
  say("expected", test$exp)
  say("log_rank", test$chisq)
  loglik <- function(part) survreg(Surv(time, ended) ~ 1, data = part, control = list(rel.tolerance = 1e-10))$loglik[1]
  say("weibull_ratio", 2 * (sum(sapply(split(d, d$group), loglik)) - loglik(d)))
}

# End of a likelihood interval of ln(time by which `part` came back), or of ln(shape) where part is NA, from dweibull and
# pweibull and general-purpose searches alone.
limit <- function(d, best, part, side) {
  at <- function(log_shape, psi) {
    shape <- exp(log_shape)
    log_scale <- psi - log(-log1p(-part)) / shape
    sum(ifelse(d$ended == 1, dweibull(d$time, shape, exp(log_scale), log = TRUE),
      pweibull(d$time, shape, exp(log_scale), lower.tail = FALSE, log.p = TRUE)))
  }
  profile <- function(psi) optimize(at, c(log(best$shape) - 1.5, log(best$shape) + 1.5), psi = psi, maximum = TRUE,
    tol = 1e-10)$objective
  # With the scale held, survreg at times does not notice that it has arrived; the search would.
  of_shape <- function(log_shape) suppressWarnings(survreg(Surv(time, ended) ~ 1, data = d, scale = exp(-log_shape),
    control = list(rel.tolerance = 1e-10)))$loglik[1]
  f <- if (is.na(part)) of_shape else profile
  start <- if (is.na(part)) log(best$shape) else log(best$scale) + log(-log1p(-part)) / best$shape
  fall <- function(x) f(x) - best$loglik + qchisq(0.95, 1) / 2
  exp(uniroot(fall, sort(c(start, start + side * 1.4)), tol = 1e-11)$root)
}

weibull <- function(name) {
  d <- data_named(name)
  fit <- survreg(Surv(time, ended) ~ 1, data = d, control = list(rel.tolerance = 1e-10))
  best <- list(shape = 1 / fit$scale, scale = exp(coef(fit)), loglik = fit$loglik[1])
  say_lives(d)
  say("shape", best$shape)
  say("scale", best$scale)
  say("loglik", best$loglik)
  say("variance", c(fit$var[1, 1], fit$var[2, 2], -fit$var[1, 2]))
  say("b10", predict(fit, data.frame(x = 1), type = "quantile", p = 0.1)[1])
  say("shape_limits", c(limit(d, best, NA, -1), limit(d, best, NA, 1)))
  say("scale_limits", c(limit(d, best, 1 - exp(-1), -1), limit(d, best, 1 - exp(-1), 1)))
  say("b10_limits", c(limit(d, best, 0.1, -1), limit(d, best, 0.1, 1)))
}

# A made set with a time before which nothing happens; the threshold by a general-purpose search.
threshold <- function() {
  p <- (1:80 - 0.3) / 80.4
  d <- data.frame(time = 600 + 700 * (-log1p(-p))^(1 / 1.6), ended = 1)
  d$ended[d$time > 1500] <- 0
  d$time <- pmin(d$time, 1500)
  profile <- function(g) survreg(Surv(time - g, ended) ~ 1, data = d, control = list(rel.tolerance = 1e-10))$loglik[1]
  best <- optimize(profile, c(0, min(d$time) - 1), maximum = TRUE, tol = 1e-9)
  fit <- survreg(Surv(time - best$maximum, ended) ~ 1, data = d, control = list(rel.tolerance = 1e-10))
  fall <- function(g) profile(g) - best$objective + qchisq(0.95, 1) / 2
  say_lives(d)
  say("threshold", best$maximum)
  say("low", uniroot(fall, c(0, best$maximum), tol = 1e-10)$root)
  say("shape", 1 / fit$scale)
  say("scale", exp(coef(fit)))
  say("loglik", best$objective)
}

cox <- function(name, ties) {
  d <- data_named(name)
  x <- as.matrix(d[, !(names(d) %in% c("time", "ended", "group"))])
  fit <- coxph(Surv(d$time, d$ended) ~ x, ties = ties, control = coxph.control(eps = 1e-11, toler.chol = 1e-14, iter.max = 50))
  say_lives(d)
  say("columns", ncol(x))
  say("readings", t(x))
  say("coefficients", coef(fit))
  say("errors", sqrt(diag(vcov(fit))))
  say("loglik", fit$loglik)
  say("score", fit$score)
  apart <- coxph(as.formula(paste("Surv(time, ended) ~", paste(colnames(x), collapse = " + "))), data = d, ties = ties,
    control = coxph.control(eps = 1e-11, toler.chol = 1e-14, iter.max = 50))
  say("proportional", cox.zph(apart, transform = "km")$table[, "chisq"])
}

rate <- function(total, returns, confidence) {
  tail <- (1 - confidence) / 2
  say("low", 2 * total / qchisq(1 - tail, 2 * returns + 2))
  say("high", 2 * total / qchisq(tail, 2 * returns))
}

# Three pumps of different ages; likelihood of the power law by a general-purpose search.
trend <- function() {
  until <- c(900, 2500, 4000)
  ages <- list(c(100, 620), c(340, 1100, 1990, 2410), c(260, 1500, 2600, 3100, 3950))
  all <- unlist(ages)
  # For each shape the best scale is known; what is left is one search.
  profile <- function(b) {
    lambda <- length(all) / sum(until^b)
    length(all) * log(lambda * b) + (b - 1) * sum(log(all)) - lambda * sum(until^b)
  }
  b <- optimize(profile, c(0.1, 10), maximum = TRUE, tol = 1e-10)$maximum
  say("shape", b)
  say("scale", (sum(until^b) / length(all))^(1 / b))
  spread <- sum(mapply(function(end, at) sum(log(end / at)), until, ages))
  say("limits", qchisq(c(0.025, 0.975), 2 * length(all)) / (2 * spread))
  say("p", 2 * min(pchisq(2 * spread, 2 * length(all)), pchisq(2 * spread, 2 * length(all), lower.tail = FALSE)))
  # The rate at 4000: best log-likelihood with it held, over the shape.
  held <- function(log_rate) optimize(function(b) {
    lambda <- exp(log_rate) / (b * 4000^(b - 1))
    length(all) * log_rate - length(all) * (b - 1) * log(4000) + (b - 1) * sum(log(all)) - lambda * sum(until^b)
  }, c(0.05, 12), maximum = TRUE, tol = 1e-10)$objective
  start <- log(length(all) / sum(until^b) * b * 4000^(b - 1))
  fall <- function(x) held(x) - held(start) + qchisq(0.95, 1) / 2
  say("mean", exp(-start))
  say("mean_limits", c(exp(-uniroot(fall, c(start, start + 3), tol = 1e-11)$root),
    exp(-uniroot(fall, c(start - 3, start), tol = 1e-11)$root)))
}

arguments <- commandArgs(trailingOnly = TRUE)
rest <- arguments[-1]
switch(arguments[1],
  versions = cat("R", paste(R.version$major, R.version$minor, sep = "."), "survival",
    as.character(packageVersion("survival")), "\n"),
  curve = curve(rest[1], rest[2]),
  incidence = incidence(),
  groups = groups(rest[1]),
  weibull = weibull(rest[1]),
  threshold = threshold(),
  cox = cox(rest[1], rest[2]),
  rate = rate(as.numeric(rest[1]), as.numeric(rest[2]), as.numeric(rest[3])),
  trend = trend(),
  stop("unknown command ", arguments[1]))
