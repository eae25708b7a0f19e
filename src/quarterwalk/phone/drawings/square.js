/** A square in each of its states, drawn to stand apart without colour. */
import { svg } from '../vendor/lit-html.js';

const drawn = {
  healthy: svg`
    <path class="bud" d="M24,3L26.6,9.6C28.6,8.4 29.8,6.6 30.6,4.8L33,10.6C35,10.4 36.6,9.6 37.8,8.4C42.4,13.4 44,20.4 44,26.6C44,37.4 36.4,44 24,44S4,37.4 4,26.6C4,20.4 5.6,13.4 10.2,8.4C11.4,9.6 13,10.4 15,10.6L17.4,4.8C18.2,6.6 19.4,8.4 21.4,9.6Z"></path>
    <path class="vein" d="M24,9C18.4,17 18.4,32 24,41M13.4,17C14.4,27 18,35 23,41M34.6,17C33.6,27 30,35 25,41"></path>`,
  missing: svg`
    <path class="ghost" d="M24,5C34,15 40.5,27 39,42H9C7.5,27 14,15 24,5Z"></path>
    <path class="stroke-4" d="M14.5,32H33.5"></path>`,
  blasted: svg`
    <path class="stroke-3" d="M24,44C23.5,34 24,26 24,20C24,6 38,6 38,18"></path>
    <path class="qw-ink" d="M38,16C44,17 46.5,21.5 46.5,26C46.5,31.5 41.5,37 38,42C34.5,37 29.5,31.5 29.5,26C29.5,21.5 32,17 38,16Z"></path>
    <path class="vein" d="M35.5,22L36.5,33M40.5,22L39.5,33"></path>`,
  flared: svg`
    <path class="bract" d="M24,44C10,39 2,25 0,8L5.5,12L9.5,6.5L14.5,12L19.5,9C18.5,23 20,34 24,44ZM24,44C38,39 46,25 48,8L42.5,12L38.5,6.5L33.5,12L28.5,9C29.5,23 28,34 24,44Z"></path>
    <ellipse class="qw-ink" cx="24" cy="25" rx="4.2" ry="8"></ellipse>`,
};

export function square(state) {
  return svg`<svg class="square" viewBox="-2 0 52 48" aria-hidden="true">${drawn[state]}</svg>`;
}
