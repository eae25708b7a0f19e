/** This phone: what is not sent yet, and how safe it is here. */
import { today } from '../state.js';
import { common } from './common.js';
import { faults, momentWords, phone as said } from './words.js';

export function phone(state) {
  const { pairing, storage, sending } = state;
  return {
    ...common(state),
    person: pairing.person.name,
    device: pairing.device,
    district: pairing.district.name,
    quarantined: state.records.filter(({ answer }) => answer === 'quarantined').length,
    kept: state.records.length,
    storage: {
      persisted: storage.persisted,
      used: storage.used === null ? '' : said.used(storage.used),
      ios: storage.ios,
      standalone: storage.standalone,
    },
    lastSent: state.lastSent ? momentWords(state.lastSent, today(state)) : '',
    fault: sending.fault ? faults[sending.fault] : '',
    busy: sending.busy,
    version: state.version,
  };
}
