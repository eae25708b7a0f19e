/** Into a walk, on to its next plant, and out of it: what several screens do. */
import { figuresOf } from '../figures.js';
import { carriedOver, freshPlant, isAt } from '../plant.js';
import { progress } from '../route.js';
import { squaresAsked } from '../squares.js';
import { currentCard, currentWalk, today } from '../state.js';

/** The plant that comes next, as far as it has been counted. */
export function plantNow(state, begun = null) {
  const walk = currentWalk(state);
  if (begun && isAt(begun, walk.id, walk.next)) return begun;
  const asked = squaresAsked(currentCard(state), today(state), walk.next);
  return freshPlant(walk.id, walk.next, { asked, carried: carriedOver(walk.checks, walk.next.stop) });
}

/** The figures of the walk on screen, by the last day of its checks. */
export function figuresNow(state) {
  const { sums, stops, on } = currentWalk(state);
  const card = currentCard(state);
  return figuresOf(card, on ?? today(state), sums, progress(card, stops, null));
}

/** Keep which walk is on screen, so that the page comes back to it. */
function remember({ state, store }, place) {
  if (state.canWrite) store.writeMeta({ place }).catch(() => {});
}

/** Go into a walk, or on with it. */
export function enter(app, walkId) {
  const { state, show } = app;
  state.walkId = walkId;
  if (!currentWalk(state).next) return show({ screen: 'day', walkId: null });
  remember(app, walkId);
  return show({ screen: 'plant', plant: plantNow(state, state.plant), gate: null, fault: '' });
}

/** Back to the day; the plant being looked at is kept as it is. */
export function leave(app) {
  remember(app, null);
  app.show({ screen: 'day', walkId: null, gate: null, note: null, handover: null });
  app.between();
}
