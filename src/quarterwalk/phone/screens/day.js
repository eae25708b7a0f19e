/** What to do next: today's fields in visiting order, and whether each is on this phone. */
import { html, nothing } from '../vendor/lit-html.js';
import { icon } from '../drawings/icon.js';
import { common, day as words } from '../words.js';
import { frame, mainButton, plainButton, sideButton } from './frame.js';
import { verdictWord } from './outcomes.js';

const SIGN = {
  ready: 'check',
  'not-on-phone': 'get',
  closed: 'closed',
  'no-card': 'bare',
  'old-card': 'old',
  'open-walk': 'open',
  walked: 'check',
};
const HEAVY = new Set(['not-on-phone', 'closed', 'old-card', 'open-walk', 'no-card']);

function stateLine({ state, stateWords, onPhone }) {
  const said = stateWords || (state === 'ready' ? words.onPhone : '');
  const away = state === 'not-on-phone' || (!onPhone && state !== 'no-card');
  return html`
    ${away
      ? html`<span class="state not-on-phone">
          ${icon('get')}<span><b>${words.notOnPhone}</b> ${words.getIt}</span>
        </span>`
      : nothing}
    ${said && state !== 'not-on-phone'
      ? html`<span class="state is-${state}">
          ${icon(SIGN[state])}<span class=${HEAVY.has(state) ? 'heavy' : nothing}>${said}</span>
        </span>`
      : nothing}`;
}

function row(field, { number, next, act }) {
  return html`<li class="field-row">
    <button type="button" class="field-button" @click=${() => act.open(field.id)}>
      <span class="field-number" aria-hidden="true">${number}</span>
      <span class="field-words">
        <span class="field-first"><b class="field-name">${field.name}</b>
          ${field.last ? verdictWord(field.last) : nothing}</span>
        <span class="field-whose">${[field.grower, field.stage].filter(Boolean).join(' · ')}</span>
        ${field.due ? html`<b class="field-due">${words.due({ due: field.due })}</b>` : nothing}
        ${stateLine(field)}
      </span>
      <span class="field-on">${next ? html`<span class="heard">${words.next}</span>` : nothing}${icon('on')}</span>
    </button>
  </li>`;
}

function foot(view, act) {
  const { next, fetch, canFetch } = view;
  const label = fetch.busy ? words.getting : words.get({ count: fetch.needed });
  const still = fetch.busy || !canFetch;
  const name = fetch.busy ? words.getting : words.getLabel({ count: fetch.needed });
  const get = fetch.needed || fetch.busy;
  if (next) {
    return html`${get ? sideButton(label, () => act.fetch(), { still, name, sign: icon('get') }) : nothing}
      ${mainButton(next.label, () => act.open(next.id))}`;
  }
  return mainButton(get ? name : words.again, () => act.fetch(), { still });
}

export function day(view, act) {
  return frame(view, {
    name: 'day',
    title: view.title,
    subtitle: [view.subtitle, view.person].filter(Boolean).join(' · '),
    aside: html`<button type="button" class="head-act aside" @click=${() => act.phone()}>
      <span>${words.phone}</span>
      ${view.unsent ? html`<span>${common.unsent({ count: view.unsent })}</span>` : nothing}
    </button>`,
    body: html`
      ${view.warnings.map((each) => html`<p class="caution">${icon('look')}<span>${each}</span></p>`)}
      ${view.fetch.fault
        ? html`<p class="fault" role="status">${icon('look')}<span>${view.fetch.fault}</span></p>`
        : nothing}
      <h2 class="heard">${words.list}</h2>
      ${view.fields.length
        ? html`<ol class="field-list">${view.fields.map((field, i) =>
            row(field, { number: i + 1, next: view.next?.id === field.id, act }))}</ol>`
        : html`<p class="empty"><b>${words.none}</b> ${words.noneHow}</p>`}
      ${view.canFetch ? nothing : html`<p class="quiet pad">${words.noSignal}</p>`}
      ${view.fetch.at ? html`<p class="quiet pad">${words.fetched({ at: view.fetch.at })}</p>` : nothing}
      ${view.next && view.canFetch && !view.fetch.needed && !view.fetch.busy
        ? html`<div class="pad">${plainButton(words.again, () => act.fetch(), { sign: icon('get') })}</div>` : nothing}`,
    foot: foot(view, act),
  });
}
