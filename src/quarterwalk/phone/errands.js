/** What goes to the office and comes back: the day, its cards, entries, calls, the pairing. */
import { DAY } from './clock.js';
import { fetchCard, fetchDay, unneededCards } from './day.js';
import { purgeable } from './keep.js';
import { fieldOf, isOpen, today } from './state.js';
import { askToKeep, storageState } from './storage.js';

/** The day is not asked for again sooner than this unless somebody asks. [ms] */
const FRESH = 15 * 60_000;

/**
 * @param {object} with_ the controller with its services
 */
export function makeErrands({ state, show, refoldAll, store, office, sync, clock, browser }) {
  const digest = (bytes) => browser.digest(bytes);
  const services = { office, store, digest };

  /** Take a day in: its cards, its people, and how far the office's clock is from here. */
  async function takeDay(day, cards) {
    clock.shift(day.shift_ms);
    const fetchedAt = clock.at();
    const { person, district } = day;
    const pairing = { ...state.pairing, person, district, shift_ms: day.shift_ms };
    await store.writeMeta({ day, fetchedAt, pairing });
    Object.assign(state, { day, fetchedAt, pairing });
    const held = { ...state.cards, ...cards };
    for (const hash of unneededCards(held, day, Object.values(state.walks).filter(isNeeded))) {
      await store.dropCard(hash);
      delete held[hash];
    }
    state.cards = held;
    refoldAll();
    if (state.gate && !fieldOf(state, state.gate.field)) Object.assign(state, { screen: 'day', gate: null });
  }

  /** Walks that may still be looked at: open ones, and today's. */
  const isNeeded = (walk) => isOpen(walk) || walk.lastAt?.startsWith(today(state));

  async function fetchNow() {
    if (!state.canWrite || !state.pairing || state.fetch.busy) return;
    show({ fetch: { busy: true, fault: '' } });
    let fault = '';
    try {
      const got = await fetchDay(state.cards, services);
      fault = got.fault;
      if (got.day) await takeDay(got.day, got.cards);
      if (got.day) await askForCallsAway();
    } catch {
      fault = 'store';
    }
    if (fault === 'token') state.sending = { ...state.sending, fault };
    show({ fetch: { busy: false, fault } });
  }

  /** Ask again where what is here is old; called when a signal may have come. */
  function fetchIfStale() {
    const age = state.fetchedAt ? clock.now() - Date.parse(state.fetchedAt) : Infinity;
    return age > FRESH && state.screen === 'day' ? fetchNow() : undefined;
  }

  async function getCard(hash) {
    const { card } = await fetchCard(hash, services);
    if (card) state.cards = { ...state.cards, [hash]: card };
  }

  /** Keep what the office said of walks. */
  async function takeCalls(walks) {
    if (!walks || !Object.keys(walks).length) return;
    state.calls = { ...state.calls, ...walks };
    await store.writeMeta({ calls: state.calls }).catch(() => {});
  }

  async function askForCall() {
    if (!state.walkId || !state.pairing) return;
    const answer = await office.walks([state.walkId]);
    if (!answer.ok) return;
    await takeCalls(answer.json.walks);
    show();
  }

  /** Walks that went on on another phone are closed there. */
  async function askForCallsAway() {
    const away = Object.values(state.walks).filter((walk) => isOpen(walk) && walk.away);
    if (!away.length) return;
    const answer = await office.walks(away.map(({ id }) => id));
    if (answer.ok) await takeCalls(answer.json.walks);
  }

  /** Lay the office's answers to the entries that are in memory, as the store did. */
  async function answered(answers, { walks }) {
    const told = new Map(answers.map((each) => [`${each.device}-${each.seq}`, each]));
    state.records = state.records.map((record) => {
      const answer = told.get(`${record.device}-${record.seq}`);
      if (!answer) return record;
      const { unsent, ...kept } = record;
      return { ...kept, ...answer, answeredAt: clock.now() };
    });
    state.lastSent = clock.at();
    store.writeMeta({ lastSent: state.lastSent }).catch(() => {});
    await takeCalls(walks);
    show();
  }

  async function paired(pairing) {
    office.useToken(pairing.token);
    clock.shift(pairing.shift_ms);
    show({ pairing, screen: state.take ? 'take' : 'day', sending: { busy: false, fault: null } });
    sync.start();
    await keepSafe();
    await fetchNow();
  }

  async function keepSafe() {
    await askToKeep(browser.navigator);
    show({ storage: await storageState(browser.navigator, browser.matches) });
  }

  async function forget() {
    sync.stop();
    await store.empty();
    browser.reload();
  }

  async function purge() {
    const keys = purgeable(state.records, clock.now());
    if (!keys.length) return;
    await store.purge(keys);
    const gone = new Set(keys.map(([device, seq]) => `${device}-${seq}`));
    state.records = state.records.filter(({ device, seq }) => !gone.has(`${device}-${seq}`));
  }

  /** Whether somebody may come back to a walk soon: it is open here and was so within a day. */
  const isUnderWay = (walk) =>
    isOpen(walk) && !walk.away && (!walk.lastAt || clock.now() - Date.parse(walk.lastAt) < DAY);

  const mayChange = () =>
    state.canWrite && state.walkId === null && !Object.values(state.walks).some(isUnderWay);

  return {
    fetchNow, fetchIfStale, getCard, askForCall, answered, paired, keepSafe, forget, purge, mayChange,
    sendNow: () => sync.send(),
  };
}
