# bench/kalman_like.R - R's KalmanLike on the series of kalman_filter_bench.cpp
#
# Prints for each model: its name, the median CPU time in milliseconds, and two figures that must
# equal the counters s2 and mean_log_f there.
# SPDX-License-Identifier: BSL-1.0
count <- 100000
state <- 1
uniform <- function() {
  state <<- (state * 16807) %% 2147483647
  state / 2147483647
}
y <- numeric(count)
level <- 0
for (i in seq_len(count)) {
  level <- level + 0.7 * (uniform() - 0.5)
  y[i] <- level + 3.4 * (uniform() - 0.5)
}

# `Pn` is the covariance of the first prediction.
model <- function(T, V) {
  P <- diag(1e4, nrow(T))
  list(T = T, V = V, h = 1, Z = c(1, 0)[seq_len(nrow(T))], a = numeric(nrow(T)),
       P = P, Pn = T %*% P %*% t(T) + V)
}
models <- list(local_level = model(matrix(1), matrix(0.04)),
               local_linear_trend = model(matrix(c(1, 0, 1, 1), 2), diag(c(0.04, 0.0001))))
for (name in names(models)) {
  times <- replicate(15, {
    time <- system.time(for (i in 1:5) KalmanLike(y, models[[name]]))
    sum(time[c("user.self", "sys.self")]) / 5
  })
  result <- KalmanLike(y, models[[name]])
  # Lik is half of log(s2) and the mean log variance together.
  cat(sprintf("%s %.3f %.6f %.6f\n", name, 1000 * median(times), result$s2,
              2 * result$Lik - log(result$s2)))
}
