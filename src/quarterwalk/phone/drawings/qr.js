/** A code for the other phone's camera, black on white with its quiet margin. */
import { svg } from '../vendor/lit-html.js';

const MARGIN = 4;

const runs = (row, y) =>
  row.map((dark, x) => (dark ? `M${x + MARGIN},${y + MARGIN}h1v1h-1z` : '')).join('');

export function qrCode({ size, rows }, label) {
  const whole = size + 2 * MARGIN;
  return svg`<svg class="qr" viewBox="0 0 ${whole} ${whole}" role="img" aria-label=${label} shape-rendering="crispEdges">
    <rect width=${whole} height=${whole} fill="#FFFFFF"></rect>
    <path d=${rows.map(runs).join('')} fill="#000000"></path>
  </svg>`;
}
