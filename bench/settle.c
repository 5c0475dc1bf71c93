/* The algorithm of src/rode/{piece,rest,march,guess,solve}.ts in C, line by line, to measure the TypeScript against.
 * Reads a compiled rode, the kind of load, loads and a count from standard input; prints nanoseconds per settle and a sum. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { MOST = 64 };
static int count, isLine[MOST], firstBand[MOST + 1];
static double length[MOST], low[MOST], high[MOST], bandLoad[MOST], bandStrain[MOST], bandCompliance[MOST];
static double totalLength, totalLow, rise, surface, sinSlope, cosSlope, tanSlope, restDrag;

static double DX, DZ, X_H, X_V, Z_V, T_2, gap, even, stiff;
static double restRun, restGive;
static double oX, oZ, oV, oXH, oXL, oZH, oZL, oVH, oVL, oA, oAH, oAL, oG;
static double g0, g1, g2, solH, solLift;

static double series(double q2) {
  return 1 + q2 * (1.0 / 3 + q2 * (1.0 / 5 + q2 * (1.0 / 7 + q2 * (1.0 / 9 + q2 * (1.0 / 11 + q2 * (1.0 / 13 + q2 * (1.0 / 15)))))));
}

static void riseOf(double H, double V1, double w, double l, double c, double compliance, double T1) {
  double one = 1 + c, V2 = V1 + w * l, H2 = H * H, T2 = sqrt(H2 + V2 * V2), sum = T1 + T2;
  T_2 = T2;
  double product = T1 * T2, vv = V1 * V2;
  double together = vv >= 0 ? product + vv : (H2 * (H2 + V1 * V1 + V2 * V2)) / (product - vv);
  double lower = H2 + together, below = lower * product;
  double share = below > 0 ? 1 / below : 0, per = sum > 0 ? 1 / sum : 0;
  even = l * per;
  gap = 2 * lower * per * per;
  double give = l * compliance, tilt = one * even * (V1 + V2);
  stiff = one * H2 * l * sum * share;
  DZ = tilt + 0.5 * (V1 + V2) * give;
  X_V = 0 - H * tilt * lower * share;
  Z_V = stiff + give;
}

static void runOf(double H, double w, double l, double c, double compliance) {
  double give = l * compliance;
  if (!(gap > 0)) {
    DX = H * give;
    X_H = give;
    return;
  }
  double q = fabs(w * even);
  double overT = q < 0.1 ? 2 * even * series(q * q) : log(((1 + q) * (1 + q)) / gap) / fabs(w);
  double along = (1 + c) * overT;
  DX = H * (along + give);
  X_H = along - stiff + give;
}

static double lengthToClimb(double V1, double w, double climb, double c, double compliance, double T1) {
  double A = 1 + c + compliance * T1;
  double perWeight = (2 * climb) / (A + sqrt(A * A + 2 * compliance * w * climb));
  double up = w * perWeight, square = V1 * V1 + up * (2 * T1 + up);
  if (!(square >= 0)) return NAN;
  double V2 = sqrt(square);
  if (V1 > 0) return (perWeight * (2 * T1 + up)) / (V1 + V2);
  return w > 0 ? (V2 - V1) / w : NAN;
}

static void stretchAtRest(int i, double l, double T1, double T2) {
  int first = firstBand[i], last = firstBand[i + 1] - 1;
  double a = fmin(T1, T2), b = fmax(T1, T2), stretched = l, give = 0;
  double perNewton = b > a ? l / (b - a) : 0;
  if (a < 0) a = 0;
  for (int j = first; j <= last && b > 0; j++) {
    double top = j < last ? bandLoad[j + 1] : INFINITY;
    if (a >= top) continue;
    double c = bandStrain[j], k = bandCompliance[j], end = fmin(b, top);
    double part = perNewton > 0 ? (end - a) * perNewton : l;
    stretched += part * (c + 0.5 * k * (a + end));
    give += part * k;
    a = end;
    if (end >= b) break;
  }
  restRun = stretched;
  restGive = give;
}

static void march(double H, double lift, int runs) {
  double t = tanSlope, phi = restDrag, x = 0, z = 0, xH = 0, xL = 0, zH = 0, zL = 0;
  double v = H * t + lift, vH = t, vL = 1, offset = 0, grounded = 0, anchorFriction = H / cosSlope + phi * lift;
  int part = 0;
  if (lift < 0) {
    double left = -lift, tension = anchorFriction;
    v = H * t;
    while (part < count && left > 0) {
      double w = low[part];
      if (isLine[part]) {
        double all = w * length[part], l = all > left ? left / w : length[part];
        double next = tension + phi * fmin(all, left);
        if (runs || t != 0) {
          stretchAtRest(part, l, tension, next);
          x += cosSlope * restRun;
          z += sinSlope * restRun;
          xH += restGive;
          xL += cosSlope * phi * restGive;
          zH += t * restGive;
          zL += sinSlope * phi * restGive;
        }
        grounded += l;
        tension = next;
        if (all > left) {
          offset = l;
          break;
        }
        left -= all;
        part++;
      } else {
        part++;
        if (w > left) {
          v += w - left;
          break;
        }
        tension += phi * w;
        left -= w;
      }
    }
  }
  double T = sqrt(H * H + v * v);
  for (; part < count; part++) {
    if (!isLine[part]) {
      v += z < surface ? low[part] : high[part];
      T = sqrt(H * H + v * v);
      continue;
    }
    int first = firstBand[part], last = firstBand[part + 1] - 1, band = first;
    double left = length[part] - offset;
    if (last > first) {
      while (band < last && T >= bandLoad[band + 1]) band++;
    }
    while (left > 0) {
      int under = z < surface, step = 0, crosses = 0;
      double w = under ? low[part] : high[part], l = left;
      if (last > first) {
        int falling = v * w < 0;
        double corner = falling && bandLoad[band] > H ? bandLoad[band] : band < last ? bandLoad[band + 1] : 0;
        if (corner > H && w != 0) {
          double vAt = sqrt(corner * corner - H * H);
          int down = falling && corner == bandLoad[band];
          double target = (w > 0) == down ? -vAt : vAt, reach = (target - v) / w;
          if (reach < l) {
            l = fmax(reach, 0);
            step = down ? -1 : 1;
          }
        }
      }
      double c = bandStrain[band], k = bandCompliance[band];
      riseOf(H, v, w, l, c, k, T);
      if (under && z + DZ > surface) {
        double reach = lengthToClimb(v, w, surface - z, c, k, T);
        if (reach <= l) {
          l = reach;
          step = 0;
          crosses = 1;
          riseOf(H, v, w, l, c, k, T);
        }
      }
      if (runs) {
        runOf(H, w, l, c, k);
        x += DX;
        xH += X_H + X_V * vH;
        xL += X_V * vL;
      }
      z += DZ;
      zH += X_V + Z_V * vH;
      zL += Z_V * vL;
      T = T_2;
      v += w * l;
      offset += l;
      left -= l;
      if (crosses) {
        z = surface;
        double perLength = ((1 + c + k * T_2) * v) / T_2;
        double heavier = perLength > 0 ? (high[part] - w) / perLength : 0;
        vH += heavier * zH;
        vL += heavier * zL;
      }
      band += step;
      if (left < 1e-15 * length[part]) left = 0;
    }
    offset = 0;
  }
  oX = x, oZ = z, oV = v, oXH = xH, oXL = xL, oZH = zH, oZL = zL, oVH = vH, oVL = vL, oG = grounded;
  if (lift >= 0) {
    double v0 = H * t + lift, T0 = sqrt(H * H + v0 * v0);
    oA = T0, oAH = T0 > 0 ? (H + v0 * t) / T0 : 0, oAL = T0 > 0 ? v0 / T0 : 0;
  } else if (anchorFriction > 0) {
    oA = anchorFriction, oAH = 1 / cosSlope, oAL = phi;
  } else {
    oA = oAH = oAL = 0;
  }
}

static void evaluate(int kind, double H) {
  if (kind == 0) {
    g0 = H, g1 = 1, g2 = 0;
  } else if (kind == 1) {
    double T = sqrt(H * H + oV * oV);
    g0 = T, g1 = (H + oV * oVH) / T, g2 = (oV * oVL) / T;
  } else if (kind == 2) {
    g0 = oA, g1 = oAH, g2 = oAL;
  } else {
    g0 = oX, g1 = oXH, g2 = oXL;
  }
}

static double guessPull(int kind, double target) {
  double w = totalLow / totalLength, hang = w * rise;
  if (kind == 0) return target;
  double reach = sqrt(fmax(totalLength * totalLength - rise * rise, 1e-12 * totalLength * totalLength));
  if (kind == 1) {
    double straight = (target * reach) / totalLength;
    return target - hang > 0.2 * target ? fmin(target - hang, straight) : 0.2 * target;
  }
  if (kind == 2) return fmax(target * (reach / totalLength), 0.3 * target);
  double chord = hypot(target, rise), slack = fmax(totalLength / chord - 1, 1e-6);
  return fmax(fmax((w * target * target) / (chord * sqrt(24 * slack)), 1e-3 * hang), 1e-9);
}

static double guessHang(double H) {
  double W = totalLow, L = totalLength;
  double A = (W / L) * rise - W * sinSlope + H / cosSlope, b = H * tanSlope - A * sinSlope;
  double square = b * b + (A * cosSlope) * (A * cosSlope) - H * H;
  double hang = square > 0 ? (sqrt(square) - b) / (cosSlope * cosSlope) : 0;
  if (hang > 0 && hang < W) return hang - W;
  double reach = sqrt(fmax(L * L - rise * rise, 1e-12 * L * L));
  return fmax((H * rise) / reach - 0.5 * W - H * tanSlope, -0.5 * W);
}

static void guess(int kind, double target, double *H, double *lift) {
  *H = guessPull(kind, target);
  *lift = guessHang(*H);
  if (kind != 1 && kind != 2) return;
  double w = totalLow / totalLength;
  for (int turn = 0; turn < 2 && *lift < 0; turn++) {
    double pull = kind == 2 ? target - restDrag * *lift : target - (w * rise + sinSlope * *lift);
    *H = fmax(pull * cosSlope, 0.2 * target);
    *lift = guessHang(*H);
  }
}

/* Newton as in solve.ts; a load that would need its nested search is not part of this measurement and ends the program. */
static void solve(int kind, double target) {
  double scale = rise + totalLength, closed = 2e-14 * scale;
  double H, lift;
  guess(kind, target, &H, &lift);
  int last = 0;
  for (int i = 0; i < 24; i++) {
    march(H, lift, last || kind == 3);
    evaluate(kind, H);
    double f = oZ - rise, g = g0 - target, off = fabs(g) / target, miss = fabs(f);
    if (last || (miss <= closed && off <= 2e-14)) {
      if (!last && kind != 3) march(H, lift, 1);
      if (miss <= 1e3 * closed && off <= 2e-11) {
        solH = H;
        solLift = lift;
        return;
      }
      break;
    }
    last = miss <= 1e-7 * scale && off <= 1e-7;
    double det = oZL * g1 - oZH * g2;
    double dH = (oZH == 0 && kind == 0) || det == 0 ? -g : (f * g2 - g * oZL) / det;
    double nextH = H + dH, dL = oZL > 0 ? -(f + oZH * dH) / oZL : 0;
    if (isnan(dH) || isnan(dL) || nextH > 1e3 * H || oZL <= 0) break;
    H = fmax(nextH, 0.1 * H);
    lift += dL;
    if (lift < -totalLow) lift = -totalLow * (1 - 1e-3);
  }
  fprintf(stderr, "Newton did not close at load %g\n", target);
  exit(1);
}

static double number(void) {
  char word[64];
  if (scanf("%63s", word) != 1) exit(2);
  return strtod(word, NULL);
}

int main(void) {
  count = (int)number();
  for (int i = 0; i < count; i++) isLine[i] = (int)number();
  for (int i = 0; i < count; i++) length[i] = number();
  for (int i = 0; i < count; i++) low[i] = number();
  for (int i = 0; i < count; i++) high[i] = number();
  for (int i = 0; i <= count; i++) firstBand[i] = (int)number();
  for (int i = 0; i < firstBand[count]; i++) bandLoad[i] = number();
  for (int i = 0; i < firstBand[count]; i++) bandStrain[i] = number();
  for (int i = 0; i < firstBand[count]; i++) bandCompliance[i] = number();
  totalLength = number(), totalLow = number(), rise = number(), surface = number();
  sinSlope = number(), cosSlope = number(), tanSlope = number(), restDrag = number();
  int kind = (int)number();
  double from = number(), step = number();
  long loads = (long)number(), times = (long)number();
  double sum = 0;
  for (long i = 0; i < times / 10; i++) solve(kind, from + step * (i % loads));
  struct timespec a, b;
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &a);
  for (long i = 0; i < times; i++) {
    solve(kind, from + step * (i % loads));
    sum += solH + solLift;
  }
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &b);
  printf("%.17g %.17g\n", ((b.tv_sec - a.tv_sec) * 1e9 + (b.tv_nsec - a.tv_nsec)) / times, sum);
  return 0;
}
