import type { Fault } from './fault.ts';

const f = (name: string, job: string, from: string, to: string, ...codes: string[]): Fault => ({
  family: 'cutting',
  name,
  job,
  from,
  to,
  codes,
});
const inSheet = (
  name: string,
  job: string,
  from: string,
  to: string,
  near: string,
  ...codes: string[]
): Fault => ({
  ...f(name, job, from, to, ...codes),
  inSheet: true,
  near,
});

/** What goes wrong at the edge. */
export const CUTTING_FAULTS: readonly Fault[] = [
  f('tapping feed off', 'bracket', 'R.2 F25.', 'R.2 F30.', 'tap-feed-mismatch'),
  f('tapping feed off by a little', 'valve', 'R5. F300.', 'R5. F308.', 'tap-feed-mismatch'),
  f('tapping feed per revolution off', 'spacer', 'R4. F1.', 'R4. F1.25', 'tap-feed-mismatch'),
  {
    ...f('tapping speed changed, feed not', 'manifold', 'S320 M3', 'S400 M3', 'tap-feed-mismatch'),
    near: 'G99 G84',
  },
  inSheet(
    'hole too small for the tap',
    'valve',
    '"diameter": 6.8',
    '"diameter": 6.2',
    'N350 G98 G84',
    'tap-hole-size',
    'tool-contradicts',
  ),
  inSheet(
    'hole too large for the tap',
    'spacer',
    '"kind": "drill", "diameter": 5,',
    '"kind": "drill", "diameter": 5.5,',
    'G98 G84',
    'tap-hole-size',
    'tool-contradicts',
  ),
  f('tap deeper than its hole', 'valve', 'G84 Z-16.', 'G84 Z-21.', 'tap-deeper-than-hole'),
  {
    ...f('hole not deep enough for the tap', 'manifold', 'G83 Z-1.05', 'G83 Z-.7', 'tap-deeper-than-hole'),
    near: 'G84 Z-.65',
  },
  {
    ...f(
      'tap at a place without a hole',
      'spacer',
      'G98 G84 Z-11. R4. F1.\nX48.',
      'G98 G84 Z-11. R4. F1.\nX40.',
      'tap-place-undrilled',
    ),
    near: 'X40.',
  },
  inSheet(
    'spot more pointed than a carbide drill',
    'manifold',
    '"kind": "drill", "diameter": "5/16 in", "teeth": 2, "point_angle_deg": 118, "substrate": "hss"',
    '"kind": "drill", "diameter": "5/16 in", "teeth": 2, "point_angle_deg": 140, "substrate": "carbide"',
    'G99 G82',
    'spot-angle-small',
  ),
  f('drilled in one go', 'flange', 'G83 Z-24. R2. Q8. F200.', 'G81 Z-80. R2. F200.', 'peck-too-deep'),
  f('peck far too deep', 'valve', 'Z-22. R2. Q7. F90.', 'Z-60. R2. Q60. F90.', 'peck-too-deep'),
  f(
    'dwell in stainless',
    'spacer',
    'G98 G81 Z-17. R2. F260.',
    'G98 G82 Z-17. R2. P500 F260.',
    'dwell-in-work-hardening',
  ),
  f('chip load far too low', 'spacer', 'G1 X68. F310.', 'G1 X68. F30.', 'chip-load-low'),
  f('chip load far too high', 'flange', 'N70 M98 P3221 L3', 'N70 M98 P3221 L3', 'chip-load-high'),
  f('speed far too high', 'spacer', 'S2200', 'S9000', 'surface-speed-high'),
  f('speed over the spindle', 'bracket', 'S8000', 'S18000', 'speed-over-machine'),
  f('feed over the machine', 'plate', 'X-5 F1000', 'X-5 F10000', 'feed-over-machine'),
  f('speed limit over the chuck plate', 'bushing', 'N30 G50 S2500', 'N30 G50 S4000', 'chuck-speed-over'),
  f(
    'fixed speed over the chuck plate',
    'cover',
    'N170 G97 S1300',
    'N170 G97 S3300',
    'chuck-speed-over',
    'surface-speed-high',
  ),
  {
    ...f(
      'lead changes in a thread',
      'stud',
      'N400 G0 X150. Z150. M9\n',
      'N395 G92 X22.1 Z-26.5 F1.25\nN400 G0 X150. Z150. M9\n',
      'thread-lead-changes',
    ),
  },
  {
    ...f(
      'thread begun too close',
      'stud',
      'N370 G0 X28. Z6. M8',
      'N370 G0 X28. Z1. M8',
      'thread-run-up-short',
    ),
    near: 'N390 G76',
  },
  {
    ...f(
      'thread faster than the axis',
      'stud',
      'N360 G97 S1000 M3',
      'N360 G97 S3900 M3',
      'feed-over-machine',
    ),
  },
  {
    ...f(
      'bar moves out in X inside the bore',
      'cover',
      'N320 X1.1\nN330 G0 Z.2\nN340 X6. Z5. M9',
      'N340 G0 X6. Z5. M9',
      'bore-exit-in-x',
    ),
  },
  {
    ...f(
      'turret turned too close',
      'cover',
      'N150 G0 X6. Z5. M9',
      'N150 G0 X3.5 Z1. M9',
      'turret-clearance-short',
    ),
    near: 'N160 T0202',
  },
  inSheet(
    'water on magnesium',
    'plate',
    '"material": "5052"',
    '"material": "AZ91"',
    'G43 H1 Z25',
    'coolant-on-magnesium',
  ),
  {
    ...f(
      'plunge at full feed in the block',
      'flange',
      'N60 G1 Z0.2 F300.',
      'N60 G1 Z-4. F1000.',
      'plunge-at-full-feed',
    ),
    cut: true,
  },
  f('tap in a drilling cycle', 'valve', 'N350 G98 G84', 'N350 G98 G81', 'tap-in-wrong-cycle'),
  f('drill in a tapping cycle', 'valve', 'N230 G98 G83', 'N230 G98 G84', 'tap-in-wrong-cycle'),
  {
    ...f('drill where an end mill belongs', 'valve', 'N20 T1 M6', 'N20 T2 M6', 'drill-cuts-sideways'),
    near: 'N70 G3',
  },
  {
    ...f(
      'drill where an end mill belongs, slot',
      'spacer',
      'T2 M6\nS2200',
      'T3 M6\nS2200',
      'drill-cuts-sideways',
    ),
    near: 'G1 X68.',
  },
  {
    ...f(
      'arc the wrong way, radius',
      'bracket',
      'G2 X4.08 Y2.75 R.33',
      'G3 X4.08 Y2.75 R.33',
      'arc-turns-back',
    ),
    family: 'geometry' as const,
  },
].filter(fault => fault.from !== fault.to);
