/** From one place to the next: how far, and which way, near enough to walk by. */

/** The foot, exact (NIST Special Publication 811, 2008, appendix B). [m] */
const FOOT = 0.3048;

/** Feet in a degree of latitude, on a sphere of 6371 km. */
const FEET_A_DEGREE = ((6_371_000 * Math.PI) / 180) / FOOT;
const RADIANS = Math.PI / 180;

/** Distances are said to this. [feet] */
const STEP = 10;

/**
 * @param {[number, number]} from longitude, latitude [degrees]
 * @param {[number, number]} to
 * @returns {{feet: number, eighth: number}} to the nearest ten feet; 0 north, 2 east
 */
export function wayTo(from, to) {
  const east = (to[0] - from[0]) * FEET_A_DEGREE * Math.cos(((from[1] + to[1]) / 2) * RADIANS);
  const north = (to[1] - from[1]) * FEET_A_DEGREE;
  const turn = Math.atan2(east, north) / (2 * Math.PI);
  return {
    feet: Math.max(STEP, Math.round(Math.hypot(east, north) / STEP) * STEP),
    eighth: (Math.round(turn * 8) + 8) % 8,
  };
}
