/** Pair this phone with an office, once, by a code. */
import { html, nothing } from '../vendor/lit-html.js';
import { icon } from '../drawings/icon.js';
import { pair as words } from '../words.js';
import { frame, mainButton } from './frame.js';

const caution = (first, then) =>
  html`<p class="caution">${icon('look')}<span><b>${first}</b> ${then}</span></p>`;

function storageCaution({ standalone, storage }) {
  if (storage.ios && !standalone) return caution(words.homeFirst, words.homeHow);
  if (storage.persisted === false) return caution(words.notKept, words.notKeptHow);
  return nothing;
}

export function pair(view, act) {
  const asked = (event) => {
    event.preventDefault();
    act.pair(event.target.elements.code.value, event.target.elements.label.value);
  };
  return frame(view, {
    name: 'pair',
    title: words.title,
    subtitle: words.subtitle,
    body: html`
      ${storageCaution(view)}
      <form id="pair" class="form" novalidate @submit=${asked}>
        <p class="lead"><b>${words.how}</b> ${words.after}</p>
        <label class="field"><span>${words.code}</span>
          <input class="code-input" name="code" type="text" autocomplete="one-time-code" autocapitalize="characters"
            spellcheck="false" enterkeyhint="next" maxlength="12" aria-describedby=${view.fault ? 'pair-fault' : nothing}
            aria-invalid=${view.fault ? 'true' : nothing}
            .value=${view.code} @input=${(event) => act.setCode(event.target.value)}></label>
        ${view.fault
          ? html`<p class="fault" id="pair-fault" role="alert">${icon('look')}<span>${view.fault}</span></p>`
          : nothing}
        <label class="field"><span>${words.label}</span>
          <input name="label" type="text" autocomplete="off" maxlength="80" aria-describedby="label-hint"></label>
        <p class="hint" id="label-hint">${words.labelHint}</p>
      </form>`,
    foot: mainButton(view.busy ? words.busy : words.act, undefined, { still: view.busy, form: 'pair' }),
  });
}
