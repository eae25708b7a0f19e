/** Which way to go. */
import { currentCard, currentWalk } from '../state.js';
import { sunWords } from '../sun.js';
import { wayTo } from '../way.js';
import { common } from './common.js';
import { HEADINGS, where as words } from './words.js';

/** Say the way from the stop before, or from the gate. */
function legWords(card, next) {
  const at = card.stops.findIndex(({ stop }) => stop === next.stop);
  const from = at ? card.stops[at - 1].place : card.entry;
  if (!from) return words.leg(next);
  const { feet, eighth } = wayTo(from, card.stops[at].place);
  const way = { feet, heading: HEADINGS[eighth] };
  return at ? words.way(way) : words.wayFromGate(way);
}

export function where(state) {
  const { next } = currentWalk(state);
  const card = currentCard(state);
  return {
    ...common(state),
    field: card.field.name,
    svg: card.sketch.svg,
    current: next.stop,
    quadrant: next.quadrant,
    loop: next.loop,
    legWords: legWords(card, next),
    sunWords: sunWords(card, state.now),
    readOnly: !state.canWrite,
  };
}
