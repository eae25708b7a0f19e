/** Pairing this phone with an office. */

/** Letters that are not in a code are read as what they look like or left out. */
export const plainCode = (code) => code.toLowerCase().replaceAll(/[\s-]/g, '');

/** @param {object} app */
export const pairActs = ({ state, show, store, office, paired }) => ({
  setCode: (code) => {
    state.pair.code = code; // the field holds it already: nothing to draw
  },
  pair: async (code, label) => {
    if (!state.canWrite || state.pair.busy) return;
    show({ pair: { code, busy: true, fault: '' } });
    const answer = await office.pair(plainCode(code), label.trim(), state.pairing?.device);
    if (!answer.ok) {
      const fault = answer.fault === 'unknown' ? 'code' : answer.fault;
      return show({ pair: { code, busy: false, fault } });
    }
    try {
      await store.writeMeta({ pairing: answer.json });
    } catch {
      return show({ pair: { code, busy: false, fault: 'store' } });
    }
    show({ pair: { code: '', busy: false, fault: '' } });
    await paired(answer.json);
  },
});
