/** Once a quarter: what the squares, the ground and the plants look like there. */
import { html } from '../vendor/lit-html.js';
import { note as words } from '../words.js';
import { frame, mainButton, sideButton } from './frame.js';
import { stepButton } from './steppers.js';

const PLANTS = 5;
const MOST_BRANCHES = 30;

/** A question with its answers beside each other; a second tap takes the answer back. */
function question(key, legend, answers, chosen, act) {
  return html`<fieldset class="asked"><legend>${legend}</legend><div class="answers">${answers.map(
    ([value, label]) => html`<button type="button" class="answer" aria-pressed=${value === chosen ? 'true' : 'false'}
      @click=${() => act.set(key, value === chosen ? null : value)}>${label}</button>`,
  )}</div></fieldset>`;
}

const entries = (named) => Object.entries(named);

function branches(counts, act) {
  const shown = Array.from({ length: PLANTS }, (_, i) => counts[i] ?? null);
  const put = (at, count) => act.set('branches', shown.map((each, i) => (i === at ? count : each)));
  return html`<fieldset class="asked"><legend>${words.branches}</legend>${shown.map(
    (count, i) => html`<div class="branch-step" role="group" aria-label=${words.onPlant({ plant: i + 1 })}>
      <span class="branch-plant">${words.onPlant({ plant: i + 1 })}</span>
      ${stepButton(words.fewer({ plant: i + 1 }), 'less', () => put(i, Math.max(0, (count ?? 0) - 1)), count === 0)}
      <output>${count === null
        ? html`<b aria-hidden="true">–</b><span class="heard">${words.notCounted}</span>`
        : html`<b>${count}</b>`}</output>
      ${stepButton(words.more({ plant: i + 1 }), 'more', () => put(i, (count ?? 0) + 1), count === MOST_BRANCHES)}
    </div>`,
  )}</fieldset>`;
}

export function note(view, act) {
  return frame(view, {
    name: 'note',
    title: words.title(view),
    subtitle: words.subtitle(view),
    back: { act: () => act.later() },
    body: html`<div class="form">
      ${question('lost', words.lost, entries(words.lostAre), view.lost, act)}
      ${question('water', words.water, [[true, words.waterIs.true], [false, words.waterIs.false]], view.water, act)}
      ${question('otherPests', words.pests, entries(words.pestsAre), view.otherPests, act)}
      ${branches(view.branches, act)}
      <label class="field"><span>${words.text}</span>
        <textarea rows="3" maxlength="500" .value=${view.text ?? ''}
          @input=${(event) => act.set('text', event.target.value)}></textarea></label>
    </div>`,
    foot: html`${sideButton(words.later, () => act.later())}${mainButton(words.save, () => act.save())}`,
  });
}
