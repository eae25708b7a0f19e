/** The day: its fields in visiting order, and which can be walked from this phone. */
import { DAY } from '../clock.js';
import { closedUntil, fieldsOf, isClosedAway, openWalkOf, today } from '../state.js';
import { common } from './common.js';
import { day as words, dayWords, faults, momentWords } from './words.js';

/** Whether the office was last asked longer ago than a day. */
export const isOld = ({ now, fetchedAt }) => !fetchedAt || now - Date.parse(fetchedAt) > DAY;

const cardAge = (state) => (state.fetchedAt ? momentWords(state.fetchedAt, today(state)) : '');

/** Whether it was walked today, as far as this phone knows. */
const walkedToday = (state, id) =>
  Object.values(state.walks).findLast(
    (walk) => walk.field === id && walk.state === 'closed' && walk.lastAt?.startsWith(today(state)),
  );

/** Say whether a field can be walked, and why not. */
function standingOf(state, field) {
  const closed = closedUntil(state, field);
  const open = openWalkOf(state, field.id);
  const card = state.cards[field.card];
  if (closed) return ['closed', words.closedUntil(momentWords(closed, today(state))), open];
  if (open && isClosedAway(state, open)) return ['walked', words.walked, open];
  if (open?.away) return ['open-walk', words.away(open.sums.plants), open];
  if (open) return ['open-walk', words.openWalk(open.sums.plants), open];
  if (!field.card) return ['no-card', field.no_card ?? words.noCard, null];
  if (!card) return ['not-on-phone', '', null];
  if (!card.walkable) return ['no-card', card.why_not || words.ownMethod, null];
  const walked = walkedToday(state, field.id);
  if (walked) return ['walked', words.walked, walked];
  if (isOld(state)) return ['old-card', words.oldCard(cardAge(state)), null];
  return ['ready', '', null];
}

function row(state, field) {
  const [standing, stateWords, walk] = standingOf(state, field);
  const { id, name, grower, stage, due, last } = field;
  return {
    id,
    name,
    grower,
    stage: stage ?? '',
    due: standing === 'walked' ? '' : due?.text ?? '',
    last,
    onPhone: walk !== null || field.card === null || field.card in state.cards,
    state: standing,
    stateWords,
    walk: walk?.id ?? null,
  };
}

function nextOf(rows, walks) {
  const open = rows.find(({ state, walk }) => state === 'open-walk' && !walks[walk].away);
  if (open) return { id: open.id, name: open.name, label: words.goOn(open.name) };
  const ready = rows.find(({ state }) => state === 'ready' || state === 'old-card');
  return ready ? { id: ready.id, name: ready.name, label: words.go(ready.name) } : null;
}

function warningsOf({ storage }) {
  if (storage.ios && !storage.standalone) return [words.ios];
  return [
    ...(storage.persisted === false ? [words.notPersisted] : []),
    ...(storage.low ? [words.low] : []),
  ];
}

export function day(state) {
  const fields = fieldsOf(state).map((field) => row(state, field));
  const away = fields.filter(({ onPhone }) => !onPhone).length;
  const old = state.day !== null && isOld(state);
  return {
    ...common(state),
    title: dayWords(state.at),
    subtitle: words.fields(fields.length),
    person: state.pairing.person.name,
    fields,
    next: nextOf(fields, state.walks),
    fetch: {
      needed: old || !state.day ? Math.max(fields.length, 1) : away,
      busy: state.fetch.busy,
      fault: state.fetch.fault && faults[state.fetch.fault],
      at: cardAge(state),
    },
    warnings: warningsOf(state),
    call: [],
    canFetch: state.canWrite && state.sending.fault !== 'token',
  };
}
