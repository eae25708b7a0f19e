/** The one place where state changes: what is written is kept first, and only then shown. */
import { foldWalk } from './fold.js';
import { firstState, cardOf, currentWalk } from './state.js';

/** A write that takes longer is said on the screen. [ms] */
const SOON = 250;

/** How long the button that saves rests after an entry: a bounced tap writes no plant (this project's rule). [ms] */
const REST = 200;

/**
 * @param {object} with_
 * @param {object} with_.store
 * @param {import('./clock.js').Clock} with_.clock
 * @param {(state: import('./state.js').State) => void} with_.draw
 * @param {() => void} with_.wrote an entry was written
 */
export function makeController({ store, clock, draw, wrote }) {
  const state = firstState();
  const entries = new Map();
  let writing = false;
  let resting = 0;

  /** Change the state and draw it. */
  function show(change = {}) {
    Object.assign(state, change, { at: clock.at(), now: clock.now() });
    draw(state);
  }

  /** Fold a walk afresh from its entries. */
  function refold(walk) {
    const begun = state.begun[walk] ?? null;
    const { device, person } = state.pairing ?? { device: '', person: { id: '' } };
    const about = { walk, device, person: person.id, begun };
    const first = foldWalk(entries.get(walk) ?? [], { ...about, card: null });
    const card = cardOf(state, first);
    const folded = card ? foldWalk(entries.get(walk) ?? [], { ...about, card }) : first;
    state.walks = { ...state.walks, [walk]: folded };
  }

  function keep(record) {
    state.records.push(record);
    if (!record.walk) return;
    entries.set(record.walk, [...(entries.get(record.walk) ?? []), JSON.parse(record.line)]);
    refold(record.walk);
  }

  /** Take in every record of the store, as after a reload. */
  function takeIn(records) {
    entries.clear();
    for (const { walk, line } of records.filter((record) => record.walk)) {
      if (!entries.has(walk)) entries.set(walk, []);
      entries.get(walk).push(JSON.parse(line));
    }
    state.records = records;
    state.walks = {};
    refoldAll();
  }

  function refoldAll() {
    for (const walk of new Set([...entries.keys(), ...Object.keys(state.begun)])) refold(walk);
  }

  function rest() {
    clearTimeout(resting);
    state.resting = true;
    resting = setTimeout(() => show({ resting: false }), REST);
  }

  function said(kind, body, walk) {
    const { device, person } = state.pairing;
    const by = walk ? (state.walks[walk]?.by ?? person.id) : person.id;
    return { device, by, at: clock.at(), tick: clock.tick(), ...(walk ? { walk } : {}), kind, body };
  }

  /**
   * Write an entry. Taps that come while one is being written are passed over.
   * @returns {Promise<import('./store.js').Record|null>} nothing where it could not be kept
   */
  async function write(kind, body, walk = currentWalk(state)?.id) {
    if (!state.canWrite || writing) return null;
    writing = true;
    const slow = setTimeout(() => show({ busy: true }), SOON);
    let record = null;
    try {
      record = await store.append(said(kind, body, walk));
      keep(record);
      state.fault = '';
    } catch {
      state.fault = 'store';
    }
    clearTimeout(slow);
    state.busy = false;
    writing = false;
    if (record) rest();
    if (record) wrote();
    else show();
    return record;
  }

  return { state, show, write, takeIn, refoldAll };
}
