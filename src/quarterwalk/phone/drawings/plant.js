/**
 * The plant: fruiting branches bottom to top, left and right in turn, insects at the terminal.
 * A square is a button half the screen wide; tapping it turns it to its next state.
 */
import { html, nothing, svg } from '../vendor/lit-html.js';
import { SQUARES, plant as words } from '../words.js';
import { adultInsect, nymphInsect } from './insect.js';
import { square } from './square.js';

const MOST_DRAWN = 5;
const LEAF =
  'M0,0C-6,-5 -12,-5 -20,-3C-17,-8 -17,-11 -18,-16C-12,-15 -9,-16 -5,-18C-3,-22 -1,-26 2,-32C6,-25 9,-23 13,-20C18,-20 22,-20 28,-22C26,-17 26,-14 27,-9C20,-8 14,-4 12,2C8,-1 4,-1 0,0Z';
const LEAF_VEINS = 'M0,0L2,-28M0,0L-15,-13M0,0L-16,-3M0,0L24,-19M0,0L23,-9';
const TERMINAL =
  'M0,-44C4,-37 6,-33 9,-29C14,-28 18,-29 25,-31C22,-26 22,-23 23,-17C19,-17 17,-15 16,-11C17,-8 18,-5 18,-1C13,-2 9,-3 6,-5C3,-3 -3,-3 -6,-5C-9,-3 -13,-2 -18,-1C-18,-5 -17,-8 -16,-11C-17,-15 -19,-17 -23,-17C-22,-23 -22,-26 -25,-31C-18,-29 -14,-28 -9,-29C-6,-33 -4,-37 0,-44Z';
const TERMINAL_VEINS = 'M0,-5V-38M0,-7L19,-26M0,-7L-19,-26M0,-7L16,-7M0,-7L-16,-7';

const stem = svg`<svg class="stem" viewBox="0 0 24 40" preserveAspectRatio="none" aria-hidden="true">
  <path class="wood" d="M7,40L17,0"></path></svg>`;
const topStem = svg`<svg class="stem" viewBox="0 0 24 40" preserveAspectRatio="none" aria-hidden="true">
  <path class="wood" d="M7,40L12,0"></path></svg>`;
const branch = svg`<svg class="branch" viewBox="0 0 64 32" aria-hidden="true">
  <path class="wood twig" d="M-2,28C22,29 44,27 63,21"></path></svg>`;
const leaf = svg`<svg class="leaf" viewBox="-24 -36 56 44" aria-hidden="true">
  <path class="wood petiole" d="M-24,6L0,0"></path>
  <path class="blade" d=${LEAF}></path><path class="blade-vein" d=${LEAF_VEINS}></path></svg>`;
const terminal = svg`<svg class="terminal" viewBox="-28 -46 56 62" aria-hidden="true">
  <path class="wood" d="M0,18V-6"></path>
  <path class="bud" d=${TERMINAL}></path><path class="blade-vein" d=${TERMINAL_VEINS}></path></svg>`;

function swarm(count, draw, side) {
  const drawn = Math.min(count, MOST_DRAWN);
  return html`<span class="swarm ${side}">${Array.from({ length: drawn }, draw)}${
    count > drawn ? html`<b>×${count}</b>` : nothing
  }</span>`;
}

function site({ state }, number, { act, still, top }) {
  return html`<li class=${number % 2 ? 'limb left' : 'limb right'}>
    ${top ? topStem : stem}${branch}${leaf}
    <button type="button" class="site ${state}" ?disabled=${still}
      aria-label=${words.branch({ branch: number, state })} @click=${() => act.cycle(number - 1)}>
      ${square(state)}<span class="site-word">${SQUARES[state]}</span>
    </button>
  </li>`;
}

/** Draw a plant from its terminal down; its first branch is the lowest. */
export function drawnPlant({ adults, nymphs, squares }, { act, still }) {
  const limbs = (squares ?? [])
    .map((each, i, all) => site(each, i + 1, { act, still, top: i === all.length - 1 }))
    .reverse();
  return html`<div class="plant" aria-hidden=${limbs.length ? nothing : 'true'}>
    <div class="top">${swarm(adults, adultInsect, 'left')}${terminal}${swarm(nymphs, nymphInsect, 'right')}</div>
    ${limbs.length ? html`<ol class="limbs" reversed>${limbs}</ol>` : nothing}
    <div class="foot-of-plant">${limbs.length ? stem : topStem}</div>
  </div>`;
}
