/** How it stands: may I stop? */
import { currentWalk } from '../state.js';
import { mayEnd } from '../stop.js';
import { common } from './common.js';
import { measures } from './measures.js';
import { standing as said } from './words.js';

/** What is still ahead where the end of a loop does not end the walk. */
const aheadOf = ({ stop }) => (stop && !mayEnd(stop) ? [said.ahead(stop)] : []);

export function standing(state) {
  const walk = currentWalk(state);
  const { fieldName, figures, quarters, title, words, full, fullWalk } = measures(state, walk);
  const { per100, line, setText, floor, insectSide, squareSide, lean } = figures;
  return {
    ...common(state),
    field: fieldName,
    plants: walk.sums.plants,
    insects: walk.sums.insects,
    per100,
    line,
    squares: walk.sums.squares,
    setText,
    floor,
    insectSide: insectSide ?? 'few',
    squareSide: squareSide ?? 'not-readable',
    lean,
    title,
    words: [...aheadOf(figures), ...words],
    checked: walk.sums.plants,
    full,
    fullWalk,
    quarters: quarters.map(({ of, ...shown }) => shown),
  };
}
