/** Which plants get their squares counted: the first few of each stop, as the card says. */
import { weeksOn } from './limits.js';

/** Pick the row of a week; weeks past the last row, and the bloom, are counted like it. */
const rowFor = (rows, week) => rows.findLast((row) => week === null || row.week <= week) ?? rows[0];

/**
 * Give how many plants of a stop get their squares counted.
 * @param {object} card
 * @param {string} day local date
 * @param {{quadrant: string, stop: number}} place
 * @returns {number} the most that any week asks for that the day may lie in
 */
export function squarePlants(card, day, { quadrant, stop }) {
  if (!card.squares.length) return 0;
  const ofQuarter = card.stops.filter((each) => each.quadrant === quadrant);
  const at = ofQuarter.findIndex((each) => each.stop === stop);
  const asked = weeksOn(card, day).map(
    ({ week }) => rowFor(card.squares, week).plants_a_stop[at] ?? 0,
  );
  return Math.max(0, ...asked);
}

/** Whether the plant that comes next at a stop gets its squares counted. */
export const squaresAsked = (card, day, place) => place.checked < squarePlants(card, day, place);
