/** Close the walk? What is missing is said first. */
import { currentWalk } from '../state.js';
import { common } from './common.js';
import { measures } from './measures.js';
import { finish as said } from './words.js';

function missingOf({ sums, noted }, { card, quarters, full }) {
  const { least_a_quarter: least, full: whole } = card.limits;
  const thin = quarters.filter(({ checked }) => checked < least);
  const walked = quarters.filter(({ checked }) => checked > 0);
  const unnoted = walked.map(({ quadrant }) => quadrant).filter((each) => !noted.has(each));
  return [
    ...thin.map(({ quadrant, checked }) =>
      checked ? said.few(quadrant, checked) : said.none(quadrant),
    ),
    ...(full || thin.length ? [] : [said.short(whole - sums.plants)]),
    ...(unnoted.length ? [said.noNote(unnoted)] : []),
  ];
}

export function finish(state) {
  const walk = currentWalk(state);
  const standing = measures(state, walk);
  return {
    ...common(state),
    field: standing.fieldName,
    plants: walk.sums.plants,
    missing: missingOf(walk, standing),
    full: standing.full,
    title: standing.title,
    lean: standing.figures.lean,
    words: standing.words,
  };
}
