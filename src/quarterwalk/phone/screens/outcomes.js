/** Hold, look sooner, treat: always in this order from left to right. */
import { html, nothing } from '../vendor/lit-html.js';
import { outcomeMark } from '../drawings/mark.js';
import { OUTCOMES } from '../words.js';

const ORDER = ['hold', 'look-sooner', 'treat'];

/**
 * Show the three outcomes, one of them marked.
 * Only a call of the office is filled; what the phone leans to is outlined.
 */
export function outcomes(verdict, { filled, word = OUTCOMES[verdict] ?? OUTCOMES.none }) {
  const shown = ORDER.includes(verdict) ? ORDER : [...ORDER, 'none'];
  const marked = ORDER.includes(verdict) ? verdict : 'none';
  return html`<ul class="outcomes">${shown.map((each) =>
    each === marked
      ? html`<li class="outcome marked ${each} ${filled ? 'filled' : 'outlined'}" aria-current="true">
          ${outcomeMark(each, { onInk: filled && each !== 'none' })}<b>${word}</b></li>`
      : html`<li class="outcome ${each}">${outcomeMark(each)}<span>${OUTCOMES[each]}</span></li>`,
  )}</ul>`;
}

/** A mark with its word, for a list. */
export function verdictWord({ verdict, words }) {
  return html`<span class="verdict ${verdict}">${outcomeMark(verdict)}<b>${words || OUTCOMES[verdict]}</b></span>`;
}
