/** Which way to go: the sketch with the current stop ringed, and one sentence. */
import { html, nothing } from '../vendor/lit-html.js';
import { sketch } from '../drawings/sketch.js';
import { where as words } from '../words.js';
import { frame, mainButton } from './frame.js';

export function where(view, act) {
  return frame(view, {
    name: 'where',
    title: words.title({ stop: view.current }),
    subtitle: words.place(view),
    back: { act: () => act.back() },
    body: html`
      ${view.svg
        ? html`<div class="sketch">${sketch(view.svg, view.current)}</div>`
        : html`<p class="empty"><b>${words.noSketch}</b> ${words.noSketchHow}</p>`}
      <div class="leg">
        <p class="leg-words">${view.legWords}</p>
        ${view.sunWords.map((line) => html`<p class="sun-words">${line}</p>`)}
        ${view.svg ? html`<p class="quiet">${words.ringed}</p>` : nothing}
      </div>`,
    foot: mainButton(words.at({ stop: view.current }), () => act.back()),
  });
}
