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

/**
 * Look counts up: not to treat by the row with the most squares that are not above those
 * checked, to treat by the row with the fewest that are not below.
 * @param {(number|null)[][]} rows of a look, their squares rising
 * @param {Counted} counted
 * @returns {{side: 'hold'|'treat'|'go-on', what: string|null}} and by which limit
 */
export function sideOf(rows, counted) {
  const fewer = rows.findLast(([squares]) => squares <= counted.squares);
  const more = rows.find(([squares]) => squares >= counted.squares);
  const what = fewer ? heldBy(fewer, counted) : null;
  if (what) return { side: 'hold', what };
  if (fewer && more && treats(more, counted)) return { side: 'treat', what: 'treat' };
  return { side: 'go-on', what: null };
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
