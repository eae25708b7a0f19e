/** The marks of the outcomes: apart, touching, together, and two bare posts. */
import { nothing, svg } from '../vendor/lit-html.js';

const APART =
  'M-27,0C-24.76,-3.5 -23,-7 -19,-7C-15,-7 -13.24,-3.5 -11,0C-13.24,3.5 -15,7 -19,7C-23,7 -24.76,3.5 -27,0Z' +
  'M11,0C13.24,-3.5 15,-7 19,-7C23,-7 24.76,-3.5 27,0C24.76,3.5 23,7 19,7C15,7 13.24,3.5 11,0Z';
const TOUCHING =
  'M-22,0C-18.92,-4.5 -16.5,-9 -11,-9C-5.5,-9 -3.08,-4.5 0,0C-3.08,4.5 -5.5,9 -11,9C-16.5,9 -18.92,4.5 -22,0Z' +
  'M0,0C3.08,-4.5 5.5,-9 11,-9C16.5,-9 18.92,-4.5 22,0C18.92,4.5 16.5,9 11,9C5.5,9 3.08,4.5 0,0Z';
const INNER =
  'M-8,-8.48C-4.49,-7.17 -2.45,-3.59 0,0C-2.45,3.59 -4.49,7.17 -8,8.48Z' +
  'M0,0C2.45,-3.59 4.49,-7.17 8,-8.48L8,8.48C4.49,7.17 2.45,3.59 0,0Z';
const TOGETHER =
  'M-25,0C-18,-7 -12.5,-14 0,-14C12.5,-14 18,-7 25,0C18,7 12.5,14 0,14C-12.5,14 -18,7 -25,0Z';

const posts = (apart, onInk) =>
  [-apart, apart].map(
    (x) => svg`<rect x=${x - 1.25} y="-13" width="2.5" height="26" class=${onInk ? 'qw-blank' : 'qw-ink'}></rect>`,
  );

const drawn = {
  hold: (onInk) => svg`<path d=${APART} class=${onInk ? 'qw-paper-line' : 'qw-hold-line'}></path>${posts(9, onInk)}`,
  'look-sooner': (onInk) => svg`
    <path d=${INNER} class=${onInk ? 'qw-blank' : 'qw-near'}></path>
    <path d=${TOUCHING} class=${onInk ? 'qw-paper-line' : 'qw-near-line'}></path>${posts(11, onInk)}`,
  treat: (onInk) => svg`<path d=${TOGETHER} class=${onInk ? 'qw-blank' : 'qw-treat'}></path>`,
  none: (onInk) => posts(9, onInk),
};

/** Draw the mark of a verdict; the word always stands beside it, so it says nothing itself. */
export function outcomeMark(verdict, { onInk = false } = {}) {
  const draw = drawn[verdict];
  if (!draw) return nothing;
  return svg`<svg class="mark" viewBox="-30 -15 60 30" aria-hidden="true">${draw(onInk)}</svg>`;
}
