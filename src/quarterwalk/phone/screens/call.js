/** The word, then why: the phone's own leaning first, the office's call when it is there. */
import { html, nothing } from '../vendor/lit-html.js';
import { dashedRing, icon } from '../drawings/icon.js';
import { tallyPinch } from '../drawings/tally.js';
import { call as words, common } from '../words.js';
import { frame, list, mainButton, section, sideButton } from './frame.js';
import { figure } from './measures.js';
import { outcomes } from './outcomes.js';

const firm = (office) => office !== null && !office.provisional;

/** Whose word this is; until the office has spoken, that it is to be confirmed is never missing. */
function band(view) {
  const state = view.state && view.state !== words.unconfirmed ? view.state : '';
  if (firm(view.office)) {
    return html`<p class="band firm">${icon('check')}<span><b>${words.office}</b> ${state}</span></p>`;
  }
  return html`<p class="band">${dashedRing()}<span><b>${view.office && !state ? words.provisional : words.unconfirmed}</b>
    ${state}</span></p>`;
}

function ofOffice(office) {
  const facts = [
    [words.sure, words.sureness[office.sure]],
    [words.again, office.again.length ? list(office.again) : null],
  ].filter(([, said]) => said);
  return html`
    ${outcomes(office.verdict, { filled: firm(office), word: office.words })}
    <section class="part headline"><h2 class="large">${office.headline}</h2>
      ${list([office.insects, office.squares, ...(office.lacking ?? [])].filter(Boolean), 'plain')}</section>
    ${facts.length
      ? html`<dl class="facts">${facts.map(([what, said]) => html`<div><dt>${what}</dt><dd>${said}</dd></div>`)}</dl>`
      : nothing}
    ${section(words.care, list(office.care, 'care'))}
    ${section(words.why, office.reasons.length
      ? html`<ol class="lines numbered">${office.reasons.map((each) => html`<li>${each}</li>`)}</ol>` : nothing)}
    ${section(words.guideline, html`<p>${office.guideline}</p><p>${words.whoDecides}</p>`)}`;
}

function ofPhone(own) {
  return html`
    <section class="part"><h2>${own.lean ? words.own : words.noLean}</h2>
      ${own.lean ? outcomes(own.lean, { filled: false }) : nothing}</section>
    ${own.per100 === undefined ? nothing : html`<div class="wide-pinch">${tallyPinch(own)}</div>
      <div class="figures">
        ${figure(own.per100, { unit: common.insectsPer100, line: own.line === null ? '' : common.line(own) })}
        ${figure(own.setText, { unit: common.squareSet, line: own.floor === null ? '' : common.floor(own), cls: 'end' })}
      </div>`}
    ${list(own.words ?? [], 'plain pad')}
    ${section(words.care, list(own.care ?? [], 'care'))}`;
}

function noteForm(act) {
  const saved = (event) => {
    event.preventDefault();
    act.addNote(event.target.elements.text.value);
    event.target.reset();
  };
  return html`<form class="form" novalidate @submit=${saved}>
    <label class="field"><span>${words.note}</span><textarea name="text" rows="2" maxlength="2000"></textarea></label>
    <button type="submit" class="plain-button">${icon('note')}<span>${words.addNote}</span></button>
  </form>`;
}

export function call(view, act) {
  return frame(view, {
    name: 'call',
    title: view.field,
    subtitle: view.when,
    strips: band(view),
    body: html`
      ${view.office ? ofOffice(view.office) : ofPhone(view.own)}
      <p class="state pad">
        ${icon(view.sent ? 'check' : 'old')}<span>${view.sent ? words.sent : words.notSent}</span>
      </p>
      ${noteForm(act)}`,
    foot: html`${sideButton(words.reopen, () => act.reopen())}${mainButton(words.done, () => act.done())}`,
  });
}
