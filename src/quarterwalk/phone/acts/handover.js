/** Handing a walk over, and taking one. */
import { begunBy, codeFor, linkTo } from '../handover.js';
import { currentWalk, nameOf, openWalkOf, cardOf } from '../state.js';
import { enter, leave } from './walking.js';

/** @param {object} app */
export function handoverActs(app) {
  const { state, show, write, page } = app;

  /** Say who goes on; the entry counts itself. */
  function handOver(to) {
    const entries = (currentWalk(state).counts[state.pairing.device] ?? 0) + 1;
    return write('handed-over', { to, entries });
  }

  return {
    to: async (person) => {
      if (await handOver(person)) show({ handover: { ...state.handover, to: person } });
    },
    // Who reads the code is not known yet: the walk stays in the name of who walks it now.
    onOtherPhone: async () => {
      const { by } = currentWalk(state);
      if (!(await handOver(by))) return;
      const link = linkTo(begunBy(currentWalk(state), nameOf(state, by)), page);
      show({ handover: { to: null, link, qr: codeFor(link) } });
    },
    back: () => {
      const { to, qr } = state.handover;
      if (qr) return leave(app);
      return show({ screen: to ? 'plant' : 'finish', handover: null });
    },
  };
}

/** @param {object} app */
export function takeActs(app) {
  const { state, show, store, refoldAll, getCard, forgetLink } = app;

  function out() {
    forgetLink();
    show({ screen: state.pairing ? 'day' : 'pair', take: null });
  }

  return {
    take: async () => {
      const { begun } = state.take;
      if (!state.canWrite || !begun) return;
      if (!state.pairing) return show({ take: { begun, fault: 'unpaired' } });
      const own = openWalkOf(state, begun.field);
      if (begun.card && !state.cards[begun.card]) await getCard(begun.card);
      if (!cardOf(state, { cardHash: begun.card, field: begun.field })) {
        return show({ take: { begun, fault: 'noCard' } });
      }
      if (own?.id !== begun.walk) {
        await store.writeMeta({ begun: { ...state.begun, [begun.walk]: begun } });
        state.begun = { ...state.begun, [begun.walk]: begun };
        refoldAll();
      }
      forgetLink();
      state.take = null;
      return enter(app, begun.walk);
    },
    back: out,
  };
}
