/** Pairing: a code, once. */
import { common } from './common.js';
import { faults } from './words.js';

export const pair = (state) => ({
  ...common(state),
  code: state.pair.code,
  busy: state.pair.busy,
  fault: state.pair.fault && faults[state.pair.fault],
  standalone: state.storage.standalone,
  storage: { persisted: state.storage.persisted, ios: state.storage.ios },
});
