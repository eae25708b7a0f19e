/** The phone's own standing, then the office's call. */
import { currentWalk } from '../state.js';
import { common } from './common.js';
import { measures } from './measures.js';
import { call as said } from './words.js';

const isSent = (state, id) => !state.records.some(({ walk, unsent }) => walk === id && unsent);

function stateWords(told) {
  return told?.waiting ? said.waiting(told.waiting) : said.unconfirmed;
}

export function call(state) {
  const walk = currentWalk(state);
  const { card, fieldName, figures, words } = measures(state, walk);
  const { lean, per100, line, setText, floor } = figures;
  const told = state.calls[walk.id];
  return {
    ...common(state),
    field: fieldName,
    when: said.when(walk.sums.plants, walk.lastAt ?? state.at),
    own: { lean, words, per100, line, setText, floor, care: [...card.texts.care, card.texts.prevails] },
    office: told?.call ?? null,
    state: stateWords(told),
    sent: isSent(state, walk.id),
  };
}
