/** Small signs beside words; each is one path in the colour of the words. */
import { svg } from '../vendor/lit-html.js';

const PATHS = {
  back: 'M15,4L7,12L15,20',
  on: 'M9,4L17,12L9,20',
  check: 'M4,13L9.5,18.5L20,6',
  get: 'M12,3V14M7,9.5L12,14.5L17,9.5M4,20H20',
  undo: 'M8.5,4L4,8.5L8.5,13M4.5,8.5H14.5A5.25,5.25 0 0 1 14.5,19H9',
  closed: 'M12,3A9,9 0 1 0 12,21A9,9 0 1 0 12,3M5.8,5.8L18.2,18.2',
  old: 'M12,3A9,9 0 1 0 12,21A9,9 0 1 0 12,3M12,7.5V12.5L15.5,15',
  open: 'M4,4H20V20H4ZM4,12H20M12,4V20',
  bare: 'M8,4V20M16,4V20',
  less: 'M5,12H19',
  more: 'M5,12H19M12,5V19',
  note: 'M4,20L5,15.5L16.5,4L20,7.5L8.5,19ZM14,6.5L17.5,10',
  look: 'M12,3.5L22,20.5H2ZM12,10V14.2M12,17.2V17.3',
};

export function icon(name) {
  return svg`<svg class="icon" viewBox="0 0 24 24" aria-hidden="true"><path d=${PATHS[name]}></path></svg>`;
}

/** A dashed ring: not confirmed yet. */
export function dashedRing() {
  return svg`<svg class="icon" viewBox="0 0 24 24" aria-hidden="true">
    <circle cx="12" cy="12" r="9" stroke-dasharray="4.4 2.67"></circle>
  </svg>`;
}
