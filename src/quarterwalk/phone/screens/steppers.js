/** Buttons that count: one less, one more, and the number between them. */
import { html } from '../vendor/lit-html.js';
import { icon } from '../drawings/icon.js';
import { adultInsect, nymphInsect } from '../drawings/insect.js';
import { plant as words } from '../words.js';

const MOST_SQUARES = 12;
const INSECT = { adult: { draw: adultInsect, word: words.adults }, nymph: { draw: nymphInsect, word: words.nymphs } };

export function stepButton(name, sign, act, still) {
  return html`<button type="button" class="step" aria-label=${name} ?disabled=${still} @click=${act}>${icon(sign)}</button>`;
}

export function insectStepper(what, count, step, still) {
  const { draw, word } = INSECT[what];
  return html`<div class=${count ? 'insect-step counted' : 'insect-step'} role="group" aria-label=${word({ count: 2 })}>
    ${stepButton(words.oneLess({ what }), 'less', () => step(-1), still || count === 0)}
    <output class="insect-count">${draw()}<b>${count}</b><span>${word({ count })}</span></output>
    ${stepButton(words.oneMore({ what }), 'more', () => step(1), still)}
  </div>`;
}

export function squaresStepper(count, act, still) {
  return html`<div class="squares" role="group" aria-label=${words.squares({ count: 2 })}>
    ${stepButton(words.fewer, 'less', () => act.squares(-1), still || count === 0)}
    <output class="squares-count"><b>${count ? words.squares({ count }) : words.noSquares}</b>
      <span>${count ? words.change : ''}</span></output>
    ${stepButton(words.more, 'more', () => act.squares(1), still || count === MOST_SQUARES)}
  </div>`;
}

/** Ask the number afresh: one tap on a number, no number stands there before. */
export function squaresAsk({ newStop }, act, still) {
  return html`<div class="squares-ask">
    <h2 id="how-many">${words.howMany}</h2><p>${newStop ? words.fresh : words.count}</p>
    <div class="numbers" role="group" aria-labelledby="how-many">${Array.from(
      { length: MOST_SQUARES + 1 },
      (_, count) => html`<button type="button" class="number" aria-label=${words.squaresOn({ count })}
        ?disabled=${still} @click=${() => act.squares(count)}>${count}</button>`,
    )}</div>
  </div>`;
}
