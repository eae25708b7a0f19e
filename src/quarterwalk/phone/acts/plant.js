/** One plant after the other. */
import { checkedBody, isWhole, plantAgain, withInsects, withSquareTapped, withSquares } from '../plant.js';
import { quarterLeft } from '../route.js';
import { currentCard, currentWalk } from '../state.js';
import { figuresNow, leave, plantNow } from './walking.js';

/** @param {object} app */
export function plantActs(app) {
  const { state, show, write, store } = app;

  /** Show the plant as it is counted so far; it is no entry yet. */
  function count(plant) {
    if (!state.canWrite || state.busy) return;
    store.putDraft(plant).catch(() => {});
    show({ plant });
  }

  /** Where a stop plan says whether the walk may end, how it stands is shown before the next plant. */
  function after(walk, wasWalked) {
    if (walk.walked && !wasWalked) return 'finish';
    return figuresNow(state).stop ? 'standing' : 'plant';
  }

  /** After a plant was saved: the next one, the quarter's note first where one is left. */
  function next(stop, wasWalked) {
    const walk = currentWalk(state);
    const left = quarterLeft(currentCard(state), walk.stops, stop);
    const then = after(walk, wasWalked);
    const plant = plantNow(state);
    if (left && !wasWalked && !walk.noted.has(left)) {
      return show({ screen: 'note', note: { quadrant: left, then }, plant });
    }
    return show({ screen: then, plant });
  }

  async function save() {
    const { next: place, walked } = currentWalk(state);
    if (!isWhole(state.plant) || state.resting) return;
    if (await write('plant-checked', checkedBody(state.plant, place))) next(place.stop, walked);
  }

  return {
    clean: save,
    save,
    adults: (by) => count(withInsects(state.plant, 'adults', by)),
    nymphs: (by) => count(withInsects(state.plant, 'nymphs', by)),
    squares: (by) => count(withSquares(state.plant, by)),
    cycle: (at) => count(withSquareTapped(state.plant, at)),
    skip: async (why) => {
      const { quadrant, stop, plant } = currentWalk(state).next;
      if (await write('plant-skipped', { quadrant, stop, plant, why })) show({ plant: plantNow(state) });
    },
    undo: async () => {
      const { id, last } = currentWalk(state);
      if (!last || !(await write('struck', { seq: last.seq }))) return;
      const fresh = plantNow(state);
      const again = last.kind === 'plant-checked' ? plantAgain(id, last, fresh.asked) : fresh;
      count(plantNow(state, again));
    },
    where: () => show({ screen: 'where' }),
    standing: () => show({ screen: 'standing' }),
    note: () =>
      show({ screen: 'note', note: { quadrant: currentWalk(state).next.quadrant, then: 'plant' } }),
    leave: () => leave(app),
  };
}
