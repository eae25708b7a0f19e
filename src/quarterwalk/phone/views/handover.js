/** Another scout goes on: with this phone, or with another one. */
import { currentWalk, fieldOf, nameOf } from '../state.js';
import { common } from './common.js';
import { handover as said } from './words.js';

export function handover(state) {
  const walk = currentWalk(state);
  const { to, qr, link } = state.handover;
  return {
    ...common(state),
    field: fieldOf(state, walk.field)?.name ?? '',
    scouts: (state.day?.scouts ?? []).filter(({ id }) => id !== walk.by),
    qr,
    link,
    code: '',
    counts: said.counts(walk.sums),
    to: to && nameOf(state, to),
  };
}
