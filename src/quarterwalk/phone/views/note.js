/** Once a quarter: what the squares, the ground and the plants look like there. */
import { currentCard } from '../state.js';
import { common } from './common.js';

export const note = (state) => ({
  ...common(state),
  field: currentCard(state).field.name,
  lost: null,
  water: null,
  otherPests: null,
  branches: [],
  text: '',
  ...state.note,
});
