/** All that the screens depend on, in one plain object. */

/**
 * @typedef {object} State
 * @property {string} screen which one is shown
 * @property {string} at wall time of the last change, as an entry writes it
 * @property {number} now the same [ms]
 * @property {object|null} pairing device, token, person, district, shift_ms
 * @property {object|null} day as the office sent it
 * @property {string} fetchedAt wall time of the last day fetched; empty for never
 * @property {Record<string, object>} cards by hash
 * @property {import('./store.js').Record[]} records every entry that is kept
 * @property {Record<string, object>} walks each folded, by id
 * @property {string|null} walkId the one on screen
 * @property {import('./plant.js').Plant|null} plant the plant being looked at
 * @property {Record<string, import('./fold.js').Begun>} begun walks that other phones began
 * @property {Record<string, object>} calls what the office said of walks, by id
 */

/** @returns {State} */
export const firstState = () => ({
  screen: 'starting',
  at: '',
  now: 0,
  pairing: null,
  day: null,
  fetchedAt: '',
  lastSent: '',
  cards: {},
  records: [],
  walks: {},
  walkId: null,
  plant: null,
  begun: {},
  calls: {},
  canWrite: false,
  canKeep: true,
  notice: '',
  fault: '',
  busy: false,
  resting: false,
  storage: { persisted: null, used: null, low: false, ios: false, standalone: false },
  sending: { busy: false, fault: null },
  fetch: { busy: false, fault: '' },
  pair: { code: '', busy: false, fault: '' },
  gate: null,
  note: null,
  handover: null,
  take: null,
  version: '',
});

/** The walk on screen. */
export const currentWalk = (state) => state.walks[state.walkId] ?? null;

/** The card of a walk: the one it was opened with, else the field's own of today. */
export function cardOf(state, walk) {
  const field = state.day?.fields.find(({ id }) => id === walk.field);
  return state.cards[walk.cardHash] ?? state.cards[field?.card] ?? null;
}

export const currentCard = (state) => cardOf(state, currentWalk(state));

export const today = (state) => state.at.slice(0, 10);

export const unsentCount = (state) => state.records.filter(({ unsent }) => unsent).length;

/** A field that is no longer in the day, but has an open walk: as its card tells of it. */
function unlisted(state, walk) {
  const card = cardOf(state, walk);
  if (!card) return null;
  const { name, grower } = card.field;
  return {
    id: walk.field, name, grower, card: walk.cardHash,
    stage: null, due: null, last: null, closed_until: null, no_card: null,
  };
}

/** The fields of the day, then those that were left with an open walk. */
export function fieldsOf(state) {
  const listed = state.day?.fields ?? [];
  const ids = new Set(listed.map(({ id }) => id));
  const left = Object.values(state.walks).filter((walk) => isOpen(walk) && !ids.has(walk.field));
  return [...listed, ...left.map((walk) => unlisted(state, walk)).filter(Boolean)];
}

export const fieldOf = (state, id) => fieldsOf(state).find((field) => field.id === id) ?? null;

/** Name a person of the district. */
export function nameOf(state, id) {
  const known = [state.pairing?.person, state.day?.person, ...(state.day?.scouts ?? [])];
  return known.find((person) => person?.id === id)?.name ?? id;
}

export const isOpen = ({ state }) => state === 'open' || state === 'handed-over';

/** The open walk of a field; the latest where there are several. */
export const openWalkOf = (state, field) =>
  Object.values(state.walks).findLast((walk) => walk.field === field && isOpen(walk)) ?? null;

/** Whether another phone took a walk from here and has closed it. */
export const isClosedAway = (state, walk) => walk.away && state.calls[walk.id]?.state === 'closed';

/** Until when a field is closed, by the later of what day and card say; empty where it is not. */
export function closedUntil(state, { card, closed_until: told }) {
  const times = [told, state.cards[card]?.closed_until].filter(Boolean);
  const latest = times.sort((a, b) => Date.parse(a) - Date.parse(b)).at(-1);
  return latest && Date.parse(latest) > state.now ? latest : '';
}
