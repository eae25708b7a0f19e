/** Where a walk stands, for every view that says so. */
import { figuresOf } from '../figures.js';
import { progress } from '../route.js';
import { cardOf, fieldOf, today } from '../state.js';
import { mayEnd } from '../stop.js';
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

/** What the walk may do now, in a few words. */
function titleOf(card, sums, { stop }, more) {
  if (mayEnd(stop)) return words.mayStop;
  return stop ? words.nextLoop(stop.loop) : more || toFull(card, sums);
}

/** Why a walk may end here, in sentences. */
const whyEnd = ({ stop }, sums) =>
  mayEnd(stop) ? stop.why.map(({ what, bar }) => words.why[what](sums, bar)) : [];

function remarks({ limits }, sums, figures) {
  const end = mayEnd(figures.stop); // then nothing is too few
  return [
    ...whyEnd(figures, sums),
    ...(!end && figures.squareSide === 'not-readable' && sums.squares < limits.thin_squares
      ? [words.squaresShort(limits.thin_squares - sums.squares)]
      : []),
    ...(figures.weeksDiffer ? [words.weeksDiffer(figures.weeks)] : []),
    ...(figures.weeks.length ? [] : [words.noWeek]),
    ...(!end && figures.lean && sums.plants < limits.few ? [words.few] : []),
  ];
}

/**
 * Say where a walk stands.
 * @param {import('../state.js').State} state
 * @param {object} walk
 * @returns {object} `full` tells that nothing more need be checked
 */
export function measures(state, walk) {
  const card = cardOf(state, walk);
  const quarters = progress(card, walk.stops, walk.next?.quadrant ?? null);
  const figures = figuresOf(card, dayOfWalk(state, walk), walk.sums, quarters);
  const more = figures.stop ? '' : notYet(card, walk.sums, quarters);
  const title = titleOf(card, walk.sums, figures, more);
  return {
    card,
    fieldName: fieldOf(state, walk.field)?.name ?? card.field.name,
    quarters,
    figures,
    full: walk.sums.plants >= card.limits.full || mayEnd(figures.stop),
    fullWalk: card.limits.full,
    title,
    short: more || [figures.lean && words.leaning[figures.lean], `${title}.`].filter(Boolean).join(' '),
    words: remarks(card, walk.sums, figures),
  };
}
