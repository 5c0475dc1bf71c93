/*
 * The gradient of src/holding/model.ts for lognormal loads, exact or held on, with 6 anchors and 10 sites (non-centred or
 * centred as the model chooses here: anchors and sites centred where told by their order below), in C: what the language
 * costs. ln Φ by the same table as there; with -DLOG_BELOW=below by the quotients of src/statistics/normal.ts, with
 * -DLOG_BELOW=by_library by erfc of the C library. Prints the seconds of the fastest of twenty batches.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

static const double MIDDLE = 0.66291, FAR = 5.656854249492381, ROOT_2PI = 2.5066282746310002;
static const double MO[] = {18154.98125334356, 1067.6894854603709, 161.02823106855587, 2.2352520354606837, 0.06568233791820745};
static const double MU[] = {45507.78933502673, 10260.932208618979, 976.0985517377767, 47.202581904688245, 1};
static const double NO[] = {9842.714838383978, 11602.65143764735, 6848.190450536283, 2494.5375852903726, 597.2702763948002, 93.50665613217785, 8.883149794388377, 0.39894151208813466, 1.0765576773720192e-8};
static const double NU[] = {19685.429676859992, 38912.00328609327, 34900.95272114598, 18615.571640885097, 6485.558298266761, 1519.3775994075547, 235.387901782625, 22.266688044328117, 1};
static const double FO[] = {0.9999999999999983, 42.229678253821824, 545.4407470369633, 2370.013270341893, 2481.179395668191};
static const double FU[] = {1, 45.22967825380781, 666.1297818173341, 3794.957431999297, 7678.223914730506, 3706.441943322585};

static double poly(const double *c, int n, double x) {
  double sum = c[n - 1];
  for (int k = n - 2; k >= 0; k--) sum = sum * x + c[k];
  return sum;
}
static double tail(double x) {
  if (x <= FAR) return poly(NO, 9, x) / poly(NU, 9, x);
  double s = 1 / (x * x);
  return (1 - s * poly(FO, 5, s) / poly(FU, 6, s)) / (x * ROOT_2PI);
}
static double bell(double x) {
  if (!(x < 40)) return exp(-0.5 * x * x);
  double head = trunc(x * 16) / 16;
  return exp(-0.5 * head * head) * exp(-0.5 * (x - head) * (x + head));
}
static void below(double x, double *value, double *slope) {
  if (x < -MIDDLE) {
    double t = tail(-x);
    *value = log(t) - 0.5 * x * x;
    *slope = 1 / (t * ROOT_2PI);
    return;
  }
  double height = bell(x);
  if (x > MIDDLE) {
    double above = tail(x) * height;
    *value = log1p(-above);
    *slope = height / (ROOT_2PI * (1 - above));
    return;
  }
  double square = x * x, b = 0.5 + x * poly(MO, 5, square) / poly(MU, 5, square);
  *value = log(b);
  *slope = height / (ROOT_2PI * b);
}

/* The table of src/statistics/tabled-log-normal.ts. */
enum { FROM = -10, TO = 8, PER_UNIT = 16, DEGREE = 7, STRIDE = 8 };
static double table[((TO - FROM) * PER_UNIT + 1) * STRIDE];
static void make_table(void) {
  for (int k = 0; k <= (TO - FROM) * PER_UNIT; k++) {
    double x = FROM + (double)k / PER_UNIT, h[STRIDE], *row = table + k * STRIDE;
    below(x, row, h);
    for (int n = 0; n < DEGREE; n++) {
      double sum = 0;
      row[n + 1] = h[n] / (n + 1);
      for (int j = 0; j <= n; j++) sum += h[j] * ((j == n ? x : j == n - 1 ? 1 : 0) + h[n - j]);
      h[n + 1] = -sum / (n + 1);
    }
  }
}
static void tabled(double x, double *value, double *slope) {
  if (!(x >= FROM && x <= TO)) {
    below(x, value, slope);
    return;
  }
  int node = (int)((x - FROM) * PER_UNIT + 0.5);
  double t = x - FROM - (double)node / PER_UNIT;
  const double *c = table + node * STRIDE;
  *value = c[0] + t * (c[1] + t * (c[2] + t * (c[3] + t * (c[4] + t * (c[5] + t * (c[6] + t * c[7]))))));
  *slope = c[1] + t * (2 * c[2] + t * (3 * c[3] + t * (4 * c[4] + t * (5 * c[5] + t * (6 * c[6] + t * 7 * c[7])))));
}
/* By the C library: what one would write first. */
static void by_library(double x, double *value, double *slope) {
  double share = 0.5 * erfc(-x * 0.70710678118654752);
  *value = log(share);
  *slope = exp(-0.5 * x * x) / (ROOT_2PI * share);
}
#ifndef LOG_BELOW
#define LOG_BELOW tabled
#endif

enum { ANCHORS = 6, SITES = 10 };
/* m, angle, mass, ln scatter, ln spread of anchors, anchors, ln spread of sites, sites */
enum { A_SPREAD = 4, A_AT = 5, S_SPREAD = 11, S_AT = 12 };

static int n, kind[1000], anchor[1000], site[1000];
static double y[1000], angle[1000], mass[1000], centre[1000], m_mean;

static double normal_prior(const double *at, double *g, int k, double mean, double sd) {
  double z = (at[k] - mean) / sd;
  g[k] -= z / sd;
  return -0.5 * z * z;
}
static double half_normal(const double *at, double *g, int k, double scale) {
  double z = exp(at[k]) / scale;
  g[k] += 1 - z * z;
  return at[k] - 0.5 * z * z;
}
static double levels(const double *at, double *g, int spread_at, int from, int count, double scale, int centred, double *effect) {
  double value = half_normal(at, g, spread_at, scale), spread = exp(at[spread_at]);
  for (int k = 0; k < count; k++) {
    double x = at[from + k], z = centred ? x / spread : x;
    effect[k] = centred ? x : spread * x;
    value -= 0.5 * z * z;
    if (centred) {
      value -= at[spread_at];
      g[spread_at] += z * z - 1;
      g[from + k] -= z / spread;
    } else g[from + k] -= z;
  }
  return value;
}
static void push_levels(const double *at, double *g, int spread_at, int from, int count, int centred, const double *push) {
  double spread = exp(at[spread_at]);
  for (int k = 0; k < count; k++) {
    if (centred) g[from + k] += push[k];
    else {
      g[from + k] += spread * push[k];
      g[spread_at] += spread * at[from + k] * push[k];
    }
  }
}
static int anchors_centred, sites_centred;
static volatile double sink;

static double density(const double *at, double *g, int p) {
  double ea[ANCHORS], es[SITES], pa[ANCHORS] = {0}, ps[SITES] = {0};
  for (int k = 0; k < p; k++) g[k] = 0;
  double value = normal_prior(at, g, 0, m_mean, 1.5) + normal_prior(at, g, 1, -0.03, 0.05) + normal_prior(at, g, 2, 0.93, 0.2) + half_normal(at, g, 3, 0.5);
  value += levels(at, g, A_SPREAD, A_AT, ANCHORS, 0.7, anchors_centred, ea);
  value += levels(at, g, S_SPREAD, S_AT, SITES, 0.4, sites_centred, es);
  double inverse = exp(-at[3]);
  for (int i = 0; i < n; i++) centre[i] = at[0] + at[1] * angle[i] + at[2] * mass[i] + ea[anchor[i]] + es[site[i]];
  for (int i = 0; i < n; i++) {
    double w = (y[i] - centre[i]) * inverse, d;
    if (kind[i] == 0) {
      value += -0.5 * w * w - 0.9189385332046728 - at[3];
      d = -w;
      g[3] -= 1;
    } else {
      double v, s;
      LOG_BELOW(-w, &v, &s);
      value += v;
      d = -s;
    }
    double push = -d * inverse;
    g[3] -= w * d;
    g[0] += push;
    g[1] += push * angle[i];
    g[2] += push * mass[i];
    pa[anchor[i]] += push;
    ps[site[i]] += push;
  }
  push_levels(at, g, A_SPREAD, A_AT, ANCHORS, anchors_centred, pa);
  push_levels(at, g, S_SPREAD, S_AT, SITES, sites_centred, ps);
  return value;
}

int main(int argc, char **argv) {
  FILE *file = fopen(argv[argc - 1], "r");
  int p, turns;
  double at[64], g[64], informative = 0, lnm = 0;
  if (!file || fscanf(file, "%d %d %d", &n, &p, &turns) != 3) return 1;
  for (int k = 0; k < p; k++) if (fscanf(file, "%lf", &at[k]) != 1) return 1;
  for (int i = 0; i < n; i++) {
    if (fscanf(file, "%d %lf %lf %lf %d %d", &kind[i], &y[i], &angle[i], &mass[i], &anchor[i], &site[i]) != 6) return 1;
    informative += kind[i] == 0;
    lnm += log(15 + i % 6) / n;
  }
  m_mean = log(30 * 9.80665) + lnm;
  anchors_centred = informative / ANCHORS >= 12;
  sites_centred = informative / SITES >= 12;
  make_table();
  double seconds = HUGE_VAL;
  for (int batch = 0; batch < 20; batch++) {
    clock_t begun = clock();
    for (int k = 0; k < turns; k++) {
      at[0] = 8 + (k % 7) * 0.01;
      sink += density(at, g, p);
    }
    double own = (double)(clock() - begun) / CLOCKS_PER_SEC;
    if (own < seconds) seconds = own;
  }
  at[0] = 8;
  double value = density(at, g, p);
  printf("%.6f %.12g %.12g\n", seconds, value, g[0]);
  return 0;
}
