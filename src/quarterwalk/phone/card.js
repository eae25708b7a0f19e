/** Whether a walk card can be walked by: everything this page reads of it is there and is whole. */

const ID = /^[0-9a-hjkmnp-tv-z]{8}$/;
const DAY = /^\d{4}-\d{2}-\d{2}$/;
const HASH = /^[0-9a-f]{64}$/;
const QUADRANTS = ['NW', 'NE', 'SW', 'SE'];
const INSECTS = ['few', 'middle', 'near', 'over'];
const SQUARES = ['not-asked', 'not-readable', 'fine', 'under', 'well-under'];
const VERDICTS = ['hold', 'look-sooner', 'treat'];
const NEEDS = ['insects-and-set', 'insects-and-blasted', 'insects', null];

const isText = (it) => typeof it === 'string';
const isCount = (it) => Number.isInteger(it) && it >= 0;
const isNumber = (it) => typeof it === 'number' && Number.isFinite(it);
const isDay = (it) => isText(it) && DAY.test(it);
const orNull = (is) => (it) => it === null || is(it);
const listOf = (is) => (it) => Array.isArray(it) && it.every(is);
const oneOf = (names) => (it) => names.includes(it);
const isPlace = (it) => Array.isArray(it) && it.length === 2 && it.every(isNumber);
const isObject = (it) => it !== null && typeof it === 'object' && !Array.isArray(it);

/** Whether an object has all of these, each as it must be. */
const having = (parts) => (it) =>
  isObject(it) && Object.entries(parts).every(([name, is]) => is(it[name]));

const isRow = (length) => (it) =>
  Array.isArray(it) && it.length === length && it.every(orNull(isCount));

const isStop = having({
  stop: isCount,
  quadrant: oneOf(QUADRANTS),
  loop: isCount,
  plants: isCount,
  place: isPlace,
});

const isSpan = having({ from: isDay, to: isDay });

const isWeek = having({
  week: orNull(isCount), // null is the bloom
  from: isDay,
  to: isDay,
  floor: orNull(isNumber),
  line: orNull(isNumber),
});

const isLimits = having({
  full: isCount,
  least: isCount,
  few: isCount,
  least_a_quarter: isCount,
  insects: listOf(having({ line: isNumber, rows: listOf(isRow(3)) })),
  squares: listOf(having({ floor: isNumber, rows: listOf(isRow(2)) })),
  blasted: orNull(having({ rows: listOf(isRow(2)) })),
  needs: oneOf(NEEDS),
  thin_squares: isCount,
  squaring: listOf(isCount),
  verdicts: having(
    Object.fromEntries(
      INSECTS.map((insects) => [
        insects,
        having(Object.fromEntries(SQUARES.map((squares) => [squares, oneOf(VERDICTS)]))),
      ]),
    ),
  ),
});

const isSunRow = (it) => isRow(5)(it) && it.slice(0, 4).every(isCount);

const isSun = having({
  offset: Number.isInteger,
  rows: listOf(isSunRow),
  sunset: isCount,
  compass: (it) => listOf(isText)(it) && it.length === 8,
  texts: having({ facing: isText, overhead: isText, along: listOf(isText) }),
});

const isLimit = orNull(Number.isInteger); // -1 where no count is few enough

const isLook = (it) =>
  having({
    plants: isCount,
    a_quarter: isCount,
    loop: isCount,
    rows: listOf((row) => Array.isArray(row) && row.length === 6 && row.every(isLimit)),
    more: listOf((row) => isRow(2)(row) && row.every(isCount)),
  })(it) && it.rows.length > 0 && it.more.length === it.rows.length;

const isPlan = having({
  week: orNull(isCount),
  hash: (it) => HASH.test(it),
  squares: (it) => typeof it === 'boolean',
  bar: oneOf(['lost', 'blasted', null]),
  looks: listOf(isLook),
});

const PARTS = {
  v: (it) => it === 1,
  field: having({ id: (it) => ID.test(it), name: isText }),
  on: isDay,
  method: isText,
  sites: oneOf(['all', 'top3']),
  walkable: (it) => typeof it === 'boolean',
  why_not: isText,
  sketch: having({ svg: isText }),
  texts: having({ sites: isText, care: listOf(isText), rule: isText, prevails: isText }),
  closed_until: orNull(isText),
  sun: (it) => it === undefined || isSun(it), // a card without a zone has none
};

const PARTS_TO_WALK = {
  stops: (it) => listOf(isStop)(it) && it.length > 0,
  weeks: listOf(isWeek),
  treat_days: listOf(isSpan),
  squares: listOf(having({ week: isCount, plants_a_stop: listOf(isCount) })),
  limits: isLimits,
  plans: (it) => it === undefined || listOf(isPlan)(it), // off: no walk ends early
};

const firstWrong = (parts, card) => Object.keys(parts).find((name) => !parts[name](card[name]));

/**
 * Check a card.
 * @param {unknown} card
 * @returns {string} the part that is wrong; empty where none is
 */
export function cardFault(card) {
  if (!isObject(card)) return 'card';
  const wrong = firstWrong(PARTS, card);
  if (wrong || !card.walkable) return wrong ?? '';
  return firstWrong(PARTS_TO_WALK, card) ?? '';
}
