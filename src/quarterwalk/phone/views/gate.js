/** The gate: may anybody go in? */
import { closedUntil, fieldOf, today } from '../state.js';
import { common } from './common.js';
import { isOld } from './day.js';
import { dayWords, gate as words, momentWords } from './words.js';

export function gate(state) {
  const field = fieldOf(state, state.gate.field);
  const card = state.cards[state.gate.card];
  const closed = closedUntil(state, field);
  const old = isOld(state);
  return {
    ...common(state),
    field: field.name,
    question: words.question,
    cardAge: old && state.fetchedAt ? dayWords(state.fetchedAt) : null,
    old,
    sketch: card?.sketch.svg ?? null,
    rule: card?.texts.rule ?? '',
    sites: card?.texts.sites ?? '',
    care: card ? [...card.texts.care, card.texts.prevails] : [],
    warnings: (card?.treated ?? []).map((on) => words.closedSpray(dayWords(on))),
    closed: closed ? words.closed(momentWords(closed, today(state))) : null,
    sign: state.gate.sign,
  };
}
