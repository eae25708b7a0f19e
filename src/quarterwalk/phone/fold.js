/** The walk as the screens need it: its replay, added up, and where the next plant stands. */
import { replay } from './replay.js';
import { UNTOUCHED, isWalked, nextPlace } from './route.js';

const NOTHING = {
  plants: 0, insects: 0, squares: 0, healthy: 0, lost: 0, blasted: 0, squarePlants: 0, squaring: 0,
};

/**
 * @typedef {object} Begun what another phone told when it handed a walk over
 * @property {string} walk
 * @property {string} field
 * @property {string|null} card hash
 * @property {string} from a name
 * @property {Record<string, number>} entries how many of each device
 * @property {Record<string, number|[number, number]>} done by stop: plants checked; where some were
 *   passed over the next number too
 * @property {number[]} sums in the order of a walk's sums
 * @property {string[]} noted quarters that have their note
 */

function added(sums, { insects, squares }) {
  const { healthy = 0, missing = 0, blasted = 0, flared = 0 } = squares ?? {};
  const lost = missing + blasted + flared;
  return {
    plants: sums.plants + (insects ? 1 : 0),
    insects: sums.insects + (insects ? insects.adults + insects.nymphs : 0),
    squares: sums.squares + healthy + lost,
    healthy: sums.healthy + healthy,
    lost: sums.lost + lost,
    blasted: sums.blasted + blasted,
    squarePlants: sums.squarePlants + (squares ? 1 : 0),
    squaring: sums.squaring + (healthy + lost > 0 ? 1 : 0),
  };
}

const begunSums = ({ sums }) =>
  Object.fromEntries(Object.keys(NOTHING).map((name, i) => [name, sums[i]]));

const begunStops = ({ done }) =>
  Object.entries(done).map(([stop, told]) => {
    const [checked, next] = Array.isArray(told) ? told : [told, told + 1];
    return [Number(stop), { checked, next }];
  });

/** Take a check into its stop. */
function visited(stops, { kind, body }) {
  const { checked, next } = stops.get(body.stop) ?? UNTOUCHED;
  stops.set(body.stop, {
    checked: checked + (kind === 'plant-checked' ? 1 : 0),
    next: Math.max(next, body.plant + 1),
  });
}

/** Count the entries of the walk by device, as far as this phone knows of them. */
function countsOf(all, begun) {
  const counts = { ...begun?.entries };
  const here = {};
  for (const { device } of all) here[device] = (here[device] ?? 0) + 1;
  for (const [device, n] of Object.entries(here)) counts[device] = Math.max(n, counts[device] ?? 0);
  return counts;
}

/** Whoever this phone was last handed to in this walk, else the one it is paired with. */
function walker(live, device, person) {
  const handed = live.filter((entry) => entry.kind === 'handed-over' && entry.device === device);
  return handed.at(-1)?.body.to ?? person;
}

/** Whether another phone was to go on, and this one has not since. */
function isAway(live, device) {
  const last = live.findLast((entry) => entry.device === device && entry.kind !== 'struck');
  return last?.kind === 'handed-over' && last.body.to === last.by;
}

/**
 * Fold the entries of a walk that this phone holds into what its screens show.
 * @param {import('./journal.js').Entry[]} entries
 * @param {object} about
 * @param {string} about.walk
 * @param {string} about.device this phone
 * @param {string} about.person the one it is paired with
 * @param {object|null} about.card
 * @param {Begun|null} [about.begun] where another phone began the walk
 */
export function foldWalk(entries, { walk, device, person, card, begun = null }) {
  const record = replay(entries, walk);
  const stops = new Map(begun ? begunStops(begun) : []);
  let sums = begun ? begunSums(begun) : NOTHING;
  for (const check of record.checks) {
    visited(stops, check);
    if (check.kind === 'plant-checked') sums = added(sums, check.body);
  }
  const own = record.checks.filter((check) => check.device === device);
  const state = begun && record.state === 'unopened' ? begunState(record) : record.state;
  return {
    id: walk,
    field: record.opened?.body.field ?? begun?.field ?? null,
    cardHash: record.opened?.body.card ?? begun?.card ?? null,
    state,
    on: record.on,
    lastAt: record.all.at(-1)?.at ?? null,
    sums,
    stops,
    next: card ? nextPlace(card, stops) : null,
    walked: card ? isWalked(card, stops) : false,
    last: own.at(-1) ?? null,
    closing: record.closed?.device === device ? record.closed : null,
    noted: new Set([...(begun?.noted ?? []), ...record.quadrants.map(({ body }) => body.quadrant)]),
    counts: countsOf(record.all, begun),
    by: walker(record.live, device, person),
    away: isAway(record.live, device),
    checks: record.checks,
  };
}

const begunState = ({ closed }) => (closed ? 'closed' : 'open');
