/** The phone's clock: wall time as it is written into entries, and a counter that only goes up. */

/** A day. [ms] */
export const DAY = 24 * 60 * 60 * 1000;
const MINUTE = 60 * 1000;

const two = (number) => String(number).padStart(2, '0');

/**
 * Write a moment as an entry does: local time to the millisecond, with its offset.
 * @param {number} ms since 1970 [ms]
 * @param {number} offset of local time from UTC, east positive [minutes]
 * @returns {string}
 */
export function wallTime(ms, offset) {
  const local = new Date(ms + offset * MINUTE).toISOString().slice(0, -1);
  const size = Math.abs(offset);
  return `${local}${offset < 0 ? '-' : '+'}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}

/** The day of a moment as written, in its own zone. @param {string} at */
export const dayOf = (at) => at.slice(0, 10);

/**
 * @typedef {object} Clock
 * @property {() => number} now moment, shifted where a demo lives on another day [ms]
 * @property {() => string} at the same, as an entry writes it
 * @property {() => string} today local date
 * @property {() => number} tick since the page was opened; never steps back [ms]
 * @property {(ms: number) => void} shift set what the office adds to this clock [ms]
 */

/**
 * Make a clock of the browser's three.
 * @param {{now: () => number, tick: () => number, offset: (ms: number) => number}} source
 * @returns {Clock}
 */
export function makeClock(source) {
  let added = 0;
  const now = () => source.now() + added;
  const at = () => wallTime(now(), source.offset(now()));
  return {
    now,
    at,
    today: () => dayOf(at()),
    tick: () => Math.max(0, Math.floor(source.tick())),
    shift: (ms) => {
      added = ms;
    },
  };
}

/** The browser's own. */
export const browserClock = () =>
  makeClock({
    now: () => Date.now(),
    tick: () => performance.now(),
    offset: (ms) => -Math.round(new Date(ms).getTimezoneOffset()),
  });
