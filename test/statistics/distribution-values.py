# Values of the normal, Student's t and chi-squared distributions at 40 digits, for distribution-values.json.
# Run with mpmath 1.3.0: python3 distribution-values.py > distribution-values.json
import json

from mpmath import betainc, erfc, findroot, gammainc, log, loggamma, mp, mpf, pi, quad, sqrt

mp.dps = 50
text = lambda value: mp.nstr(value, 19, min_fixed=0, max_fixed=0)


def normal(x):
    return erfc(-x / sqrt(mpf(2))) / 2


def upper_beta_tail(t, v):
    # x as a quotient, not a rounded number: 1 - x must keep its digits too.
    x = v / (v + t * t)
    return betainc(v / 2, mpf(1) / 2, 0, x, regularized=True) / 2


def integrated_tail(t, v):
    # The density itself, integrated: betainc loses itself at large arguments.
    log_density = lambda s: -(v + 1) / 2 * mp.log1p(s * s / v)
    scale = mp.e ** (loggamma((v + 1) / 2) - loggamma(v / 2) + log_density(t)) / sqrt(v * pi)
    h = 1 / (t + 1)
    # Scaled to begin with 1: the quadrature judges its error absolutely.
    return scale * quad(lambda s: mp.e ** (log_density(s) - log_density(t)), [t + k * h for k in (0, 1, 3, 8, 20, 60, 150)])


rows = {"normal": [], "normalQuantile": [], "t": [], "tQuantile": [], "chiSquared": [], "chiSquaredQuantile": []}

for x in [-38, -37, -30, -20, -12.5, -8, -6, -5.66, -5.65, -4, -3, -2, -1, -0.67, -0.66, -0.3, -0.001, -1e-9]:
    for v in (mpf(x), mpf(-x)):
        p = normal(v)
        rows["normal"].append([float(v), text(p), text(log(p)), text(p - mpf(1) / 2)])
for x in [-40, -100, -1e4, -1e8]:
    v = mpf(x)
    rows["normal"].append([x, "0", text(log(normal(v))), "-0.5"])


def root(f, guess):
    return findroot(f, guess, solver="secant", tol=mpf(10) ** -70, maxsteps=200, verify=False)


def normal_quantile(p):
    p = mpf(p)
    r = sqrt(-2 * log(p))
    guess = -(r - (log(r) + log(2 * pi) / 2) / r) if p < 0.02 else (p - mpf(1) / 2) * mpf(2.6)
    return root(lambda x: log(normal(x)) - log(p), guess)


for p in [5e-324, 1e-300, 1e-200, 1e-100, 1e-50, 1e-20, 1e-12, 1e-11, 1e-9, 1e-6, 1e-3, 0.01, 0.025, 0.05, 0.07, 0.08, 0.1, 0.2,
          0.3, 0.4, 0.49, 0.4999, 0.500001, 0.6, 0.75, 0.9, 0.95, 0.975, 0.99, 0.999, 0.9999999, 0.9999999999999999]:
    rows["normalQuantile"].append([p, text(normal_quantile(p))])

DOF = [0.1, 0.5, 1, 1.5, 2, 2.5, 3, 4, 5, 7, 9.99, 10, 15, 19.9, 20, 20.1, 25, 30, 40, 60, 99, 101, 120, 200, 500, 1000, 1e4,
       123456.7, 1e6, 1e9, 1e15]

for v in DOF:
    for t in [1e-8, 0.01, 0.3, 1, 1.7, 1.8, 2.5, 4, 7, 12, 20, 35, 60, 100, 1e3, 1e5, 1e20, 1e160]:
        if v > 1000 and t > 36:
            continue
        tail = upper_beta_tail(mpf(t), mpf(v)) if v < 1e4 else integrated_tail(mpf(t), mpf(v))
        if tail > mpf("1e-307"):
            rows["t"].append([v, t, text(tail), text(mpf(1) / 2 - tail)])
    for p in [1e-300, 1e-100, 1e-30, 1e-9, 1e-4, 0.005, 0.025, 0.1, 0.24, 0.26, 0.4, 0.49999]:
        if v < 0.5 and p < 1e-9:
            continue
        if v > 1000:
            continue
        q = mpf(p)
        if v <= 2:
            guess = (1 / q) ** (1 / mpf(v))
        else:
            z = normal_quantile(p)
            n = mpf(v) - mpf(1) / 2
            guess = sqrt(n * (mp.e ** (z * z / n) - 1))
        u = root(lambda u: log(upper_beta_tail(mp.e**u, mpf(v))) - log(q), log(guess) if guess > 0 else mpf(0))
        t = mp.e**u
        assert abs(upper_beta_tail(t, mpf(v)) / q - 1) < mpf(10) ** -25, (v, p)
        if t < mpf("1e300"):
            rows["tQuantile"].append([p, v, text(-t)])


def gamma_tails(a, x):
    if a > 500:
        # The series of positive terms, with digits to spare for the small share above.
        with mp.workdps(180):
            term = total = mp.e ** (a * log(x) - x - loggamma(a + 1))
            n = 0
            while term > total * mpf(10) ** -175:
                n += 1
                term *= x / (a + n)
                total += term
            return total, 1 - total
    return gammainc(a, 0, x, regularized=True), gammainc(a, x, mp.inf, regularized=True)


for v in DOF:
    if v > 1e7:
        continue
    a = mpf(v) / 2
    s = sqrt(2 * mpf(v))
    points = [mpf(v) * f for f in (1e-6, 0.01, 0.1, 0.25, 0.29, 0.31, 0.5, 0.8, 0.95, 1, 1.05, 1.3, 2, 2.3, 2.5, 4, 10, 100)]
    points += [mpf(v) + k * s for k in (-8, -3, -1, 1, 3, 8)]
    if v > 1000:
        points = [mpf(v) + k * s for k in (-20, -8, -3, -1, -0.01, 0, 0.1, 1, 3, 8, 20)]
    for x in points:
        if x <= 0:
            continue
        x = mpf(float(x))
        below, above = gamma_tails(a, x / 2)
        ok = lambda share: share > mpf("1e-307")
        rows["chiSquared"].append([v, float(x), text(below) if ok(below) else "", text(above) if ok(above) else ""])
    if v > 1000:
        continue
    for p in [1e-300, 1e-100, 1e-30, 1e-9, 1e-4, 0.005, 0.1, 0.5, 0.9, 0.995, 0.9999, 0.999999999]:
        q = mpf(p)
        spread = 2 / (9 * mpf(v))
        cubed = mpf(v) * (1 - spread + normal_quantile(p) * sqrt(spread)) ** 3
        small = 2 * (q * mp.gamma(a + 1)) ** (1 / a)
        guess = small if (p < 0.01 and v < 60) or cubed <= 0 else cubed
        f = lambda u: log(gamma_tails(a, mp.e**u / 2)[0]) - log(q)
        if p > 0.5:
            f = lambda u: log(gamma_tails(a, mp.e**u / 2)[1]) - log(1 - q)
        x = mp.e ** root(f, log(guess))
        if not mpf("1e-300") < x:
            continue
        assert abs(gamma_tails(a, x / 2)[0] / q - 1) < mpf(10) ** -25, (v, p)
        rows["chiSquaredQuantile"].append([p, v, text(x)])

print("{")
print(",\n".join(f'"{name}": [\n' + ",\n".join(json.dumps(row) for row in list_) + "\n]" for name, list_ in rows.items()))
print("}")
