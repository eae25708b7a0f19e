/** Where to go, how it stands, and the end of a walk. */
import { currentWalk } from '../state.js';
import { mayEnd } from '../stop.js';
import { enter, figuresNow, leave } from './walking.js';

const MOST_TEXT = 2000;

/** Say how the walk stands, and by which stop plan it ends early, as the entry that closes it keeps it. */
export function closingBody(state) {
  const { counts, sums } = currentWalk(state);
  const { device } = state.pairing;
  const { lean, stop } = figuresNow(state);
  const { plants, insects, squares, healthy } = sums;
  return {
    entries: { ...counts, [device]: (counts[device] ?? 0) + 1 },
    standing: { plants, insects, squares, healthy, ...(lean ? { lean } : {}) },
    ...(mayEnd(stop) ? { plan: stop.hash } : {}),
  };
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
    if (!(await write('walk-closed', closingBody(state)))) return;
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
