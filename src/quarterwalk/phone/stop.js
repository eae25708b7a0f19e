/** Whether a walk may end at the end of a loop: its counts looked up in the card's stop plans. */
import { squareSide, weeksOn } from './limits.js';

/**
 * @typedef {object} Counted what a plan looks at
 * @property {number} insects
 * @property {number} lost squares, or blasted ones where the plan asks for them
 * @property {number} squares checked; 0 where insects decide alone
 *
 * @typedef {object} Stop what the plans say at the end of a loop
 * @property {'hold'|'treat'|'go-on'} side
 * @property {string|null} hash of the plan that lets the walk end
 * @property {{what: 'insects'|'lost'|'sum'|'treat', bar: 'lost'|'blasted'|null}[]} why
 * @property {number} loop that is next
 * @property {number} plants that are still ahead, on average
 * @property {number} minutes the same
 */

/** Say which of the lower limits a row keeps; nothing where the counts are above all. */
function heldBy([, insectsLow, lostLow, sumLow], { insects, lost }) {
  if (insects <= insectsLow) return 'insects';
  if (lost <= lostLow) return 'lost';
  return insects + lost <= sumLow ? 'sum' : null;
}

const treats = ([, , , , insectsHigh, lostHigh], { insects, lost }) =>
  insectsHigh !== null && lostHigh !== null && insects >= insectsHigh && lost >= lostHigh;

const between = (first, last, part) => first + Math.floor(((last - first) * part.step) / part.span);
const above = (first, last, part) =>
  first === null || last === null ? null : first - Math.floor(((first - last) * part.step) / part.span);

/**
 * Give the limits for a number of squares: between two rows each lies on the straight line between
 * theirs, what holds rounded down and what treats rounded up. Past the last row, and where only one
 * of the two treats, nothing treats and what holds is the row's with fewer squares.
 * @param {(number|null)[][]} rows of a look, their squares rising
 * @param {number} squares checked
 * @returns {(number|null)[]|null} nothing with fewer squares than in the first row
 */
export function rowFor(rows, squares) {
  const fewer = rows.findLast(([each]) => each <= squares);
  const more = rows.find(([each]) => each >= squares);
  if (!fewer) return null;
  if (!more) return [squares, ...fewer.slice(1, 4), null, null];
  if (fewer === more) return fewer;
  if ((fewer[5] === null) !== (more[5] === null)) return [squares, ...fewer.slice(1, 4), null, null];
  const part = { span: more[0] - fewer[0], step: squares - fewer[0] };
  const low = [1, 2, 3].map((i) => between(fewer[i], more[i], part));
  const high = [4, 5].map((i) => above(fewer[i], more[i], part));
  return [squares, ...low, ...high];
}

/**
 * Look counts up in the limits for so many squares.
 * @param {(number|null)[][]} rows of a look, their squares rising
 * @param {Counted} counted
 * @returns {{side: 'hold'|'treat'|'go-on', what: string|null}} and by which limit
 */
export function sideOf(rows, counted) {
  const row = rowFor(rows, counted.squares);
  const what = row ? heldBy(row, counted) : null;
  if (what) return { side: 'hold', what };
  return row && treats(row, counted) ? { side: 'treat', what: 'treat' } : { side: 'go-on', what: null };
}

const countedFor = ({ squares: asked, bar }, { insects, squares, lost, blasted }) => ({
  insects,
  squares: asked ? squares : 0,
  lost: asked ? { lost, blasted }[bar] : 0,
});

/** To treat, a walk ends only where its squares can be judged by: else no call could say treat. */
const canTreat = ({ limits }, { floor }, plan, sums) =>
  !plan.squares || squareSide(limits, floor, sums) !== 'not-readable';

/** Look a walk up in the plan of one week; nothing where it is not at the end of a loop. */
function lookedUp(card, { week, plan }, sums, quarters) {
  const look = plan.looks.find((each) => quarters.every(({ checked }) => checked === each.a_quarter));
  if (!look) return null;
  const counted = countedFor(plan, sums);
  const row = Math.max(0, look.rows.findLastIndex(([squares]) => squares <= counted.squares));
  const [plants, minutes] = look.more[row];
  const { side: found, what } = sideOf(look.rows, counted);
  const side = found === 'treat' && !canTreat(card, week, plan, sums) ? 'go-on' : found;
  return { side, why: { what, bar: plan.bar }, hash: plan.hash, loop: look.loop + 1, plants, minutes };
}

/**
 * Say at the end of a loop whether the walk may end. It may only where one plan answers all weeks
 * that the day may lie in: the walk names that plan, and its call asks for the same.
 * @param {object} card
 * @param {string} day local date
 * @param {object} sums
 * @param {{checked: number}[]} quarters
 * @returns {Stop|null} nothing where there is no plan to go by, or the walk is not there yet
 */
export function stopAt(card, day, sums, quarters) {
  const planOf = ({ week }) => card.plans?.find((plan) => plan.week === week);
  const weeks = weeksOn(card, day).map((week) => ({ week, plan: planOf(week) }));
  const [first] = weeks;
  if (!first?.plan || weeks.some(({ plan }) => plan?.hash !== first.plan.hash)) return null;
  const told = lookedUp(card, first, sums, quarters);
  if (!told) return null;
  const { side, why, hash, ...ahead } = told;
  return side === 'go-on' ? { side, hash: null, why: [], ...ahead } : { side, hash, why: [why], ...ahead };
}

/** Whether a walk may end here. */
export const mayEnd = (stop) => stop !== null && stop.side !== 'go-on';
