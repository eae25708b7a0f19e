/** A walk card and entries made by hand, for the tests of the phone page. */
import { numbered } from '../../src/quarterwalk/phone/journal.js';

export const DEVICE = 'k3f9m2q8t5wz';
export const OTHER = 'c7x4b9v2n6ps';
export const JOSS = 'p7c2n4hd';
export const WEN = 'q4m8x2ry';
export const FIELD = 'h4m7e0fd';
export const WALK = `${DEVICE}-1`;

/** Two stops a quarter in the first loop, three in the second; numbered in walking order. */
const FIRST = ['NW', 'NW', 'NE', 'NE', 'SE', 'SE', 'SW', 'SW'];
const SECOND = ['SW', 'SW', 'SW', 'SE', 'SE', 'SE', 'NE', 'NE', 'NE', 'NW', 'NW', 'NW'];
const PLACES = { NW: [-101.91, 33.51], NE: [-101.9, 33.51], SE: [-101.9, 33.5], SW: [-101.91, 33.5] };

const stops = [...FIRST, ...SECOND].map((quadrant, i) => ({
  stop: i + 1,
  quadrant,
  loop: i < FIRST.length ? 1 : 2,
  plants: 5,
  place: PLACES[quadrant].map((degree) => degree + i / 10_000),
}));

const VERDICTS = {
  few: { 'not-asked': 'hold', 'not-readable': 'hold', fine: 'hold', under: 'hold', 'well-under': 'look-sooner' },
  middle: { 'not-asked': 'hold', 'not-readable': 'hold', fine: 'hold', under: 'look-sooner', 'well-under': 'look-sooner' },
  near: { 'not-asked': 'look-sooner', 'not-readable': 'look-sooner', fine: 'look-sooner', under: 'look-sooner', 'well-under': 'look-sooner' },
  over: { 'not-asked': 'treat', 'not-readable': 'look-sooner', fine: 'look-sooner', under: 'treat', 'well-under': 'treat' },
};

/** Least whole count c with 100 c / n >= share of the line, for a line that is whole. */
const least = (n, line, numerator, denominator) => Math.ceil((n * line * numerator) / (100 * denominator));

const insectRows = (line) =>
  Array.from({ length: 151 }, (_, n) => [least(n, line, 1, 3), least(n, line, 2, 3), least(n, line, 1, 1)]);

/** Least whole number lost with (m - lost) / m < floor, in whole percent. */
const squareRows = (floor) =>
  Array.from({ length: 801 }, (_, m) =>
    [floor, floor - 5].map((percent) => Math.floor((m * (100 - percent)) / 100) + 1),
  );

export const card = {
  v: 1,
  field: { id: FIELD, name: 'Windmill 80', grower: 'Gil Ames', farm: 'Ames', acres: 80.1 },
  on: '2026-07-01',
  method: 'terminal',
  sites: 'all',
  walkable: true,
  why_not: '',
  guideline: { name: 'example-county', edition: '2025', hash: '0'.repeat(64), own: false, title: 'An invented guide' },
  shape: { type: 'Polygon', coordinates: [] },
  quadrants: {},
  entry: [-101.905, 33.495],
  stops,
  loops: [],
  weeks: [
    { week: 1, from: '2026-06-20', to: '2026-06-26', floor: 0.9, line: 25 },
    { week: 2, from: '2026-06-27', to: '2026-07-03', floor: 0.85, line: 25 },
    { week: 3, from: '2026-07-04', to: '2026-07-10', floor: 0.75, line: 25 },
  ],
  treat_days: [{ from: '2026-06-20', to: '2026-07-10' }],
  season: { from: '2026-06-20', to: '2026-07-10', words: 'From first square to first bloom.' },
  squares: [
    { week: 1, plants_a_quarter: 25, plants_a_stop: [5, 5, 5, 5, 5] },
    { week: 2, plants_a_quarter: 10, plants_a_stop: [2, 2, 2, 2, 2] },
    { week: 3, plants_a_quarter: 6, plants_a_stop: [2, 1, 1, 1, 1] },
  ],
  closed_until: null,
  treated: [],
  last: null,
  limits: {
    full: 100,
    least: 40,
    few: 80,
    least_a_quarter: 5,
    insects: [{ line: 25, rows: insectRows(25) }],
    squares: [90, 85, 75].map((percent) => ({ floor: percent / 100, rows: squareRows(percent) })),
    blasted: null,
    needs: 'insects-and-set',
    readable_squares: 100,
    thin_squares: 50,
    squaring: Array.from({ length: 151 }, (_, n) => Math.ceil(n / 2)),
    verdicts: VERDICTS,
  },
  sketch: {
    svg: `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 328 300" width="328" height="300">${stops
      .map(({ stop }, i) => `<g data-stop="${stop}"><circle cx="${20 + (i % 5) * 70}" cy="${30 + Math.floor(i / 5) * 70}" r="12"/></g>`)
      .join('')}</svg>`,
    width: 328,
    height: 300,
  },
  texts: {
    sites: 'In week 2 count squares on 10 plants in each quarter.',
    care: ['Stay out until the field may be entered again after a spray.'],
    rule: 'Treat at 25 insects on 100 plants with square set under the floor.',
    prevails: 'The label and local rules prevail.',
  },
};

/** The sun of the card's day, as an office in the zone of the field tells it; told for some hours only. */
export const sun = {
  offset: -300,
  rows: [[401, 61, 1, 0, 0], [450, 64, 1, 0, 0], [540, 83, 2, 0, 0], [741, 112, 2, 1, null], [922, 248, 6, 0, 2]],
  sunset: 1261,
  overhead: [741, 922],
  compass: ['north', 'north-east', 'east', 'south-east', 'south', 'south-west', 'west', 'north-west'],
  texts: {
    facing: 'Walk in facing the sun, {compass} ({degrees}°). Your shadow falls behind you.',
    overhead: 'The sun is overhead from 12:21 to 15:22.',
    along: ['Along the rows, face east (80°).', 'Along the rows, face west (260°).', 'The rows run across the sun.'],
  },
};

/** Write the entries of a walk: kinds with bodies, numbered from 1. */
export function journal(said, { device = DEVICE, by = JOSS, walk = WALK, day = '2026-07-01', from = 1 } = {}) {
  return said.map(([kind, body, more], i) =>
    numbered(
      { device, by, at: `${day}T09:41:07.250-05:00`, tick: i, ...(walk ? { walk } : {}), kind, body, ...more },
      from + i,
    ),
  );
}

export const OPENED = ['walk-opened', {
  field: FIELD, card: 'a'.repeat(64), method: 'terminal', sites: 'all', source: 'phone', gate: { sign: false, called: false },
}];

export const checked = (stop, plant, { adults = 0, nymphs = 0, squares } = {}) => [
  'plant-checked',
  {
    quadrant: stops[stop - 1].quadrant, stop, plant, insects: { adults, nymphs },
    ...(squares ? { squares: { healthy: 0, missing: 0, blasted: 0, flared: 0, ...squares } } : {}),
  },
];

export const skipped = (stop, plant, why = 'hailed') =>
  ['plant-skipped', { quadrant: stops[stop - 1].quadrant, stop, plant, why }];

/** The first so many plants of a whole walk, all clean. */
export const walkOf = (count) =>
  Array.from({ length: count }, (_, i) => checked(Math.floor(i / 5) + 1, (i % 5) + 1));
