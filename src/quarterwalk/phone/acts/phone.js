/** This phone: send, save, keep, sign out. */
import { journalFile, saveFile } from '../save.js';
import { today, unsentCount } from '../state.js';
import { phone as words } from '../views/words.js';

/** @param {object} app */
export const phoneActs = ({ state, show, sendNow, keepSafe, forget }) => ({
  send: () => (state.sending.fault === 'token' ? show({ screen: 'pair' }) : sendNow()),
  saveFile: () => saveFile(journalFile(state.pairing.device, today(state), state.records)),
  signOut: () => (unsentCount(state) ? show({ notice: words.unsent }) : forget()),
  persist: () => keepSafe(),
  back: () => show({ screen: 'day', notice: '' }),
});
