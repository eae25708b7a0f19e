/** What to do next. */
import { closedUntil, fieldOf, isClosedAway, openWalkOf, today } from '../state.js';
import { enter } from './walking.js';

/** A walk that was closed today on this phone. */
const closedToday = (state, id) =>
  Object.values(state.walks).findLast(
    (walk) => walk.field === id && walk.state === 'closed' && walk.lastAt?.startsWith(today(state)),
  );

/** @param {object} app */
export function dayActs(app) {
  const { state, show, fetchNow, askForCall } = app;

  /** An open walk goes on at once; on another day somebody looks for signs again first. */
  function goOn(walk, field) {
    if (walk.lastAt?.startsWith(today(state)) || !walk.lastAt) return enter(app, walk.id);
    return show({ screen: 'gate', gate: { field: field.id, card: walk.cardHash, walk: walk.id, sign: false } });
  }

  /** See what became of a walk. */
  function look(walkId) {
    show({ screen: 'call', walkId });
    return askForCall();
  }

  return {
    open: (id) => {
      const field = fieldOf(state, id);
      if (!field) return show();
      const walk = openWalkOf(state, id);
      const gate = { field: id, card: field.card, walk: walk?.id ?? null, sign: false };
      if (closedUntil(state, field)) return show({ screen: 'gate', gate });
      if (walk?.next && isClosedAway(state, walk)) return look(walk.id);
      if (walk) return walk.next ? goOn(walk, field) : fetchNow();
      const done = closedToday(state, id);
      if (done?.next) return look(done.id);
      return state.cards[field.card]?.walkable ? show({ screen: 'gate', gate }) : undefined;
    },
    fetch: () => fetchNow(),
    phone: () => show({ screen: 'phone' }),
  };
}
