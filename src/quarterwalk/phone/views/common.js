/** What every view has. */
import { unsentCount } from '../state.js';
import { faults, notices } from './words.js';

const noticeOf = (state) => {
  if (state.notice) return state.notice;
  if (state.fault) return faults[state.fault];
  if (state.sending.fault === 'token') return notices.ended;
  return '';
};

export const common = (state) => ({
  demo: state.pairing?.district.demo ?? state.day?.district.demo ?? false,
  notice: noticeOf(state),
  unsent: unsentCount(state),
});
