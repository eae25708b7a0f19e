/** Replay of a walk: the same entries, in whatever order they came, give the same walk. */
import { dayOf } from './clock.js';
import { keyOf } from './journal.js';

const CHECKS = new Set(['plant-checked', 'plant-skipped']);

/** @typedef {import('./journal.js').Entry} Entry */

/**
 * Put entries in order: the opening device first, then the others by id; each by number.
 * @param {Iterable<Entry>} entries
 * @param {string} walk
 * @returns {Entry[]} each key once
 */
export function inOrder(entries, walk) {
  const opening = walk.slice(0, walk.lastIndexOf('-'));
  const held = new Map();
  for (const entry of entries) if (entry.walk === walk) held.set(keyOf(entry), entry);
  const rank = (device) => (device === opening ? '' : device);
  const before = (a, b) => (a < b ? -1 : Number(a > b));
  return [...held.values()].sort((a, b) => before(rank(a.device), rank(b.device)) || a.seq - b.seq);
}

/** Give the keys that are struck: a strike counts unless a later one strikes it. */
function voided(entries) {
  const held = new Set(entries.map(keyOf));
  const struck = new Set();
  for (const entry of entries.slice().reverse()) {
    if (entry.kind !== 'struck' || struck.has(keyOf(entry))) continue;
    const target = keyOf({ device: entry.device, seq: entry.body.seq });
    if (entry.body.seq < entry.seq && held.has(target)) struck.add(target);
  }
  return struck;
}

/** Part the checks that stand from those of a plant that stands already, or that can't be read. */
function checksOf(live, method) {
  const places = new Set();
  const checks = [];
  const doubled = [];
  const unusable = [];
  for (const entry of live.filter(({ kind }) => CHECKS.has(kind))) {
    const { scout, quadrant, stop = 0, plant, insects, sweeps } = entry.body;
    if (method === 'sweep' && insects && sweeps === undefined) {
      unusable.push(keyOf(entry));
      continue;
    }
    const place = JSON.stringify([scout ?? entry.by, quadrant, stop, plant]);
    if (places.has(place)) doubled.push(keyOf(entry));
    else checks.push(entry);
    places.add(place);
  }
  return { checks, doubled, unusable };
}

/** Count what was told of but is not here. Struck or not, a count that was told was true. */
function waitingFor(entries) {
  const told = new Map();
  const have = new Map();
  const hear = (device, count) => told.set(device, Math.max(count, told.get(device) ?? 0));
  for (const { device, kind, body } of entries) {
    have.set(device, (have.get(device) ?? 0) + 1);
    if (kind === 'handed-over') hear(device, body.entries);
    if (kind === 'walk-closed') Object.entries(body.entries).forEach(([each, n]) => hear(each, n));
  }
  let missing = 0;
  for (const [device, count] of told) missing += Math.max(0, count - (have.get(device) ?? 0));
  return missing;
}

/** Whether every device's last word, strikes aside, is that another person goes on. */
function isHandedOver(live) {
  const last = new Map();
  for (const entry of live) if (entry.kind !== 'struck') last.set(entry.device, entry.kind);
  return [...last.values()].every((kind) => kind === 'handed-over');
}

function stateOf(opening, isVoid, live) {
  if (!opening) return 'unopened';
  if (isVoid) return 'void';
  if (live.some(({ kind }) => kind === 'walk-closed')) return 'closed';
  return isHandedOver(live) ? 'handed-over' : 'open';
}

const datedOn = (check) => check.body.on ?? dayOf(check.at);

/**
 * Replay the held entries of one walk.
 * @param {Iterable<Entry>} entries any order, any number of times
 * @param {string} walk
 */
export function replay(entries, walk) {
  const all = inOrder(entries, walk);
  const struck = voided(all);
  const live = all.filter((entry) => !struck.has(keyOf(entry)));
  const opening = all.find((entry) => entry.kind === 'walk-opened' && keyOf(entry) === walk);
  const { checks, doubled, unusable } = checksOf(live, opening?.body.method);
  const ofKind = (wanted) => live.filter(({ kind }) => kind === wanted);
  const days = checks.map(datedOn).sort();
  return {
    walk,
    state: stateOf(opening, struck.has(walk), live),
    opened: opening,
    on: days.at(-1) ?? (opening && dayOf(opening.at)),
    checks,
    doubled,
    unusable,
    quadrants: ofKind('quadrant-noted'),
    sightings: ofKind('sighted'),
    notes: ofKind('note'),
    closed: ofKind('walk-closed').at(-1),
    waiting: waitingFor(all),
    live,
    all,
  };
}
