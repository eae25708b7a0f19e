/** This phone: what is not sent yet, and how safe it is here. */
import { html, nothing } from '../vendor/lit-html.js';
import { icon } from '../drawings/icon.js';
import { phone as words } from '../words.js';
import { frame, mainButton, plainButton } from './frame.js';

function keeping({ storage }, act) {
  if (storage.ios && !storage.standalone) {
    return html`<p class="caution">${icon('look')}<span><b>${words.home}</b> ${words.homeHow}</span></p>`;
  }
  if (storage.persisted) return html`<p class="state">${icon('check')}<span>${words.persisted}</span></p>`;
  return html`<p class="caution">${icon('look')}<span>${words.notPersisted}</span></p>
    ${plainButton(words.persist, () => act.persist())}`;
}

const facts = (view) => [
  [words.person, view.person],
  [words.district, view.district],
  [words.lastSent, view.lastSent || words.never],
  [words.kept, typeof view.kept === 'number' ? words.keptEntries({ count: view.kept }) : view.kept],
  [words.used, view.storage.used],
  [words.device, view.device],
  [words.version, view.version],
];

export function phone(view, act) {
  return frame(view, {
    name: 'phone',
    title: words.title,
    subtitle: view.person,
    back: { act: () => act.back() },
    body: html`
      <section class="part">
        <h2 class="large">${words.unsent({ count: view.unsent })}</h2>
        ${view.unsent ? html`<p>${words.safe}</p>` : nothing}
        ${view.quarantined
          ? html`<p class="caution">${icon('look')}<span>${words.quarantined({ count: view.quarantined })}</span></p>`
          : nothing}
        ${view.fault ? html`<p class="fault" role="status">${icon('look')}<span>${view.fault}</span></p>` : nothing}
      </section>
      <section class="part"><h2>${words.storage}</h2>${keeping(view, act)}
        ${plainButton(words.saveFile, () => act.saveFile(), { sign: icon('get') })}
        <p class="quiet">${words.saveFileHow}</p></section>
      <dl class="rows">${facts(view).filter(([, said]) => said).map(
        ([what, said]) => html`<div><dt>${what}</dt><dd>${said}</dd></div>`)}</dl>
      <section class="part">
        ${view.unsent ? html`<p>${words.signOutFirst}</p>` : nothing}
        ${plainButton(words.signOut, () => act.signOut())}</section>`,
    foot: mainButton(words.send, () => act.send(), { still: view.unsent === 0 }),
  });
}
