/** Insects as they sit at the terminal; the grown one has wings, the young one stripes. */
import { svg } from '../vendor/lit-html.js';

const HEAD = 'M10,12L3,4M10,20L3,28';
const ADULT = {
  body: 'M8,16C8,10 15,7 22,7C31,7 38,12 41,16C38,20 31,25 22,25C15,25 8,22 8,16Z',
  inside: 'M17,16C20,11 32,11 38,16C32,21 20,21 17,16ZM17,16H38',
  legs: 'M20,7L17,2M29,8.5L32,3M20,25L17,30M29,23.5L32,29',
};
const NYMPH = {
  body: 'M8,16C8,9.5 14,7 20,7C28,7 33,11 33,16C33,21 28,25 20,25C14,25 8,22.5 8,16Z',
  inside: 'M16,8V24M21.5,7.5V24.5M27,9.5V22.5',
  legs: 'M17,7L15,2M25,8L28,3M17,25L15,30M25,24L28,29',
};

function insect({ body, inside, legs }, wide) {
  return svg`<svg class="insect" viewBox="0 0 ${wide} 32" aria-hidden="true">
    <path class="insect-body" d="${HEAD}${legs}${body}"></path>
    <path class="insect-inside" d=${inside}></path>
    <circle class="insect-eye" cx="11.5" cy="12.5" r="1.9"></circle>
    <circle class="insect-eye" cx="11.5" cy="19.5" r="1.9"></circle>
  </svg>`;
}

export const adultInsect = () => insect(ADULT, 44);
export const nymphInsect = () => insect(NYMPH, 36);
