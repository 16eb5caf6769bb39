# Answers random data sets with R. Each line of the input is "method numbers ..."; each line of the output is its answer.
argument <- commandArgs(trailingOnly = TRUE)
bca_possible <- requireNamespace("boot", quietly = TRUE)

wilson <- function(x) suppressWarnings(prop.test(x[1], x[2], correct = FALSE)$conf.int)

newcombe <- function(x) {
  a <- wilson(x[1:2]); b <- wilson(x[3:4])
  p <- x[1] / x[2]; q <- x[3] / x[4]
  c(p - q - sqrt((p - a[1])^2 + (b[2] - q)^2), p - q + sqrt((a[2] - p)^2 + (q - b[1])^2))
}

fisher <- function(x) fisher.test(matrix(c(x[1], x[2] - x[1], x[3], x[4] - x[3]), 2))$p.value

kappas <- function(x) {
  n <- x[1]; table <- matrix(x[-1], n, byrow = TRUE); table <- table / sum(table)
  chance <- outer(rowSums(table), colSums(table))
  steps <- abs(outer(1:n, 1:n, "-"))
  sapply(list((steps > 0) * 1, steps, steps^2), function(w) 1 - sum(w * table) / sum(w * chance))
}

# By the analysis of variance of R itself.
icc <- function(x) {
  n <- x[1]; k <- x[2]
  data <- data.frame(y = x[-(1:2)], target = factor(rep(1:n, each = k)), judge = factor(rep(1:k, n)))
  ms <- summary(aov(y ~ target + judge, data))[[1]][["Mean Sq"]]
  b <- ms[1]; j <- ms[2]; e <- ms[3]
  single <- (b - e) / (b + (k - 1) * e + k * (j - e) / n)
  f <- j / e
  v <- (k - 1) * (n - 1) * (k * single * f + n * (1 + (k - 1) * single) - k * single)^2 /
    ((n - 1) * k^2 * single^2 * f^2 + (n * (1 + (k - 1) * single) - k * single)^2)
  upper <- qf(.975, n - 1, v); lower <- qf(.975, v, n - 1)
  c(single, (b - e) / (b + (j - e) / n), n * (b - upper * e) / (upper * (k * j + (k * n - k - n) * e) + n * b),
    n * (lower * b - e) / (k * j + (k * n - k - n) * e + n * lower * b))
}

distances <- function(x) {
  n <- x[1]; k <- x[2]
  values <- matrix(x[-(1:(2 + k))], n, byrow = TRUE)
  sqrt(mahalanobis(values, x[3:(2 + k)], cov(values)))
}

# Slope of the log likelihood at the alpha and beta given, and how much higher R's own search gets.
pooling <- function(x) {
  players <- x[3]; k <- x[3 + 1:players]; n <- x[3 + players + 1:players]
  likelihood <- function(l) sum(lbeta(k + exp(l[1]), n - k + exp(l[2])) - lbeta(exp(l[1]), exp(l[2])))
  a <- x[1]; b <- x[2]; both <- sum(digamma(a + b) - digamma(n + a + b))
  found <- optim(c(0, 1), likelihood, control = list(fnscale = -1, reltol = 1e-14, maxit = 5000))
  c(a * (sum(digamma(k + a) - digamma(a)) + both), b * (sum(digamma(n - k + b) - digamma(b)) + both),
    max(found$value - likelihood(log(c(a, b))), 0))
}

bca <- function(x) {
  if (!bca_possible) return(c(NA, NA))
  set.seed(1)
  boot::boot.ci(boot::boot(x, function(d, i) mean(d[i]), 20000), type = "bca")$bca[4:5]
}

answer <- list(
  wilson = wilson, newcombe = newcombe, fisher = fisher, kappas = kappas, icc = icc, distances = distances,
  pooling = pooling, bca = bca,
  binomial = function(x) binom.test(x[1], x[2], x[3])$p.value,
  adjust = function(x) p.adjust(x, "BH"),
  quantile = function(x) quantile(x[-1], x[1], type = 7, names = FALSE),
  tails = function(x) c(qt(x[1], x[2], lower.tail = FALSE), qbeta(x[1], x[2], x[3]), qf(x[1], x[2], x[3], lower.tail = FALSE))
)

for (line in readLines(argument[1])) {
  words <- strsplit(line, " ")[[1]]
  cat(sprintf("%.17g", answer[[words[1]]](as.numeric(words[-1]))), "\n")
}
