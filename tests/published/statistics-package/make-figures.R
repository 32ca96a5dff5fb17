# Figures of a general-purpose statistics package, for models without a pedigree. Writes figures.json beside this file:
#   apt-get install --no-install-recommends r-base-core r-cran-lme4 r-cran-nlme r-cran-mass r-cran-jsonlite
#   Rscript make-figures.R
# Data: open data sets that come with the packages nlme, lme4 and MASS.
suppressMessages({
  library(lme4)
  library(nlme)
  library(MASS)
  library(jsonlite)
})

variances <- function(fit) as.data.frame(VarCorr(fit))$vcov
effects <- function(table) list(values = unname(table[, 1]), errors = unname(table[, 2]))
tight <- lmerControl(optimizer = "bobyqa", optCtrl = list(rhoend = 1e-10, maxfun = 1e5))

# Three machines, six workers, each on each machine three times: two random terms, one within the other.
data(Machines, package = "nlme")
machines <- data.frame(
  worker = as.character(Machines$Worker), machine = as.character(Machines$Machine), score = Machines$score
)
machinesFit <- lmer(score ~ machine + (1 | worker) + (1 | worker:machine), machines, control = tight)
workers <- ranef(machinesFit, condVar = TRUE)$worker

# Growth of 27 children at four ages: classes, a covariate and their product, looks repeated.
data(Orthodont, package = "nlme")
growth <- data.frame(
  child = as.character(Orthodont$Subject), sex = as.character(Orthodont$Sex), age = Orthodont$age,
  distance = Orthodont$distance
)
growthFit <- lmer(distance ~ sex + age + I(age * (sex == "Male")) + (1 | child), growth, control = tight)

# Sick cattle of a herd in a period: counts out of counts, with a normal effect of each count on the logit's scale, by Laplace.
data(cbpp, package = "lme4")
herds <- data.frame(period = as.integer(cbpp$period), sick = cbpp$incidence, size = cbpp$size)
herds$count <- factor(seq_len(nrow(herds)))
herdsFit <- glmer(
  cbind(sick, size - sick) ~ factor(period) + (1 | count), herds, binomial,
  control = glmerControl(optimizer = "bobyqa", optCtrl = list(rhoend = 1e-9, maxfun = 1e5))
)

# Language and verbal IQ of 2287 pupils in 133 classes: two traits at once, with a covariance between and within classes.
data(nlschools, package = "MASS")
schools <- data.frame(
  class = as.character(nlschools$class), language = nlschools$lang, iq = nlschools$IQ
)
long <- data.frame(
  class = factor(rep(schools$class, 2)), pupil = factor(rep(seq_len(nrow(schools)), 2)),
  trait = factor(rep(c("language", "iq"), each = nrow(schools)), levels = c("language", "iq")),
  y = c(schools$language, schools$iq)
)
long <- long[order(long$class, long$pupil, long$trait), ]
schoolsFit <- lme(
  y ~ 0 + trait, long,
  random = ~ 0 + trait | class,
  correlation = corSymm(0.5, form = ~ 1 | class / pupil), weights = varIdent(form = ~ 1 | trait),
  control = lmeControl(msMaxIter = 500, msMaxEval = 2000, niterEM = 50, tolerance = 1e-10, msTol = 1e-12)
)
between <- unclass(getVarCov(schoolsFit))
residualSd <- schoolsFit$sigma * c(1, coef(schoolsFit$modelStruct$varStruct, unconstrained = FALSE))
residualCor <- coef(schoolsFit$modelStruct$corStruct, unconstrained = FALSE)

write_json(
  list(
    madeBy = list(
      R = paste(R.version$major, R.version$minor, sep = "."),
      lme4 = as.character(packageVersion("lme4")), nlme = as.character(packageVersion("nlme")),
      MASS = as.character(packageVersion("MASS"))
    ),
    machines = list(
      rows = machines, variances = variances(machinesFit), logLikelihood = as.numeric(logLik(machinesFit)),
      effects = effects(coef(summary(machinesFit))),
      workers = list(
        names = rownames(workers), values = workers[, 1], errors = sqrt(as.vector(attr(workers, "postVar")))
      )
    ),
    growth = list(
      rows = growth, variances = variances(growthFit), logLikelihood = as.numeric(logLik(growthFit)),
      effects = effects(coef(summary(growthFit)))
    ),
    herds = list(
      rows = herds[c("period", "sick", "size")], deviation = sqrt(variances(herdsFit)),
      logLikelihood = as.numeric(logLik(herdsFit)), effects = effects(coef(summary(herdsFit)))
    ),
    schools = list(
      classes = schools$class, language = schools$language, iq = schools$iq,
      between = c(between[1, 1], between[2, 2], between[1, 2]),
      residual = c(residualSd^2, residualCor * prod(residualSd)),
      means = as.vector(fixef(schoolsFit)), logLikelihood = as.numeric(logLik(schoolsFit))
    )
  ),
  "figures.json",
  digits = NA, auto_unbox = TRUE, dataframe = "columns"
)
