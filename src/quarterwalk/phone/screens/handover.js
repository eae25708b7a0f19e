/** Another scout goes on: with this phone, or with another one. */
import { html, nothing } from '../vendor/lit-html.js';
import { icon } from '../drawings/icon.js';
import { qrCode } from '../drawings/qr.js';
import { handover as words } from '../words.js';
import { frame, list, mainButton, plainButton } from './frame.js';

function otherPhone({ qr, code, link }, act) {
  if (!qr) return html`<p>${words.otherHow}</p>${plainButton(words.show, () => act.onOtherPhone(), { sign: icon('on') })}`;
  return html`<p><b>${words.scan}</b></p>
    <div class="qr-frame">${qrCode(qr, words.qr)}</div>
    ${code ? html`<p>${words.orType} <b class="typed-code">${code}</b></p>` : nothing}
    ${link ? html`<p class="quiet link">${link}</p>` : nothing}`;
}

function whoGoesOn({ scouts }, act) {
  return scouts.length
    ? html`<div class="choices">${scouts.map(({ id, name }) => plainButton(name, () => act.to(id), { sign: icon('on') }))}</div>`
    : html`<p>${words.alone}</p>`;
}

export function handover(view, act) {
  return frame(view, {
    name: 'handover',
    title: words.title,
    subtitle: view.field,
    back: { act: () => act.back() },
    body: view.to
      ? html`<section class="part"><h2 class="large">${words.goesOn({ name: view.to })}</h2>
          <p>${words.goesOnHow({ name: view.to })}</p>${list(lines(view.counts))}</section>`
      : html`
          <section class="part"><h2 class="large">${words.who}</h2>${list(lines(view.counts))}</section>
          ${view.qr ? nothing : html`<section class="part"><h2>${words.same}</h2>${whoGoesOn(view, act)}</section>`}
          <section class="part"><h2>${words.other}</h2>${otherPhone(view, act)}</section>`,
    foot: view.to ? mainButton(words.goOn({ name: view.to }), () => act.back()) : undefined,
  });
}

export const lines = (counts) => (Array.isArray(counts) ? counts : [counts].filter(Boolean));
