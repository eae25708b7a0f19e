/** Where to go, how it stands, and the end of a walk. */
import { figuresOf } from '../figures.js';
import { progress } from '../route.js';
import { currentCard, currentWalk, today } from '../state.js';
import { enter, leave } from './walking.js';

const MOST_TEXT = 2000;

/** Say how the walk stands, as the entry that closes it keeps it. */
function standingOf(state, { sums, stops, on }) {
  const card = currentCard(state);
  const { lean } = figuresOf(card, on ?? today(state), sums, progress(card, stops, null));
  const { plants, insects, squares, healthy } = sums;
  return { plants, insects, squares, healthy, ...(lean ? { lean } : {}) };
}

/** @param {object} app */
export const whereActs = ({ show }) => ({ back: () => show({ screen: 'plant' }) });

/** @param {object} app */
export const standingActs = ({ show }) => ({
  back: () => show({ screen: 'plant' }),
  finish: () => show({ screen: 'finish' }),
});

/** @param {object} app */
export const finishActs = ({ state, show, write, sendNow }) => ({
  back: () => show({ screen: 'plant' }),
  handOver: () => show({ screen: 'handover', handover: { to: null, qr: null, link: '' } }),
  close: async () => {
    const walk = currentWalk(state);
    const { device } = state.pairing;
    const entries = { ...walk.counts, [device]: (walk.counts[device] ?? 0) + 1 };
    if (!(await write('walk-closed', { entries, standing: standingOf(state, walk) }))) return;
    show({ screen: 'call', plant: null });
    sendNow();
  },
});

/** @param {object} app */
export function callActs(app) {
  const { state, show, write } = app;
  return {
    addNote: async (text) => {
      const told = text.trim().slice(0, MOST_TEXT);
      if (told && (await write('note', { text: told }))) show();
    },
    done: () => leave(app),
    reopen: async () => {
      const { id, closing } = currentWalk(state);
      if (closing && (await write('struck', { seq: closing.seq }))) enter(app, id);
    },
  };
}
