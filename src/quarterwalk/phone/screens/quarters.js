/** How far each quarter is walked, in walking order. */
import { html, nothing } from '../vendor/lit-html.js';
import { boxes } from '../drawings/progress.js';
import { quarterMark } from '../drawings/quarter.js';
import { plant as words } from '../words.js';

const doneOf = (stops) => stops.filter(Boolean).length;

function quarter({ quadrant, checked, stops, current }) {
  return html`<li class=${current ? 'quarter current' : 'quarter'} aria-current=${current ? 'step' : nothing}>
    <span class="quarter-line" aria-hidden="true">
      ${quarterMark(quadrant)}<span>${quadrant}</span><span class="quarter-count">${checked}</span>
    </span>
    ${boxes(stops, current)}
    <span class="heard">${words.quarter({ quadrant, checked, done: doneOf(stops) })}${
      current ? `, ${words.here}` : ''}</span>
  </li>`;
}

export const quartersStrip = (quarters) =>
  html`<ul class="quarters" aria-label=${words.quarters}>${quarters.map(quarter)}</ul>`;
