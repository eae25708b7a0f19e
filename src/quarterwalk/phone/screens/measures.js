/** The two measures with their lines, in words and as the pinch; large numbers first. */
import { html, nothing } from '../vendor/lit-html.js';
import { tallyPinch } from '../drawings/tally.js';
import { common } from '../words.js';

const known = (text) => text !== '–' && text !== null;
const spoken = (text) => (known(text) ? text : common.noFigure);

/** Number, what it counts, its line; the same words are heard and seen. */
export function figure(text, { unit, line, side, cls = '' }) {
  return html`<p class="figure ${cls}">
    <b class="figure-number" aria-hidden=${known(text) ? nothing : 'true'}>${text}</b>
    ${known(text) ? nothing : html`<span class="heard">${common.noFigure}</span>`}
    <span class="figure-unit">${unit}</span>
    ${line ? html`<span class="heard">${line}</span>` : nothing}
    ${side ? html`<b class="figure-side">${side}</b>` : nothing}
  </p>`;
}

/** The tally of a walk on one strip: insects left, squares right, the pinch between. */
export function tallyStrip(tally) {
  return html`<span class="tally-figures">
    <span class="tally-side"><b>${tally.per100}</b><span>${common.insectsPer100}</span></span>
    ${tallyPinch(tally)}
    <span class="tally-side end"><b>${tally.setText}</b><span>${common.squareSet}</span></span>
    <span class="heard">${tallyHeard(tally)}</span>
  </span>`;
}

function tallyHeard({ per100, line, setText, floor }) {
  const parts = [];
  if (!known(per100) || !known(setText)) parts.push(`${common.insectsPer100}: ${spoken(per100)}`);
  if (line !== null) parts.push(common.line({ line }));
  if (floor !== null) parts.push(common.floor({ floor }));
  return `(${parts.join(', ')})`;
}
