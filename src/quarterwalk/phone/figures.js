/** The figures of a walk as they are shown, and what its counts come to. */
import { mayTreatOn, sides, weeksOn } from './limits.js';
import { mayEnd, stopAt } from './stop.js';

export const UNKNOWN = '–';

/** Round half up, but not across a limit that the count itself has not reached. */
function shown(part, whole, limit, isPast) {
  const rounded = Math.floor((200 * part + whole) / (2 * whole));
  return limit !== null && !isPast && rounded >= limit ? Math.floor((100 * part) / whole) : rounded;
}

const percent = (floor) => Number((floor * 100).toFixed(1));
const distinct = (values) => [...new Set(values)];
const either = (values) => (values.length ? values.join(' or ') : null);

/** Order of the sides, the mildest first: where weeks differ the mildest is shown. */
const MILDER = {
  insects: ['few', 'middle', 'near', 'over'],
  squares: ['not-asked', 'not-readable', 'fine', 'under', 'well-under'],
};

const mildest = (kind, judged) =>
  judged
    .map((each) => each[kind])
    .sort((a, b) => MILDER[kind].indexOf(a) - MILDER[kind].indexOf(b))[0] ?? null;

/** Whether each quarter and the whole walk have the plants that a judgement needs. */
const isEnough = ({ limits }, { plants }, quarters) =>
  plants >= limits.least && quarters.every(({ checked }) => checked >= limits.least_a_quarter);

/**
 * Lay a walk's counts beside the limits of the weeks that the day may lie in.
 * @param {object} card
 * @param {string} day local date
 * @param {object} sums
 * @param {{checked: number}[]} quarters
 */
export function figuresOf(card, day, sums, quarters) {
  const weeks = weeksOn(card, day).filter(({ line }) => line !== null);
  const judged = weeks.map((week) => sides(card.limits, week, sums));
  const stands = (verdict) =>
    verdict === 'treat' && !mayTreatOn(card, day) ? 'look-sooner' : verdict;
  const verdicts = distinct(judged.map(({ verdict }) => stands(verdict)));
  const lines = distinct(weeks.map(({ line }) => line));
  const floors = distinct(weeks.map(({ floor }) => floor).filter((floor) => floor !== null));
  const stop = stopAt(card, day, sums, quarters);
  const insectSide = mildest('insects', judged);
  const squareSide = mildest('squares', judged);
  const { plants, insects, squares, healthy } = sums;
  const line = lines.length ? Math.min(...lines) : null;
  const floor = floors.length ? percent(Math.max(...floors)) : null;
  return {
    weeks: weeks.map(({ week }) => week),
    per100: plants ? String(shown(insects, plants, line, insectSide === 'over')) : UNKNOWN,
    line: either(lines.map(String)),
    setText: squares
      ? `${shown(healthy, squares, floor, !['under', 'well-under'].includes(squareSide))} %`
      : UNKNOWN,
    floor: either(floors.map((each) => `${percent(each)} %`)),
    insectSide,
    squareSide,
    weeksDiffer: verdicts.length > 1,
    stop,
    lean:
      verdicts.length === 1 && (isEnough(card, sums, quarters) || mayEnd(stop)) ? verdicts[0] : null,
  };
}
