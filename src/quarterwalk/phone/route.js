/** The way of a walk: stop after stop in the card's order, so many plants at each. */

/**
 * @typedef {object} AtStop what was done at one stop
 * @property {number} checked plants looked at
 * @property {number} next number of the next plant; passed-over plants have numbers too
 *
 * @typedef {object} Place where the next plant stands
 * @property {number} stop
 * @property {string} quadrant
 * @property {number} loop
 * @property {number} plant its number at the stop
 * @property {number} checked plants looked at there before it
 * @property {number} plants wanted there
 */

export const UNTOUCHED = { checked: 0, next: 1 };

const at = (stops, { stop }) => stops.get(stop) ?? UNTOUCHED;
const isFull = (stops) => (each) => at(stops, each).checked >= each.plants;

/** Whether every stop has its plants. */
export const isWalked = (card, stops) => card.stops.every(isFull(stops));

/**
 * Find where the next plant stands. Where every stop has its plants, more may be checked at the
 * last one.
 * @param {object} card
 * @param {Map<number, AtStop>} stops
 * @returns {Place}
 */
export function nextPlace(card, stops) {
  const here = card.stops.find((each) => !isFull(stops)(each)) ?? card.stops.at(-1);
  const { stop, quadrant, loop, plants } = here;
  const { checked, next } = at(stops, here);
  return { stop, quadrant, loop, plant: next, checked, plants };
}

/** Give the quarters in the order in which the way first comes through them. */
export const quartersOf = (card) => [...new Set(card.stops.map(({ quadrant }) => quadrant))];

/**
 * Say how far each quarter is walked.
 * @param {object} card
 * @param {Map<number, AtStop>} stops
 * @param {string|null} current quadrant
 */
export function progress(card, stops, current) {
  return quartersOf(card).map((quadrant) => {
    const own = card.stops.filter((each) => each.quadrant === quadrant);
    return {
      quadrant,
      checked: own.reduce((sum, each) => sum + at(stops, each).checked, 0),
      of: own.reduce((sum, { plants }) => sum + plants, 0),
      stops: own.map(isFull(stops)),
      current: quadrant === current,
    };
  });
}

/**
 * Say which quarter was just left: the last plant of its last stop in a loop was saved.
 * @param {object} card
 * @param {Map<number, AtStop>} stops after the plant was saved
 * @param {number} stop where it stood
 * @returns {string|null} its quadrant
 */
export function quarterLeft(card, stops, stop) {
  const here = card.stops.find((each) => each.stop === stop);
  if (!here) return null;
  const ofLoop = card.stops.filter(
    ({ quadrant, loop }) => quadrant === here.quadrant && loop === here.loop,
  );
  return ofLoop.every(isFull(stops)) ? here.quadrant : null;
}
