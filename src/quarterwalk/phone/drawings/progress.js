/** Progress: five boxes a quarter, one a stop of five plants; a bar for the whole walk. */
import { svg } from '../vendor/lit-html.js';

/** Draw the stops of a quarter; the one walked now stands taller. */
export function boxes(stops, current) {
  const tall = current ? 15 : 11;
  return svg`<svg class="boxes" viewBox="0 0 80 17" preserveAspectRatio="none" aria-hidden="true">
    ${stops.map(
      (done, i) => svg`<rect x=${1 + i * 16} y=${16 - tall} width="13" height=${tall} rx="1"
        class=${done ? 'box box-done' : 'box'}></rect>`,
    )}
  </svg>`;
}

/** Draw how far the walk is, in pieces of five plants. */
export function walkedBar(checked, full) {
  const pieces = Math.ceil(full / 5);
  const width = 320 / pieces;
  return svg`<svg class="walked" viewBox="-1 -1 322 22" preserveAspectRatio="none" aria-hidden="true">
    <rect x="0" y="0" width=${Math.min(checked / full, 1) * 320} height="20" class="qw-ink"></rect>
    ${Array.from(
      { length: pieces - 1 },
      (_, i) => svg`<path d="M${(i + 1) * width},0V20" class=${(i + 1) * 5 < checked ? 'tick tick-on' : 'tick'}></path>`,
    )}
    <rect x="0" y="0" width="320" height="20" class="box"></rect>
  </svg>`;
}
