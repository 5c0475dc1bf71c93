/* The step of src/motion (step.ts, inertia.ts, forces.ts, bottom.ts, end-rows.ts, numeric/block-tridiagonal.ts) in C, its bow led to and fro: what the language costs.
 * Reads the rode as bench/ride.mjs writes it, steps it, and prints nanoseconds of processor time a step and the sum of the loads at the bow. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

static int count, nodes, nb, pointNodes, *pointNode;
static double surface, current, sinS, cosS, friction, x0, z0, amplitude, omega, alphaM, alphaF, beta, gam, h, along;
static long steps;
/* Of an element: length, weight below and above the surface, drag across and along, its first and last band. */
static double *slots, *mass, *addedAcross, *addedAlong, *band;
static double *pMass, *pDisp, *pLow, *pHigh, *pDrag, *pSize, *bedK, *gripK, *bedD, *bedRest;
static double *place, *grip, *speed, *acc, *inertia, *force, *at, *rate, *next, *change, *lifted, *borne, *tension;
static double *diagonal, *beside, *atFirst, *rateFirst, *forceFirst;
static double q[3], qRate[3], qAcc[3], qN[3], qRateN[3], when;

static double wet(double z1, double z2) {
  if (z1 <= surface && z2 <= surface) return 1;
  if (z1 >= surface && z2 >= surface) return 0;
  return (surface - (z1 < z2 ? z1 : z2)) / fabs(z2 - z1);
}

static void path(double t, double *p, double *v, double *a) {
  double s = sin(omega * t), c = cos(omega * t);
  p[0] = x0 + amplitude * s; p[1] = 0; p[2] = z0;
  v[0] = amplitude * omega * c; v[1] = v[2] = 0;
  a[0] = -amplitude * omega * omega * s; a[1] = a[2] = 0;
}

static void assembleInertia(double share) {
  memset(inertia, 0, 6 * nodes * sizeof(double));
  for (int k = 0; k < count; k++) {
    int i = 3 * k;
    double dx = place[i + 3] - place[i], dy = place[i + 4] - place[i + 1], dz = place[i + 5] - place[i + 2];
    double squared = dx * dx + dy * dy + dz * dz, w = 0.5 * wet(place[i + 2], place[i + 5]);
    double across = w * addedAcross[k], al = squared > 0 ? (share * (w * addedAlong[k] - across)) / squared : 0, own = share * (0.5 * mass[k] + across);
    double xx = own + al * dx * dx, xy = al * dx * dy, xz = al * dx * dz, yy = own + al * dy * dy, yz = al * dy * dz, zz = own + al * dz * dz;
    for (int side = 0; side < 2; side++) {
      double *m = inertia + 6 * (k + side);
      m[0] += xx; m[1] += xy; m[2] += xz; m[3] += yy; m[4] += yz; m[5] += zz;
    }
  }
  for (int n = 0; n < nodes; n++) {
    double lump = share * (pMass[n] + (place[3 * n + 2] <= surface ? 0.5 * pDisp[n] : 0));
    if (lump == 0) continue;
    inertia[6 * n] += lump; inertia[6 * n + 3] += lump; inertia[6 * n + 5] += lump;
  }
}

static void resting(void) {
  for (int n = 1; n < nodes - 1; n++) {
    double normal = bedRest[n] - bedK[n] * (cosS * at[3 * n + 2] - sinS * at[3 * n]);
    int rests = normal > 0;
    borne[n] = rests ? normal : 0;
    lifted[n] = rests ? 0 : 1;
  }
}

static void bottom(double byP, double byR) {
  for (int n = 1; n < nodes - 1; n++) {
    double normal = borne[n];
    if (normal == 0) continue;
    int i = 3 * n;
    double k = bedK[n];
    double sinking = sinS * rate[i] - cosS * rate[i + 2], d = bedD[n], damped = normal + d * sinking;
    int damps = damped > 0;
    normal = damps ? damped : 0;
    borne[n] = normal;
    force[i] -= sinS * normal; force[i + 2] += cosS * normal;
    double kn = byP * k + (damps ? byR * d : 0);
    double *b = diagonal + 6 * n;
    b[0] += kn * sinS * sinS; b[2] -= kn * sinS * cosS; b[5] += kn * cosS * cosS;
    if (friction == 0) continue;
    double up = cosS * (at[i] - grip[i]) + sinS * (at[i + 2] - grip[i + 2]), side = at[i + 1] - grip[i + 1];
    double away = sqrt(up * up + side * side), kt = gripK[n], most = friction * normal;
    int slips = kt * away > most;
    double pull = slips ? (away > 0 ? most / away : 0) : kt;
    force[i] -= pull * up * cosS; force[i + 1] -= pull * side; force[i + 2] -= pull * up * sinS;
    double g = byP * pull;
    b[0] += g * cosS * cosS; b[2] += g * cosS * sinS; b[3] += g; b[5] += g * sinS * sinS;
  }
}

static void elements(double byP, double byR) {
  double x = at[0], y = at[1], z = at[2], vx = rate[0], vy = rate[1], vz = rate[2], off = lifted[0], fx = 0, fy = 0, fz = 0;
  double kxx = 0, kxy = 0, kxz = 0, kyy = 0, kyz = 0, kzz = 0;
  for (int k = 0; k < count; k++) {
    int i = 3 * k;
    double x1 = x, y1 = y, z1 = z;
    x = at[i + 3]; y = at[i + 4]; z = at[i + 5];
    double dx = x - x1, dy = y - y1, dz = z - z1;
    double l = sqrt(dx * dx + dy * dy + dz * dz), inv = l > 0 ? 1 / l : 0, ux = dx * inv, uy = dy * inv, uz = dz * inv;
    const double *one = slots + 7 * k;
    double own = one[0], strain = l / own - 1, T = 0, slope = 0;
    if (strain > 0) {
      int b = (int)one[5], last = (int)one[6];
      while (b < last && strain >= band[b + 3]) b += 3;
      slope = band[b + 2];
      T = band[b + 1] + slope * (strain - band[b]);
    }
    tension[k] = T;
    double w = wet(z1, z), weight = 0.5 * (w * one[1] + (1 - w) * one[2]);
    double s2 = byP * T * inv, s1 = (byP * slope) / own - s2;
    double xx = s1 * ux * ux + s2, yy = s1 * uy * uy + s2, zz = s1 * uz * uz + s2, xy = s1 * ux * uy, xz = s1 * ux * uz, yz = s1 * uy * uz;
    double gx = 0, gy = 0, gz = 0, dxx = 0, dyy = 0, dzz = 0, dxy = 0, dxz = 0, dyz = 0, vx1 = vx, vy1 = vy, vz1 = vz, off1 = off;
    vx = rate[i + 3]; vy = rate[i + 4]; vz = rate[i + 5];
    off = lifted[k + 1];
    double swept = 0.5 * w * (off1 + off);
    if (swept > 0) {
      double wx = current - 0.5 * (vx1 + vx), wy = -0.5 * (vy1 + vy), wz = -0.5 * (vz1 + vz);
      double wt = wx * ux + wy * uy + wz * uz, nx = wx - wt * ux, ny = wy - wt * uy, nz = wz - wt * uz;
      double wn = sqrt(nx * nx + ny * ny + nz * nz), ac = swept * one[3], ca = ac * wn, cl = swept * one[4] * fabs(wt);
      gx = 0.5 * (ca * nx + cl * wt * ux); gy = 0.5 * (ca * ny + cl * wt * uy); gz = 0.5 * (ca * nz + cl * wt * uz);
      double quarter = 0.25 * byR, p = quarter * ca, r = wn > 1e-12 ? (quarter * ac) / wn : 0, u = quarter * (2 * cl - ca);
      dxx = p + r * nx * nx + u * ux * ux; dyy = p + r * ny * ny + u * uy * uy; dzz = p + r * nz * nz + u * uz * uz;
      dxy = r * nx * ny + u * ux * uy; dxz = r * nx * nz + u * ux * uz; dyz = r * ny * nz + u * uy * uz;
    }
    gz -= weight;
    double tx = T * ux, ty = T * uy, tz = T * uz;
    if (k > 0) {
      const double *m = inertia + 6 * k;
      double ax = next[i], ay = next[i + 1], az = next[i + 2], ixx = m[0], ixy = m[1], ixz = m[2], iyy = m[3], iyz = m[4], izz = m[5];
      fx += forceFirst[i] - ixx * ax - ixy * ay - ixz * az;
      fy += forceFirst[i + 1] - ixy * ax - iyy * ay - iyz * az;
      fz += forceFirst[i + 2] - ixz * ax - iyz * ay - izz * az;
      kxx += ixx; kxy += ixy; kxz += ixz; kyy += iyy; kyz += iyz; kzz += izz;
    }
    force[i] = fx + gx + tx; force[i + 1] = fy + gy + ty; force[i + 2] = fz + gz + tz;
    fx = gx - tx; fy = gy - ty; fz = gz - tz;
    double mxx = xx + dxx, mxy = xy + dxy, mxz = xz + dxz, myy = yy + dyy, myz = yz + dyz, mzz = zz + dzz;
    double *d = diagonal + 6 * k, *b = beside + 9 * k;
    d[0] = kxx + mxx; d[1] = kxy + mxy; d[2] = kxz + mxz; d[3] = kyy + myy; d[4] = kyz + myz; d[5] = kzz + mzz;
    kxx = mxx; kxy = mxy; kxz = mxz; kyy = myy; kyz = myz; kzz = mzz;
    double bxy = dxy - xy, bxz = dxz - xz, byz = dyz - yz;
    b[0] = dxx - xx; b[1] = bxy; b[2] = bxz; b[3] = bxy; b[4] = dyy - yy; b[5] = byz; b[6] = bxz; b[7] = byz; b[8] = dzz - zz;
  }
  double *f = force + 3 * count, *d = diagonal + 6 * count;
  f[0] = fx; f[1] = fy; f[2] = fz;
  d[0] = kxx; d[1] = kxy; d[2] = kxz; d[3] = kyy; d[4] = kyz; d[5] = kzz;
}

static void points(double byP, double byR) {
  for (int j = 0; j < pointNodes; j++) {
    int n = pointNode[j], i = 3 * n;
    double size = pSize[n], over = (at[i + 2] - surface) / size + 0.5, w = over <= 0 ? 1 : over >= 1 ? 0 : 1 - over;
    double *d = diagonal + 6 * n;
    force[i + 2] -= w * pLow[n] + (1 - w) * pHigh[n];
    if (w > 0 && w < 1) d[5] += (byP * (pHigh[n] - pLow[n])) / size;
    double wx = current - rate[i], wy = -rate[i + 1], wz = -rate[i + 2], c = w * pDrag[n] * sqrt(wx * wx + wy * wy + wz * wz);
    force[i] += c * wx; force[i + 1] += c * wy; force[i + 2] += c * wz;
    d[0] += byR * c; d[3] += byR * c; d[5] += byR * c;
  }
}

static void hold(int n) {
  double *d = diagonal + 6 * n;
  d[0] = d[3] = d[5] = 1;
  d[1] = d[2] = d[4] = 0;
  if (n > 0) memset(beside + 9 * (n - 1), 0, 9 * sizeof(double));
  if (n < nodes - 1) memset(beside + 9 * n, 0, 9 * sizeof(double));
  change[3 * n] = change[3 * n + 1] = change[3 * n + 2] = 0;
}

static int solve(void) {
  double sxx = 0, sxy = 0, sxz = 0, syy = 0, syz = 0, szz = 0, sx = 0, sy = 0, sz = 0;
  for (int i = 0; i < nodes; i++) {
    double *a = diagonal + 6 * i, *d = change + 3 * i;
    double xx = a[0] - sxx, xy = a[1] - sxy, xz = a[2] - sxz, yy = a[3] - syy, yz = a[4] - syz, zz = a[5] - szz;
    double vxx = yy * zz - yz * yz, vxy = xz * yz - xy * zz, vxz = xy * yz - yy * xz, det = xx * vxx + xy * vxy + xz * vxz;
    if (!(fabs(det) > 1e-300)) return 0;
    double k = 1 / det, vyy = (xx * zz - xz * xz) * k, vyz = (xy * xz - xx * yz) * k, vzz = (xx * yy - xy * xy) * k;
    vxx *= k; vxy *= k; vxz *= k;
    double dx = d[0] - sx, dy = d[1] - sy, dz = d[2] - sz;
    double x = vxx * dx + vxy * dy + vxz * dz, y = vxy * dx + vyy * dy + vyz * dz, z = vxz * dx + vyz * dy + vzz * dz;
    d[0] = x; d[1] = y; d[2] = z;
    if (i == nodes - 1) break;
    double *b = beside + 9 * i;
    double c0 = b[0], c1 = b[1], c2 = b[2], c3 = b[3], c4 = b[4], c5 = b[5], c6 = b[6], c7 = b[7], c8 = b[8];
    double u0 = vxx * c0 + vxy * c3 + vxz * c6, u3 = vxy * c0 + vyy * c3 + vyz * c6, u6 = vxz * c0 + vyz * c3 + vzz * c6;
    double u1 = vxx * c1 + vxy * c4 + vxz * c7, u4 = vxy * c1 + vyy * c4 + vyz * c7, u7 = vxz * c1 + vyz * c4 + vzz * c7;
    double u2 = vxx * c2 + vxy * c5 + vxz * c8, u5 = vxy * c2 + vyy * c5 + vyz * c8, u8 = vxz * c2 + vyz * c5 + vzz * c8;
    b[0] = u0; b[1] = u1; b[2] = u2; b[3] = u3; b[4] = u4; b[5] = u5; b[6] = u6; b[7] = u7; b[8] = u8;
    sxx = c0 * u0 + c3 * u3 + c6 * u6; sxy = c0 * u1 + c3 * u4 + c6 * u7; syy = c1 * u1 + c4 * u4 + c7 * u7;
    sxz = c0 * u2 + c3 * u5 + c6 * u8; syz = c1 * u2 + c4 * u5 + c7 * u8; szz = c2 * u2 + c5 * u5 + c8 * u8;
    sx = c0 * x + c3 * y + c6 * z; sy = c1 * x + c4 * y + c7 * z; sz = c2 * x + c5 * y + c8 * z;
  }
  double x = change[3 * nodes - 3], y = change[3 * nodes - 2], z = change[3 * nodes - 1];
  for (int i = nodes - 2; i >= 0; i--) {
    double *b = beside + 9 * i, *d = change + 3 * i;
    double nx = d[0] - (b[0] * x + b[1] * y + b[2] * z), ny = d[1] - (b[3] * x + b[4] * y + b[5] * z);
    z = d[2] - (b[6] * x + b[7] * y + b[8] * z);
    x = nx; y = ny;
    d[0] = x; d[1] = y; d[2] = z;
  }
  return 1;
}

static void followGrip(void) {
  if (friction == 0) return;
  for (int n = 1; n < nodes - 1; n++) {
    int i = 3 * n;
    if (borne[n] == 0) { grip[i] = at[i]; grip[i + 1] = at[i + 1]; grip[i + 2] = at[i + 2]; continue; }
    double up = cosS * (at[i] - grip[i]) + sinS * (at[i + 2] - grip[i + 2]), side = at[i + 1] - grip[i + 1];
    double away = sqrt(up * up + side * side), reach = (friction * borne[n]) / gripK[n];
    if (away <= reach || away == 0) continue;
    double keep = reach / away;
    grip[i] = at[i] - keep * up * cosS; grip[i + 1] = at[i + 1] - keep * side; grip[i + 2] = at[i + 2] - keep * up * sinS;
  }
}

static int tryStep(double hh) {
  int last = 3 * (nodes - 1);
  double byP = (1 - alphaF) * beta * hh * hh, byR = (1 - alphaF) * gam * hh, a[3], before = HUGE_VAL, enough = 1e-10 * (along > 1 ? along : 1);
  assembleInertia(1 - alphaM);
  memcpy(next, acc, 3 * nodes * sizeof(double));
  path(when + hh, qN, qRateN, a);
  for (int i = 0; i < 3; i++) next[last + i] = a[i];
  double r = (1 - alphaF) * hh, pa = r * hh * (0.5 - beta), pv = r * (1 - gam), pm = alphaM / (1 - alphaM);
  for (int n = 1; n < nodes - 1; n++) {
    int i = 3 * n;
    const double *m = inertia + 6 * n;
    double x = acc[i], y = acc[i + 1], z = acc[i + 2];
    atFirst[i] = place[i] + r * speed[i] + pa * x;
    atFirst[i + 1] = place[i + 1] + r * speed[i + 1] + pa * y;
    atFirst[i + 2] = place[i + 2] + r * speed[i + 2] + pa * z;
    rateFirst[i] = speed[i] + pv * x;
    rateFirst[i + 1] = speed[i + 1] + pv * y;
    rateFirst[i + 2] = speed[i + 2] + pv * z;
    forceFirst[i] = -pm * (m[0] * x + m[1] * y + m[2] * z);
    forceFirst[i + 1] = -pm * (m[1] * x + m[3] * y + m[4] * z);
    forceFirst[i + 2] = -pm * (m[2] * x + m[4] * y + m[5] * z);
  }
  for (int i = 0; i < 3; i++) { at[i] = place[i]; rate[i] = 0; }
  for (int turn = 0; turn < 14; turn++) {
    for (int i = 3; i < last; i++) {
      double a = next[i];
      at[i] = atFirst[i] + byP * a;
      rate[i] = rateFirst[i] + byR * a;
    }
    for (int i = 0; i < 3; i++) {
      at[last + i] = (1 - alphaF) * qN[i] + alphaF * q[i];
      rate[last + i] = (1 - alphaF) * qRateN[i] + alphaF * qRate[i];
    }
    resting(); elements(byP, byR); bottom(byP, byR); points(byP, byR);
    memcpy(change, force, 3 * nodes * sizeof(double));
    hold(0); hold(nodes - 1);
    if (!solve()) return 0;
    double most = 0;
    for (int i = 3; i < last + 3; i++) {
      next[i] += change[i];
      double moved = fabs(change[i]);
      if (!(moved <= most)) most = moved;
    }
    most *= beta * hh * hh;
    if (!isfinite(most)) return 0;
    if (most <= enough || (turn > 8 && most <= 1e4 * enough)) {
      followGrip();
      for (int i = 3; i < last; i++) {
        double was = acc[i], b = next[i];
        place[i] += hh * speed[i] + hh * hh * ((0.5 - beta) * was + beta * b);
        speed[i] += hh * ((1 - gam) * was + gam * b);
        acc[i] = b;
      }
      for (int i = 0; i < 3; i++) { q[i] = qN[i]; qRate[i] = qRateN[i]; qAcc[i] = next[last + i]; place[last + i] = q[i]; speed[last + i] = qRate[i]; }
      when += hh;
      return 1;
    }
    if (turn > 10 && most > before) return 0;
    before = most;
  }
  return 0;
}

static int step(double hh, int depth) {
  if (tryStep(hh)) return 1;
  return depth < 12 && step(hh / 2, depth + 1) && step(hh / 2, depth + 1);
}

static double *data, *cursor;
static double *take(int n) { double *p = cursor; cursor += n; return p; }
static double *zeros(int n) { return calloc(n, sizeof(double)); }

int main(int argc, char **argv) {
  FILE *f = argc > 1 ? fopen(argv[1], "rb") : NULL;
  if (!f) return 2;
  fseek(f, 0, SEEK_END);
  long size = ftell(f);
  rewind(f);
  data = cursor = malloc(size);
  if (fread(data, 1, size, f) != (size_t)size) return 2;
  double *c = take(20);
  count = (int)c[0]; nb = (int)c[1]; nodes = count + 1; surface = c[2]; current = c[3]; sinS = c[4]; cosS = c[5]; friction = c[6];
  x0 = c[7]; z0 = c[8]; amplitude = c[9]; omega = c[10]; alphaM = c[11]; alphaF = c[12]; beta = c[13]; gam = c[14]; h = c[15]; steps = (long)c[16]; along = c[17];
  slots = take(7 * count); mass = take(count); addedAcross = take(count); addedAlong = take(count);
  band = take(3 * nb);
  pMass = take(nodes); pDisp = take(nodes); pLow = take(nodes); pHigh = take(nodes); pDrag = take(nodes); pSize = take(nodes);
  bedK = take(nodes); gripK = take(nodes); bedD = take(nodes); bedRest = take(nodes); place = take(3 * nodes); grip = take(3 * nodes);
  speed = zeros(3 * nodes); acc = zeros(3 * nodes); inertia = zeros(6 * nodes); force = zeros(3 * nodes); at = zeros(3 * nodes); rate = zeros(3 * nodes);
  next = zeros(3 * nodes); change = zeros(3 * nodes); lifted = zeros(nodes); borne = zeros(nodes); tension = zeros(count);
  diagonal = zeros(6 * nodes); beside = zeros(9 * nodes); atFirst = zeros(3 * nodes); rateFirst = zeros(3 * nodes); forceFirst = zeros(3 * nodes);
  pointNode = calloc(nodes, sizeof(int));
  for (int n = 0; n < nodes; n++) {
    lifted[n] = 1;
    if (pMass[n] != 0) pointNode[pointNodes++] = n;
  }
  for (int i = 0; i < 3; i++) q[i] = place[3 * count + i];
  double sum = 0;
  clock_t start = clock();
  for (long k = 0; k < steps; k++) {
    if (!step(h, 0)) return 3;
    sum += tension[count - 1];
  }
  printf("%.6f %.17g\n", (1e9 * (double)(clock() - start)) / CLOCKS_PER_SEC / (double)steps, sum);
  return 0;
}
