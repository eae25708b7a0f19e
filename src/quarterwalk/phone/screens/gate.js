/** At the gate, before the first plant: may anybody go in? */
import { html, nothing } from '../vendor/lit-html.js';
import { icon } from '../drawings/icon.js';
import { sketch } from '../drawings/sketch.js';
import { gate as words } from '../words.js';
import { frame, list, mainButton, section, sideButton } from './frame.js';

const stop = (first, then) =>
  html`<div class="stop-panel">${icon('closed')}<div><h2>${first}</h2><p>${then}</p></div></div>`;

const caution = (text) => html`<p class="caution">${icon('look')}<span>${text}</span></p>`;

function asked(view) {
  if (view.sign) return stop(words.stay, words.stayHow);
  if (view.closed) return stop(view.closed, words.closedHow);
  return html`<div class="question">
    ${view.old
      ? html`<p class="old-card">${icon('old')}
          <span>${words.oldCard({ age: view.cardAge })} <b>${words.callFirst}</b></span></p>`
      : nothing}
    <h2>${view.question || words.question}</h2>
    <p>${words.lookFirst}</p>
  </div>`;
}

function answers(view, act) {
  if (view.sign || view.closed) return mainButton(words.toDay, () => act.back());
  const sign = sideButton(words.sign, () => act.answerSign());
  return view.old
    ? html`${sign}${mainButton(words.called, () => act.calledOffice())}`
    : html`${sign}${mainButton(words.nothing, () => act.answerNothing())}`;
}

export function gate(view, act) {
  const shut = view.sign || view.closed;
  return frame(view, {
    name: 'gate',
    title: view.field,
    subtitle: words.subtitle,
    back: { act: () => act.back() },
    body: html`
      ${asked(view)}
      ${view.warnings.map(caution)}
      ${section(words.care, list(view.care, 'care'))}
      ${shut
        ? nothing
        : html`
            ${section(words.counts, view.sites ? html`<p>${view.sites}</p>` : nothing)}
            ${section(words.rule, view.rule ? html`<p>${view.rule}</p>` : nothing)}
            ${view.sketch ? section(words.way, html`<div class="sketch">${sketch(view.sketch, 1)}</div>`) : nothing}`}`,
    foot: answers(view, act),
  });
}
