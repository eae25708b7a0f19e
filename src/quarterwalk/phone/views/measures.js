/** Where a walk stands, for every view that says so. */
import { figuresOf } from '../figures.js';
import { progress } from '../route.js';
import { cardOf, fieldOf, today } from '../state.js';
import { standing as words } from './words.js';

/** The day whose squaring week judges a walk: the last one of its checks. */
const dayOfWalk = (state, walk) => walk.on ?? today(state);

/** What must still be checked before anybody may stop; empty where nothing must. */
function notYet({ limits }, { plants }, quarters) {
  const none = quarters.filter(({ checked }) => checked === 0);
  if (none.length) return words.noneIn(none.map(({ quadrant }) => quadrant));
  const few = quarters.filter(({ checked }) => checked < limits.least_a_quarter);
  if (few.length) return words.fewIn(few.map(({ quadrant }) => quadrant), limits.least_a_quarter);
  return plants < limits.least ? words.atLeast(limits.least - plants) : '';
}

const toFull = ({ limits }, { plants }) =>
  plants < limits.full ? words.toFull(limits.full - plants) : words.full;

function remarks({ limits }, sums, figures) {
  return [
    ...(figures.squareSide === 'not-readable' && sums.squares < limits.thin_squares
      ? [words.squaresShort(limits.thin_squares - sums.squares)]
      : []),
    ...(figures.weeksDiffer ? [words.weeksDiffer(figures.weeks)] : []),
    ...(figures.weeks.length ? [] : [words.noWeek]),
    ...(figures.lean && sums.plants < limits.few ? [words.few] : []),
  ];
}

/**
 * Say where a walk stands.
 * @param {import('../state.js').State} state
 * @param {object} walk
 */
export function measures(state, walk) {
  const card = cardOf(state, walk);
  const quarters = progress(card, walk.stops, walk.next?.quadrant ?? null);
  const figures = figuresOf(card, dayOfWalk(state, walk), walk.sums, quarters);
  const more = notYet(card, walk.sums, quarters);
  const title = more || toFull(card, walk.sums);
  return {
    card,
    fieldName: fieldOf(state, walk.field)?.name ?? card.field.name,
    quarters,
    figures,
    mayStop: more === '',
    full: walk.sums.plants >= card.limits.full,
    fullWalk: card.limits.full,
    title,
    short: more || [figures.lean && words.leaning[figures.lean], `${title}.`].filter(Boolean).join(' '),
    words: remarks(card, walk.sums, figures),
  };
}
