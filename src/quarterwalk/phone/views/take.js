/** Going on with a walk that another phone began. */
import { fieldOf } from '../state.js';
import { common } from './common.js';
import { handover, take as said } from './words.js';

export function take(state) {
  const { begun, fault } = state.take;
  const [plants, insects] = begun?.sums ?? [0, 0];
  return {
    ...common(state),
    field: fieldOf(state, begun?.field)?.name ?? state.cards[begun?.card]?.field.name ?? '',
    from: begun?.from || said.somebody,
    counts: begun ? handover.counts({ plants, insects }) : '',
    fault: fault && said[fault],
  };
}
