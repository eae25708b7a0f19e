/** The quarter mark: a square with its own corner filled. */
import { svg } from '../vendor/lit-html.js';

const CORNER = { NW: [1.5, 1.5], NE: [12, 1.5], SW: [1.5, 12], SE: [12, 12] };

export function quarterMark(quadrant) {
  const [x, y] = CORNER[quadrant];
  return svg`<svg class="quarter-mark" viewBox="0 0 24 24" aria-hidden="true">
    <rect x=${x} y=${y} width="10.5" height="10.5" class="qw-ink"></rect>
    <path d="M12,1.5V22.5M1.5,12H22.5M1.5,1.5H22.5V22.5H1.5Z" class="qw-square"></path>
  </svg>`;
}
