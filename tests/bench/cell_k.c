/*
 * Reference cell K (scenarios/cell-k.json) and nothing else, written by hand for speed: what a run of ours is
 * measured against. It keeps the accounts that a row of ours keeps (lines through the day, waits, minutes of
 * every person and every piece of gear by what they did, lead times, rework by cause, good units by the hour,
 * labor cost) and writes them into a row of doubles for every shift.
 *
 *   cc -O3 -march=native -o cell_k cell_k.c -lm && ./cell_k SHIFTS CLAMP_SETS SEED
 *
 * prints one line of JSON: shifts, processor seconds (start-up left out), mean good units and lead time.
 */
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { FIT, GLUE, CURE, UNCLAMP, SAND, CHECK, STEPS };
enum { FITTER, GLUER, SANDER, CHECKER, PEOPLE };
enum { NOT_IN, GONE, ON_BREAK, AWAY, TIDYING, NO_UNIT, NOWHERE, NO_FIT, NO_HELP, PARTNER, NO_COVER, NO_CLAMP, WORKS };
#define STATES (WORKS + STEPS)
#define GEAR_STATES (2 + 3 * (STEPS + 1))
#define AT(step) (2 + 3 * (step))
#define BEFORE(step) (3 + 3 * (step))
#define DOWN(step) (4 + 3 * (step))
#define UNITS 60
#define CLAMPS 8
#define BINS 34
#define HOURS 10
#define MINUTE 60000.0
#define END (510 * MINUTE)
#define BIN (15 * MINUTE)
#define NEVER 1e300

static const int RACK[STEPS] = {1 << 30, 4, 0, 0, 6, 4};
static const double BREAK_FROM[4] = {180 * MINUTE, 330 * MINUTE, 450 * MINUTE, NEVER};
static const double BREAK_FOR[3] = {10 * MINUTE, 30 * MINUTE, 10 * MINUTE};

/*
 * Every draw is a function of (seed, replication, unit, step, visit), as it has to be for options to meet the
 * same luck: Threefry-2x32 of 13 rounds (Salmon et al. 2011). Two words a draw: the time, and the outcome.
 */
static uint32_t key0, key1, second;
static inline uint32_t rot(uint32_t x, int k) { return (x << k) | (x >> (32 - k)); }
static inline uint32_t draw(uint32_t unit, uint32_t step, uint32_t visit) {
  const uint32_t key2 = 0x1bd11bdau ^ key0 ^ key1;
  uint32_t a = unit + key0, b = (step << 16 | visit) + key1;
#define ROUND(k) a += b, b = rot(b, k) ^ a
  ROUND(13), ROUND(15), ROUND(26), ROUND(6);
  a += key1, b += key2 + 1;
  ROUND(17), ROUND(29), ROUND(16), ROUND(24);
  a += key2, b += key0 + 2;
  ROUND(13), ROUND(15), ROUND(26), ROUND(6);
  a += key0, b += key1 + 3;
  ROUND(17);
  second = b;
  return a;
}
static inline double uniform(uint32_t word) { return (word + 0.5) * 0x1p-32; }

/* Lognormal times by a table of the normal quantile (bisection on erfc, once), 4096 straight pieces. */
#define PIECES 4096
static double deviate[PIECES + 1];
typedef struct { double at[PIECES + 1]; } Curve;
static Curve curves[6];
enum { C_FIT, C_GLUE, C_UNCLAMP, C_SAND, C_AGAIN, C_CHECK };
static void fill(Curve *curve, double mean, double cv) {
  const double variance = log(1 + cv * cv), mu = log(mean) - variance / 2, sigma = sqrt(variance);
  for (int i = 0; i <= PIECES; i++) curve->at[i] = exp(mu + sigma * deviate[i]) * MINUTE;
}
static void prepare(void) {
  for (int i = 0; i <= PIECES; i++) {
    const double u = i == 0 ? 0.2 / PIECES : i == PIECES ? 1 - 0.2 / PIECES : (double)i / PIECES;
    double low = -9, high = 9;
    for (int k = 0; k < 60; k++) {
      const double middle = (low + high) / 2;
      if (0.5 * erfc(-middle / sqrt(2)) < u) low = middle; else high = middle;
    }
    deviate[i] = low;
  }
  fill(&curves[C_FIT], 13, 0.25), fill(&curves[C_GLUE], 8, 0.15), fill(&curves[C_UNCLAMP], 5, 0.2);
  fill(&curves[C_SAND], 16, 0.3), fill(&curves[C_AGAIN], 8, 0.3), fill(&curves[C_CHECK], 7, 0.25);
}
static inline double sample(const Curve *curve, uint32_t word) {
  const double u = uniform(word) * PIECES;
  const int i = (int)u;
  return floor(curve->at[i] + (u - i) * (curve->at[i + 1] - curve->at[i]) + 0.5);
}

typedef struct { double first, since; int clamp, repeats; uint32_t luck; unsigned char visits[STEPS]; } Unit;
typedef struct { int unit[64]; unsigned head, tail; } Line;

static Unit units[UNITS];
static Line line[STEPS];
static double now;
/* By person: when the piece in hand ends (NEVER without one), its unit and step, what is left of it on a break. */
static double ends[PEOPLE], left[PEOPLE];
static int piece[PEOPLE], at_step[PEOPLE], off[PEOPLE], owed[PEOPLE];
static double off_until[PEOPLE];
/* By clamp: its unit (-1: free), when its cure ends. */
static int clamp_unit[CLAMPS], clamps;
static double cured[CLAMPS];
/* By step: unit that is blocked on its bench, where to, since when. */
static int blocked[STEPS], blocked_to[STEPS];
static double blocked_since[STEPS];
static int bench[STEPS];

/* Accounts. */
static double person_time[PEOPLE][2 * STATES], bench_time[STEPS][GEAR_STATES], clamp_time[GEAR_STATES];
static int person_state[PEOPLE], late[PEOPLE], bench_state[STEPS], clamp_state[CLAMPS];
static double change[BINS + 1][STEPS][2], edge, bin_ends;
static int bin, length[STEPS], most[STEPS];
static double waited[STEPS], leads, flows;
static int started[STEPS], by_hour[HOURS], causes[2], goods, scrapped, first_pass;
static double row[2048];

static inline void person(int p, int state) {
  state += late[p] * STATES;
  if (person_state[p] == state) return;
  person_time[p][person_state[p]] += now;
  person_time[p][state] -= now;
  person_state[p] = state;
}
static inline void bench_is(int step, int state) {
  bench_time[step][bench_state[step]] += now;
  bench_time[step][state] -= now;
  bench_state[step] = state;
}
static inline void clamp_is(int clamp, int state) {
  clamp_time[clamp_state[clamp]] += now;
  clamp_time[state] -= now;
  clamp_state[clamp] = state;
}
static inline void change_line(int step, int more) {
  while (now >= bin_ends) {
    bin++;
    edge = bin < BINS ? (bin + 1) * BIN : 0;
    bin_ends = bin < BINS ? edge : NEVER;
  }
  change[bin][step][0] += more * (edge - now);
  change[bin][step][1] += more;
}
static inline void join(int unit, int step) {
  Line *l = &line[step];
  l->unit[l->tail++ & 63] = unit;
  units[unit].since = now;
  if (units[unit].clamp >= 0) clamp_is(units[unit].clamp, BEFORE(step));
  change_line(step, 1);
  if (++length[step] > most[step]) most[step] = length[step];
}
static inline void leave_bench(int step) { bench[step] = -1; bench_is(step, 0); }
static inline void block(int unit, int step, int to) {
  blocked[step] = unit, blocked_to[step] = to, blocked_since[step] = now;
  bench_is(step, BEFORE(to));
}
static inline void move_to(int unit, int from, int to) {
  if (length[to] < RACK[to]) { leave_bench(from); join(unit, to); } else block(unit, from, to);
}
static inline int unblock(int step) {
  const int unit = blocked[step];
  blocked[step] = -1;
  leave_bench(step);
  join(unit, blocked_to[step]);
  return unit;
}

/* Blocked units into slots that came free, longest first; a circle changes places. */
static void moves(void) {
  for (;;) {
    if (blocked[FIT] >= 0 && length[GLUE] < RACK[GLUE]) { unblock(FIT); continue; }
    if (blocked[SAND] >= 0 && length[CHECK] < RACK[CHECK]) { unblock(SAND); continue; }
    if (length[SAND] < RACK[SAND] && (blocked[UNCLAMP] >= 0 || blocked[CHECK] >= 0)) {
      if (blocked[CHECK] < 0 || (blocked[UNCLAMP] >= 0 && blocked_since[UNCLAMP] <= blocked_since[CHECK])) unblock(UNCLAMP);
      else unblock(CHECK);
      continue;
    }
    if (blocked[SAND] >= 0 && blocked[CHECK] >= 0) {
      if (blocked_since[SAND] <= blocked_since[CHECK]) { unblock(SAND); unblock(CHECK); } else { unblock(CHECK); unblock(SAND); }
      continue;
    }
    return;
  }
}

static void start(int p, int step) {
  Line *l = &line[step];
  const int u = l->unit[l->head++ & 63];
  Unit *unit = &units[u];
  const int again = unit->visits[step]++;
  static const int CURVE[STEPS] = {C_FIT, C_GLUE, 0, C_UNCLAMP, C_SAND, C_CHECK};
  waited[step] += now - unit->since;
  started[step]++;
  length[step]--;
  change_line(step, -1);
  if (unit->first < 0) unit->first = now;
  unit->repeats += again > 0;
  bench[step] = u;
  bench_is(step, AT(step));
  if (step == GLUE) {
    int c = 0;
    while (clamp_unit[c] >= 0) c++;
    clamp_unit[c] = u, unit->clamp = c, clamps--;
  }
  if (unit->clamp >= 0) clamp_is(unit->clamp, AT(step));
  piece[p] = u, at_step[p] = step;
  ends[p] = now + sample(&curves[step == SAND && again ? C_AGAIN : CURVE[step]], draw(u, step, again));
  unit->luck = second;
  person(p, WORKS + step);
}

static inline double next_break(void) {
  for (int i = 0; i < 3; i++) if (BREAK_FROM[i] > now) return BREAK_FROM[i];
  return END;
}
static inline int idle(int p) { return piece[p] < 0 && !off[p]; }
static inline int ready(int step) { return length[step] > 0 && bench[step] < 0; }

static void starts(void) {
  for (;;) {
    moves();
    if (now >= END) return;
    if (idle(FITTER)) {
      if (ready(UNCLAMP)) { start(FITTER, UNCLAMP); continue; }
      if (ready(FIT)) { start(FITTER, FIT); continue; }
    }
    if (idle(GLUER) && ready(GLUE) && clamps > 0 && now + 8 * MINUTE <= next_break()) { start(GLUER, GLUE); continue; }
    if (idle(SANDER) && ready(SAND)) { start(SANDER, SAND); continue; }
    if (idle(CHECKER) && ready(CHECK)) { start(CHECKER, CHECK); continue; }
    return;
  }
}

static inline void why(int p, int step) {
  if (!length[step]) person(p, NO_UNIT);
  else if (bench[step] >= 0) person(p, NOWHERE);
  else if (step == GLUE && clamps == 0) person(p, NO_CLAMP);
  else person(p, NO_FIT);
}

static void begin_break(int p, double until) { off[p] = 1; off_until[p] = until; person(p, ON_BREAK); }

static void end_piece(int p) {
  const int u = piece[p], step = at_step[p];
  Unit *unit = &units[u];
  piece[p] = -1, ends[p] = NEVER;
  if (owed[p] >= 0) { begin_break(p, now + BREAK_FOR[owed[p]]); owed[p] = -1; }
  switch (step) {
    case FIT: move_to(u, FIT, GLUE); break;
    case GLUE:
      leave_bench(GLUE);
      clamp_is(unit->clamp, AT(CURE));
      cured[unit->clamp] = now + 30 * MINUTE;
      break;
    case UNCLAMP: {
      const int c = unit->clamp;
      clamp_unit[c] = -1, unit->clamp = -1, clamps++;
      clamp_is(c, 0);
      if (uniform(unit->luck) < 0.03) { causes[0]++; leave_bench(UNCLAMP); join(u, FIT); } else move_to(u, UNCLAMP, SAND);
      break;
    }
    case SAND: move_to(u, SAND, CHECK); break;
    default: {
      const double luck = uniform(unit->luck);
      if (luck < 0.12) { causes[1]++; move_to(u, CHECK, SAND); break; }
      leave_bench(CHECK);
      if (luck < 0.125) { scrapped++; break; }
      goods++;
      leads += now;
      flows += now - unit->first;
      if (!unit->repeats) first_pass++;
      const int hour = (int)(now / 3600000);
      by_hour[hour < HOURS - 1 ? hour : HOURS - 1]++;
    }
  }
}

static void shift(int sets) {
  memset(person_time, 0, sizeof person_time), memset(bench_time, 0, sizeof bench_time);
  memset(clamp_time, 0, sizeof clamp_time), memset(change, 0, sizeof change);
  memset(length, 0, sizeof length), memset(most, 0, sizeof most), memset(waited, 0, sizeof waited);
  memset(started, 0, sizeof started), memset(by_hour, 0, sizeof by_hour), memset(line, 0, sizeof line);
  now = 0, bin = 0, edge = bin_ends = BIN, leads = flows = 0, goods = scrapped = first_pass = causes[0] = causes[1] = 0;
  clamps = sets;
  for (int c = 0; c < CLAMPS; c++) clamp_unit[c] = c < sets ? -1 : 0, cured[c] = NEVER, clamp_state[c] = 0;
  for (int step = 0; step < STEPS; step++) blocked[step] = bench[step] = -1, bench_state[step] = 0;
  for (int p = 0; p < PEOPLE; p++) ends[p] = NEVER, piece[p] = -1, off[p] = 0, owed[p] = -1, person_state[p] = 0, late[p] = 0;
  for (int u = 0; u < UNITS; u++) {
    units[u] = (Unit){-1, 0, -1, 0, 0, {0}};
    join(u, FIT);
  }
  int next = 0;
  for (;;) {
    starts();
    if (now >= END) {
      int any = 0;
      for (int p = 0; p < PEOPLE; p++) {
        late[p] = 1;
        if (piece[p] < 0) person(p, GONE); else any = 1, person(p, WORKS + at_step[p]);
      }
      if (!any) break;
    } else {
      if (idle(FITTER)) why(FITTER, UNCLAMP);
      if (idle(GLUER)) why(GLUER, GLUE);
      if (idle(SANDER)) why(SANDER, SAND);
      if (idle(CHECKER)) why(CHECKER, CHECK);
    }
    double then = BREAK_FROM[next];
    for (int p = 0; p < PEOPLE; p++) {
      if (ends[p] < then) then = ends[p];
      if (off[p] && off_until[p] < then) then = off_until[p];
    }
    for (int c = 0; c < sets; c++) if (cured[c] < then) then = cured[c];
    if (now < END && then > END) then = END;
    now = then;
    for (int p = 0; p < PEOPLE; p++) if (ends[p] == now) end_piece(p);
    for (int c = 0; c < sets; c++) if (cured[c] == now) cured[c] = NEVER, join(clamp_unit[c], UNCLAMP);
    for (int p = 0; p < PEOPLE; p++) {
      if (!off[p] || off_until[p] != now) continue;
      off[p] = 0;
      if (piece[p] < 0) continue;
      ends[p] = now + left[p];
      bench_is(at_step[p], AT(at_step[p]));
      if (units[piece[p]].clamp >= 0) clamp_is(units[piece[p]].clamp, AT(at_step[p]));
      person(p, WORKS + at_step[p]);
    }
    if (BREAK_FROM[next] == now) {
      for (int p = 0; p < PEOPLE; p++) {
        if (piece[p] >= 0 && at_step[p] == GLUE) { owed[p] = next; continue; }
        if (piece[p] >= 0) {
          left[p] = ends[p] - now, ends[p] = NEVER;
          bench_is(at_step[p], DOWN(at_step[p]));
          if (units[piece[p]].clamp >= 0) clamp_is(units[piece[p]].clamp, DOWN(at_step[p]));
        }
        begin_break(p, now + BREAK_FOR[next]);
      }
      next++;
    }
  }
  /* The row. */
  double *to = row;
  for (int step = 0; step < STEPS; step++) if (length[step]) change_line(step, -length[step]);
  for (int p = 0; p < PEOPLE; p++) person_time[p][person_state[p]] += now;
  for (int step = 0; step < STEPS; step++) bench_time[step][bench_state[step]] += now;
  for (int c = 0; c < sets; c++) clamp_time[clamp_state[c]] += now;
  *to++ = goods, *to++ = scrapped, *to++ = UNITS - goods - scrapped, *to++ = first_pass, *to++ = causes[0], *to++ = causes[1];
  *to++ = goods ? leads / goods / MINUTE : NAN, *to++ = goods ? flows / goods / MINUTE : NAN, *to++ = now / MINUTE;
  for (int hour = 0; hour < HOURS; hour++) *to++ = by_hour[hour];
  for (int step = 0; step < STEPS; step++) {
    double n = 0, area = 0;
    for (int b = 0; b < BINS; b++) {
      const double within = change[b][step][0] + n * BIN;
      *to++ = within / BIN;
      area += within;
      n += change[b][step][1];
    }
    *to++ = (area + change[BINS][step][0] - n * (BINS * BIN)) / now;
    *to++ = most[step], *to++ = waited[step] / MINUTE, *to++ = started[step];
  }
  double cost = 0;
  for (int p = 0; p < PEOPLE; p++) {
    double paid = 0, after = 0;
    for (int state = 0; state < STATES; state++) {
      const double within = *to++ = person_time[p][state] / MINUTE, extra = *to++ = person_time[p][STATES + state] / MINUTE;
      if (state > GONE) paid += within, after += extra;
    }
    const double minutes = paid + after, over = minutes > 480 ? minutes - 480 : 0;
    cost += *to++ = 28.0 / 60 * (minutes + 0.5 * over);
  }
  *to++ = cost, *to++ = goods ? cost / goods : NAN;
  for (int step = 0; step < STEPS; step++)
    for (int state = 0; state < GEAR_STATES; state++) *to++ = bench_time[step][state] / MINUTE;
  for (int state = 0; state < GEAR_STATES; state++) *to++ = clamp_time[state] / MINUTE;
}

int main(int argc, char **argv) {
  const int shifts = argc > 1 ? atoi(argv[1]) : 100000, sets = argc > 2 ? atoi(argv[2]) : 3;
  key0 = argc > 3 ? (uint32_t)strtoul(argv[3], 0, 10) : 1;
  prepare();
  double good = 0, lead = 0;
  const clock_t began = clock();
  for (int i = 0; i < shifts; i++) {
    key1 = i;
    shift(sets);
    good += row[0], lead += row[6];
  }
  const double seconds = (double)(clock() - began) / CLOCKS_PER_SEC;
  printf("{\"shifts\":%d,\"seconds\":%.6f,\"mean\":%.4f,\"lead\":%.4f}\n", shifts, seconds, good / shifts, lead / shifts);
  return 0;
}
