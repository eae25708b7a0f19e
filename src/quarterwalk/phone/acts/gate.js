/** The gate: nobody goes in past a spray, a sign or a flag. */
import { closedUntil, fieldOf } from '../state.js';
import { isOld } from '../views/day.js';
import { enter, leave } from './walking.js';

/** @param {object} app */
export function gateActs(app) {
  const { state, show, write, keepSafe } = app;

  async function goIn(called) {
    const { field, card: hash, walk } = state.gate;
    if (state.gate.sign || closedUntil(state, fieldOf(state, field))) return;
    if (walk) return enter(app, walk);
    const { method, sites } = state.cards[hash];
    const body = { field, card: hash, method, sites, source: 'phone', gate: { sign: false, called } };
    const record = await write('walk-opened', body, null);
    if (!record) return;
    keepSafe();
    enter(app, `${record.device}-${record.seq}`);
  }

  return {
    answerNothing: () => (isOld(state) ? undefined : goIn(false)),
    calledOffice: () => goIn(true),
    answerSign: async () => {
      const { field, walk } = state.gate;
      const record = await write('sighted', { what: 'spray-sign', field }, walk);
      if (record) show({ gate: { ...state.gate, sign: true } });
    },
    back: () => leave(app),
  };
}
