/** The next tap: one plant, counted and saved. */
import { html, nothing } from '../vendor/lit-html.js';
import { icon } from '../drawings/icon.js';
import { drawnPlant } from '../drawings/plant.js';
import { plant as words } from '../words.js';
import { frame, mainButton, plainButton, sideButton } from './frame.js';
import { tallyStrip } from './measures.js';
import { quartersStrip } from './quarters.js';
import { insectStepper, squaresAsk, squaresStepper } from './steppers.js';

const SKIPS = ['hailed', 'cut-off', 'no-plant', 'other'];

function tally(view, act) {
  return html`<button type="button" class="tally" @click=${() => act.standing()}>
    ${tallyStrip(view.tally)}
    <span class="tally-words"><span>${view.standingWords}</span><span class="heard">${words.standing}</span>${icon('on')}</span>
  </button>`;
}

function middle(view, act, still) {
  const unasked = view.squaresAsked && view.entry.squares === null;
  return html`
    ${view.squaresAsked
      ? unasked ? squaresAsk(view, act, still) : squaresStepper(view.entry.squares.length, act, still)
      : html`<p class="squares no-count">${words.noCount}</p>`}
    <div class="middle" tabindex="-1">
      ${unasked ? nothing : drawnPlant(view.entry, { act, still })}
      ${others(view, act, still)}
    </div>`;
}

function others(view, act, still) {
  const skip = (why) => (event) => {
    event.currentTarget.closest('details').open = false; // the next plant is asked nothing yet
    act.skip(why);
  };
  return html`<div class="others">
    <details @toggle=${({ currentTarget: opened }) => opened.open && opened.scrollIntoView({ block: 'end' })}><summary>${words.other}</summary>
      <div class="choices">${SKIPS.map((why) => plainButton(words.skip[why], skip(why), { still }))}</div>
    </details>
    ${plainButton(words.note({ quadrant: view.quadrant }), () => act.note(), { still })}
  </div>`;
}

function saveButton(view, act, still) {
  if (view.readOnly) return mainButton(words.readOnly, undefined, { sub: words.readOnlyHow, still: true });
  if (view.busy) return mainButton(words.saving, undefined, { sub: view.writes, still: true });
  if (view.squaresAsked && view.entry.squares === null) {
    return mainButton(words.howMany, undefined, { sub: words.count, still: true });
  }
  return view.dirty
    ? mainButton(words.save, () => act.save(), { sub: view.writes, still, resting: view.resting })
    : mainButton(words.clean, () => act.clean(), { sub: view.writes, still, resting: view.resting, kind: 'clean' });
}

export function plant(view, act) {
  const still = view.readOnly || view.busy;
  return frame(view, {
    name: 'plant',
    title: words.title({ plant: view.plantNo }),
    subtitle: html`${words.place({ quadrant: view.quadrant, number: view.inQuadrant, of: view.ofQuadrant })} ·
      ${view.newStop ? html`<b>${words.newStop} ${view.stop}</b>` : words.stop({ stop: view.stop })}`,
    back: { act: () => act.leave(), label: words.leave },
    aside: html`<button type="button" class="head-act aside" @click=${() => act.where()}>${words.where}</button>`,
    strips: html`${quartersStrip(view.quarters)}${tally(view, act)}`,
    body: middle(view, act, still),
    foot: html`
      <p class="heard" aria-live="polite">${words.saved(view.tally)}</p>
      <div class="insects">
        ${insectStepper('adult', view.entry.adults, (by) => act.adults(by), still)}
        ${insectStepper('nymph', view.entry.nymphs, (by) => act.nymphs(by), still)}
      </div>
      <div class="foot-acts">
        ${sideButton(html`${words.undo}<span class="heard">: ${view.undoWords}</span>`, () => act.undo(), {
          still: still || !view.canUndo, sign: icon('undo') })}
        ${saveButton(view, act, still)}
      </div>`,
  });
}
