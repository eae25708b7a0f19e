/** The plant being looked at: counts that are not in the journal yet. */

/** What becomes of a square, in the order in which taps go through it. */
export const STATES = ['healthy', 'missing', 'blasted', 'flared'];

/** Most insects of a kind, as an entry holds them; most squares that the screen draws. [count] */
const MOST_INSECTS = 99;
const MOST_SQUARES = 12;

/**
 * @typedef {object} Plant
 * @property {string} walk
 * @property {number} stop
 * @property {number} plant
 * @property {number} adults
 * @property {number} nymphs
 * @property {boolean} asked whether its squares are counted
 * @property {string[]|null} squares null until their number is said
 */

const within = (number, most) => Math.min(Math.max(number, 0), most);
const healthy = (count) => Array.from({ length: count }, () => 'healthy');
const total = (counts) => STATES.reduce((sum, state) => sum + counts[state], 0);

/** The number of squares carries over from the plant before at the same stop, and no further. */
export function carriedOver(checks, stop) {
  const before = checks.findLast(({ body }) => body.stop === stop && body.squares);
  return before ? Math.min(total(before.body.squares), MOST_SQUARES) : null;
}

/**
 * Begin a plant.
 * @param {string} walk
 * @param {import('./route.js').Place} place
 * @param {{asked: boolean, carried: number|null}} squares
 * @returns {Plant}
 */
export function freshPlant(walk, { stop, plant }, { asked, carried }) {
  const squares = asked && carried !== null ? healthy(carried) : null;
  return { walk, stop, plant, adults: 0, nymphs: 0, asked, squares };
}

/** Take up a plant again whose check was struck, as it was counted. */
export function plantAgain(walk, { body }, asked) {
  const { stop, plant, insects, squares: counted } = body;
  const squares = counted ? STATES.flatMap((state) => Array(counted[state]).fill(state)) : null;
  return { walk, stop, plant, ...insects, asked: asked || squares !== null, squares };
}

/** Whether a plant that was being looked at is the one that comes next. */
export const isAt = (plant, walk, place) =>
  plant?.walk === walk && plant.stop === place.stop && plant.plant === place.plant;

export const withInsects = (plant, kind, by) => ({
  ...plant,
  [kind]: within(plant[kind] + by, MOST_INSECTS),
});

/** Say the number of squares; once it is said, take one away or add one. */
export function withSquares(plant, by) {
  if (plant.squares === null) return { ...plant, squares: healthy(within(by, MOST_SQUARES)) };
  const count = within(plant.squares.length + by, MOST_SQUARES);
  const squares = plant.squares.slice(0, count);
  return { ...plant, squares: squares.concat(healthy(count - squares.length)) };
}

/** Tap one square: it becomes the next of the four. */
export const withSquareTapped = (plant, at) => ({
  ...plant,
  squares: plant.squares.map((state, i) =>
    i === at ? STATES[(STATES.indexOf(state) + 1) % STATES.length] : state,
  ),
});

/** Whether there is more to it than a clean plant. */
export const isMarked = ({ adults, nymphs, squares }) =>
  adults + nymphs > 0 || (squares ?? []).some((state) => state !== 'healthy');

/** Whether all that is asked of it has been said. */
export const isWhole = ({ asked, squares }) => !asked || squares !== null;

/** Count the squares by what became of them. */
export const squareCounts = (squares) =>
  Object.fromEntries(STATES.map((state) => [state, squares.filter((each) => each === state).length]));

/** Give the body of the entry that says what was seen. */
export function checkedBody({ plant, adults, nymphs, squares }, { quadrant, stop }) {
  const body = { quadrant, stop, plant, insects: { adults, nymphs } };
  return squares === null ? body : { ...body, squares: squareCounts(squares) };
}
