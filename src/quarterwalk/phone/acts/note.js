/** The once-a-quarter note. */

const MOST_TEXT = 500;

/** Give the body of what was said; what was not said is not in it. */
export function notedBody({ quadrant, lost, water, otherPests, branches, text }) {
  const counted = (branches ?? []).filter((count) => Number.isInteger(count));
  const note = (text ?? '').trim().slice(0, MOST_TEXT);
  return {
    quadrant,
    ...(lost ? { lost } : {}),
    ...(typeof water === 'boolean' ? { water } : {}),
    ...(otherPests ? { other_pests: otherPests } : {}),
    ...(counted.length ? { branches: counted } : {}),
    ...(note ? { note } : {}),
  };
}

/** @param {object} app */
export function noteActs({ state, show, write }) {
  const on = () => show({ screen: state.note.then, note: null });
  return {
    set: (key, value) => show({ note: { ...state.note, [key]: value } }),
    save: async () => {
      const body = notedBody(state.note);
      const saysNothing = Object.keys(body).length === 1;
      if (saysNothing || (await write('quadrant-noted', body))) on();
    },
    later: on,
  };
}
