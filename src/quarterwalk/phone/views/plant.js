/** One plant: what was counted, what a tap will write, and how far the walk is. */
import { checkedBody, isMarked } from '../plant.js';
import { currentWalk } from '../state.js';
import { common } from './common.js';
import { measures } from './measures.js';
import { plant as words, writesWords } from './words.js';

function undoWords({ last }, number) {
  if (!last) return words.undoNothing;
  const { stop, insects, squares } = last.body;
  if (last.kind === 'plant-skipped') return words.undoSkipped(stop);
  return words.undoChecked(number, writesWords(insects, squares));
}

function tallyOf({ sums }, { per100, line, setText, floor }) {
  const { insects, plants, lost, squares } = sums;
  return { insects, plants, per100, line, lost, squares, setText, floor };
}

const entryOf = ({ adults, nymphs, squares }) => ({
  adults,
  nymphs,
  squares: squares && squares.map((state) => ({ state })),
});

export function plant(state) {
  const walk = currentWalk(state);
  const { fieldName, quarters, figures, short } = measures(state, walk);
  const { next } = walk;
  const quarter = quarters.find(({ quadrant }) => quadrant === next.quadrant);
  const done = quarters.reduce((sum, { checked }) => sum + checked, 0);
  const { insects, squares } = checkedBody(state.plant, next);
  return {
    ...common(state),
    field: fieldName,
    plantNo: done + 1,
    quadrant: next.quadrant,
    inQuadrant: quarter.checked + 1,
    ofQuadrant: quarter.of,
    stop: next.stop,
    stopPlant: next.checked + 1,
    ofStop: next.plants,
    newStop: next.checked === 0,
    quarters: quarters.map(({ of, ...shown }) => shown),
    tally: tallyOf(walk, figures),
    standingWords: short,
    squaresAsked: state.plant.asked,
    entry: entryOf(state.plant),
    dirty: isMarked(state.plant),
    writes: writesWords(insects, squares),
    canUndo: walk.last !== null,
    undoWords: undoWords(walk, done),
    readOnly: !state.canWrite,
    busy: state.busy,
    resting: state.resting,
  };
}
