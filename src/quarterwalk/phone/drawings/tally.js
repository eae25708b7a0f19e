/**
 * The pinch without a range: two posts, hatched ground between them, a dot at each reading.
 * The posts always stand in the same place, so the eye learns where the line is.
 */
import { nothing, svg } from '../vendor/lit-html.js';

const LEFT = 9;
const RIGHT = 191;
const MIDDLE = 100;
const INSECTS_POST = 58;
const SET_POST = 142;
const AXIS = 47;
const TOP = 32;
const BOTTOM = 62;
const BETWEEN = hatch(INSECTS_POST, SET_POST);
const FROM_INSECTS = hatch(INSECTS_POST, RIGHT);

function hatch(left, right) {
  const lines = [];
  for (let sum = left + TOP; sum < right + BOTTOM; sum += 9) {
    const low = Math.max(left, sum - BOTTOM);
    const high = Math.min(right, sum - TOP);
    if (high - low > 1) lines.push(`M${low},${sum - low}L${high},${sum - high}`);
  }
  return lines.join('');
}

/** Place a reading by the number that is written beside the drawing; null where there is none. */
const place = (text, limit, good, post) => {
  const value = Number.parseFloat(text);
  const line = Number.parseFloat(limit);
  return Number.isNaN(value) || Number.isNaN(line) ? null : { value, line, good, post };
};

const insectsAt = ({ value, line, good, post }) => good + (line ? value / line : 1) * (post - good);
const setAt = ({ value, line, good, post }) =>
  good + (line < 100 ? (100 - value) / (100 - line) : 1) * (post - good);

/** The dot; where the axis ends before it, a wedge that points on. */
function reading(x, { way, stop }) {
  if (way * (stop - x) < 9) {
    const tip = stop - way * 4;
    const base = tip - way * 13;
    return svg`<polygon class="qw-reading" points="${base},${AXIS - 9} ${tip},${AXIS} ${base},${AXIS + 9}"></polygon>`;
  }
  return svg`<circle cx=${x} cy=${AXIS} r="6.5" class="qw-reading"></circle>`;
}

function flag(post, text, way) {
  const wide = 15 + text.length * 9.2;
  const far = post - way * wide;
  return svg`
    <polygon class="qw-ink" points="${post},3 ${far},3 ${far + way * 6},14 ${far},25 ${post},25"></polygon>
    <text class="qw-words qw-on-ink qw-middle flag-words" x=${(post + far + way * 6) / 2} y="19.5">${text}</text>`;
}

function side({ text, limit, good, post, at, ...axis }) {
  const found = place(text, limit, good, post);
  return svg`
    <path class=${found ? 'qw-axis' : 'qw-unseen'} d="M${good},${AXIS}H${post}"></path>
    <path class="qw-axis" d="M${good},${AXIS - 6}V${AXIS + 6}"></path>
    <rect class="qw-ink" x=${post - 2} y="3" width="4" height="59"></rect>
    ${flag(post, limit, axis.way)}
    ${found ? reading(at(found), axis) : nothing}`;
}

/** Two bare posts: no line is in force. */
const bare = svg`<path class="qw-unseen" d="M${LEFT},${AXIS}H${INSECTS_POST}M${SET_POST},${AXIS}H${RIGHT}"></path>
  ${[INSECTS_POST, SET_POST].map((x) => svg`<rect class="qw-ink" x=${x - 2} y=${TOP} width="4" height="30"></rect>`)}`;

function drawn({ per100, line, setText, floor }) {
  if (line === null) return bare;
  const insects = { text: per100, limit: line, good: LEFT, post: INSECTS_POST, way: 1, at: insectsAt };
  if (floor === null) return svg`<path class="qw-hatch" d=${FROM_INSECTS}></path>${side({ ...insects, stop: RIGHT })}`;
  const set = { text: setText, limit: floor, good: RIGHT, post: SET_POST, way: -1, at: setAt };
  return svg`<path class="qw-hatch" d=${BETWEEN}></path><path class="qw-unseen" d="M${MIDDLE},${TOP}V${BOTTOM}"></path>
    ${side({ ...insects, stop: MIDDLE })}${side({ ...set, stop: MIDDLE })}`;
}

/** Draw where both measures stand. What is not known has no dot. */
export function tallyPinch(tally) {
  return svg`<svg class="pinch" viewBox="0 0 200 64" aria-hidden="true">${drawn(tally)}</svg>`;
}
