/** May I stop? What the counts say so far, and what is still missing. */
import { html, nothing } from '../vendor/lit-html.js';
import { tallyPinch } from '../drawings/tally.js';
import { walkedBar } from '../drawings/progress.js';
import { common, standing as words } from '../words.js';
import { frame, mainButton, sideButton } from './frame.js';
import { figure } from './measures.js';
import { outcomes } from './outcomes.js';
import { quartersStrip } from './quarters.js';

function figures(view) {
  return html`<div class="figures">
    ${figure(view.per100, {
      unit: common.insectsPer100,
      line: view.line === null ? '' : common.line(view),
      side: view.per100 === '–' ? '' : words.sides.insects[view.insectSide],
      cls: view.insectSide === 'over' ? 'past' : '',
    })}
    ${figure(view.setText, {
      unit: common.squareSet,
      line: view.floor === null ? '' : common.floor(view),
      side: words.sides.squares[view.squareSide],
      cls: ['under', 'well-under'].includes(view.squareSide) ? 'end past' : 'end',
    })}
  </div>`;
}

function foot(view, act) {
  return view.full
    ? html`${sideButton(words.goOn, () => act.back())}${mainButton(words.finish, () => act.finish())}`
    : html`${sideButton(words.stop, () => act.finish())}${mainButton(words.goOn, () => act.back())}`;
}

export function standing(view, act) {
  return frame(view, {
    name: 'standing',
    title: words.title,
    subtitle: words.after({ field: view.field, count: view.plants }),
    back: { act: () => act.back() },
    strips: view.quarters ? quartersStrip(view.quarters) : nothing,
    body: html`
      <div class="wide-pinch">${tallyPinch(view)}</div>
      ${figures(view)}
      <section class="verdict-part">
        <h2>${view.title}</h2>
        ${view.words.map((line) => html`<p>${line}</p>`)}
        <div class="bar" role="img" aria-label=${words.bar(view)}>${walkedBar(view.checked, view.fullWalk ?? 100)}
          <p aria-hidden="true"><b>${words.checked({ count: view.checked })}</b><span>${view.fullWalk ?? 100}</span></p></div>
        <h3>${view.lean ? words.leaning : words.noLean}</h3>
        ${view.lean ? outcomes(view.lean, { filled: false }) : nothing}
      </section>`,
    foot: foot(view, act),
  });
}
