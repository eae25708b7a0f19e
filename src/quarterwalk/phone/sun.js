/** Which way to face so that the shadow falls behind: looked up in the card by the clock. */
import { DAY, dayOf, wallTime } from './clock.js';

/** A card's sun holds on its day and on the next, for which it is minutes off (this project's rule). [days] */
const HOLDS = 1;

const minuteOf = (at) => 60 * Number(at.slice(11, 13)) + Number(at.slice(14, 16));

/** Find what holds now: the last row that has begun; nothing in the dark or on another day. */
function rowNow({ on, sun }, now) {
  const at = wallTime(now, sun.offset);
  const since = (Date.parse(dayOf(at)) - Date.parse(on)) / DAY;
  if (since < 0 || since > HOLDS) return null;
  const minute = minuteOf(at);
  return minute < sun.sunset ? sun.rows.findLast(([from]) => from <= minute) ?? null : null;
}

/**
 * Say which way to face, or that the sun is overhead; then what that means along the rows.
 * @param {object} card
 * @param {number} now [ms]
 * @returns {string[]} nothing where the card has no sun for this time
 */
export function sunWords(card, now) {
  const row = card.sun ? rowNow(card, now) : null;
  if (!row) return [];
  const { compass, texts } = card.sun;
  const [, degrees, toward, overhead, along] = row;
  if (overhead) return [texts.overhead];
  const facing = texts.facing.replace('{compass}', compass[toward]).replace('{degrees}', degrees);
  return [facing, texts.along[along]].filter(Boolean);
}
