/** Counts against the limits of a card: looked up and compared, never computed. */

const reached = (count, limit) => limit !== null && limit !== undefined && count >= limit;

/**
 * Say where the insects stand against the line.
 * @param {(number|null)[][]} rows for each number of plants: a third, two thirds, the line itself
 * @returns {'few'|'middle'|'near'|'over'|null} null where the table does not reach
 */
export function insectSide(rows, plants, insects) {
  const row = plants > 0 ? rows?.[plants] : undefined;
  if (!row) return null;
  const [third, near, over] = row;
  if (reached(insects, over)) return 'over';
  if (reached(insects, near)) return 'near';
  return reached(insects, third) ? 'middle' : 'few';
}

/** Say which of two limits a count has reached, the far one first. */
function past(rows, seen, count) {
  const row = rows?.[seen];
  if (!row) return null;
  const [under, well] = row;
  if (reached(count, well)) return 'well-under';
  return reached(count, under) ? 'under' : 'fine';
}

/**
 * Say where the squares stand against the floor, or against the blasted share.
 * @param {object} limits of the card
 * @param {number|null} floor of the week
 * @param {{squares: number, lost: number, blasted: number, squarePlants?: number,
 *   squaring?: number}} seen squares, plants whose squares were counted, and those that had any
 * @returns {'not-asked'|'not-readable'|'fine'|'under'|'well-under'|null}
 */
export function squareSide(limits, floor, { squares, lost, blasted, squarePlants = 0, squaring = 0 }) {
  if (limits.needs === 'insects') return 'not-asked';
  const fewest = limits.squaring[squarePlants];
  if (squares < limits.thin_squares || !reached(squaring, fewest)) return 'not-readable';
  if (limits.needs === 'insects-and-blasted') return past(limits.blasted?.rows, squares, blasted);
  if (floor === null) return 'not-readable';
  return past(limits.squares.find((table) => table.floor === floor)?.rows, squares, lost);
}

/**
 * Judge the counts by one squaring week.
 * @param {object} limits of the card
 * @param {{line: number, floor: number|null}} week
 * @param {{plants: number, insects: number, squares: number, lost: number, blasted: number}} sums
 */
export function sides(limits, { line, floor }, sums) {
  const rows = limits.insects.find((table) => table.line === line)?.rows;
  const insects = insectSide(rows, sums.plants, sums.insects);
  const squares = squareSide(limits, floor, sums);
  const verdict = insects && squares ? limits.verdicts[insects][squares] : null;
  return { insects, squares, verdict };
}

/** Whether a case to treat may stand on a day; on others it becomes a sooner look. */
export const mayTreatOn = (card, day) =>
  card.treat_days.some(({ from, to }) => from <= day && day <= to);

/** Give the squaring weeks that a day may lie in; more than one where first square is a range, null for the bloom. */
export const weeksOn = (card, day) => card.weeks.filter(({ from, to }) => from <= day && day <= to);
