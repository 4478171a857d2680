# The fit of weibull_bench.cpp done with R's survreg: the same units, made by the same recipe.
#
#   weibull_reference.R UNITS REPEATS
#
# Prints the shortest time in seconds of REPEATS fits, then shape and scale, so that the caller can see that both did the same.

suppressPackageStartupMessages(library(survival))

arguments <- as.numeric(commandArgs(trailingOnly = TRUE))
units <- arguments[1]
# Quantiles of a Weibull curve in a scrambled order; every third unit was stopped at a time of its own.
place <- ((seq_len(units) - 1) * 7919) %% units
time <- 8000 * (-log1p(-(place + 0.5) / units))^(1 / 1.8)
ended <- as.numeric(place %% 3 != 0)
time[ended == 0] <- time[ended == 0] * 0.6
best <- Inf
for (i in seq_len(arguments[2])) {
  spent <- system.time(fit <- survreg(Surv(time, ended) ~ 1))[["elapsed"]]
  best <- min(best, spent)
}
cat(format(c(best, 1 / fit$scale, exp(coef(fit))), digits = 17), "\n")
