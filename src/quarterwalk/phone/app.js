/** The page put together: every part is made here and told what it needs; no part knows another. */
import './files.js';
import { nothing, render } from './vendor/lit-html.js';
import { actsOf } from './acts/index.js';
import { enter } from './acts/walking.js';
import { browserClock } from './clock.js';
import { makeController } from './controller.js';
import { makeErrands } from './errands.js';
import { readLink } from './handover.js';
import { askToWrite } from './lock.js';
import { makeOffice } from './office.js';
import { screens } from './screens.js';
import { isOpen, today } from './state.js';
import { storageState } from './storage.js';
import { openStore } from './store.js';
import { makeSync } from './sync.js';
import { watchForUpdate } from './update.js';
import { views } from './views/index.js';
import { notices } from './views/words.js';

/** How an address begins that brings a pairing code. */
const PAIR = '#pair=';

const ROOT = document.getElementById('app');

/** How often an open call is asked for. [ms] */
const ASK_AGAIN = 60_000;

const page = new URL('./', location.href).href.split('#')[0];
const browser = {
  navigator,
  matches: (query) => matchMedia(query).matches,
  digest: (bytes) => crypto.subtle.digest('SHA-256', bytes),
  reload: () => location.reload(),
};
const timers = { set: (act, ms) => setTimeout(act, ms), clear: (timer) => clearTimeout(timer) };
const clock = browserClock();
let acts = {};
let shown = '';

/** Draw the screen that the state is on; a screen that has changed is read from its top. */
function draw(state) {
  if (!(state.screen in views)) return;
  // No element outlives its screen: a button that was just tapped must not turn into another one.
  if (state.screen !== shown) render(nothing, ROOT);
  render(screens[state.screen](views[state.screen](state), acts[state.screen]), ROOT);
  if (state.screen === shown) return;
  shown = state.screen;
  scrollTo(0, 0);
  ROOT.querySelector('h1')?.focus({ preventScroll: true });
}

/** Open the store; a browser that keeps nothing is told so, and nothing else is begun. */
async function storeOrNothing(told) {
  try {
    return await openStore(told);
  } catch {
    return null;
  }
}

function wired(store) {
  const late = {}; // what is made after what calls it
  const controller = makeController({ store, clock, draw, wrote: () => late.sync.gather() });
  const { state, show } = controller;
  const office = makeOffice({
    fetch: (url, options) => fetch(url, options),
    base: new URL('../sync/', page),
    at: () => clock.at(),
  });
  late.sync = makeSync({
    store,
    office,
    now: () => clock.now(),
    timers,
    told: {
      answered: (answers, json) => late.errands.answered(answers, json),
      state: (sending) => show({ sending: { ...state.sending, ...sending } }),
    },
  });
  late.errands = makeErrands({ ...controller, store, office, sync: late.sync, clock, browser });
  const updates = { check: () => {} };
  const app = {
    ...controller,
    ...late.errands,
    store,
    office,
    page,
    sync: late.sync,
    updates,
    between: () => updates.check(),
    forgetLink: () => history.replaceState(null, '', page),
  };
  acts = actsOf(app);
  return app;
}

/** Take in all that the phone keeps. */
async function load({ state, store, office, takeIn }) {
  const [records, meta, cards, plant] = await Promise.all([
    store.records(), store.meta(), store.cards(), store.draft(),
  ]);
  state.cards = Object.fromEntries(Object.entries(cards).map(([hash, text]) => [hash, JSON.parse(text)]));
  const { pairing = null, day = null, fetchedAt = '', lastSent = '', begun = {}, calls = {}, place } = meta;
  Object.assign(state, { pairing, day, fetchedAt, lastSent, begun, calls, plant: plant ?? null });
  clock.shift(pairing?.shift_ms ?? 0);
  office.useToken(pairing?.token ?? '');
  state.at = clock.at();
  takeIn(records);
  return place;
}

/** Go where the page was left: in a walk of today, else to the day. */
function goTo(app, place) {
  const { state, show } = app;
  const hash = location.hash;
  if (hash.startsWith('#take=')) {
    const begun = readLink(hash);
    return show({ screen: 'take', take: { begun, fault: begun ? '' : 'broken' } });
  }
  if (hash.startsWith(PAIR) && (!state.pairing || state.sending.fault === 'token')) {
    const code = hash.slice(PAIR.length);
    app.forgetLink();
    return show({ screen: 'pair', pair: { ...state.pair, code } });
  }
  if (!state.pairing) return show({ screen: 'pair' });
  const walk = state.walks[place];
  if (walk && isOpen(walk) && walk.next && walk.lastAt?.startsWith(today(state))) return enter(app, place);
  return show({ screen: 'day' });
}

/** This window writes from now on: see what others wrote before, then send. */
async function becomeWriter(app) {
  const place = await load(app);
  app.state.canWrite = true;
  app.state.notice = '';
  await app.purge().catch(() => {});
  goTo(app, place);
  if (!app.state.pairing) return;
  app.sync.start();
  app.fetchIfStale();
}

/** A signal may have come, or somebody looks again. */
function lookAgain(app) {
  if (document.visibilityState !== 'visible') return;
  app.show();
  if (!app.state.canWrite) return;
  app.sendNow();
  app.fetchIfStale();
  if (app.state.screen === 'call') app.askForCall();
}

async function start() {
  const told = { superseded: () => {}, lost: () => {} };
  const store = await storeOrNothing({ superseded: () => told.superseded(), lost: () => told.lost() });
  const app = wired(store);
  const { state, show } = app;
  state.version = self.QUARTERWALK_FILES.version;
  state.storage = await storageState(navigator, browser.matches);
  if (!store) return show({ screen: 'pair', notice: notices.noStore, canKeep: false });
  const shut = (notice) => {
    app.sync.stop();
    show({ canWrite: false, notice });
  };
  told.superseded = () => shut(notices.superseded);
  told.lost = () => shut(notices.lost);
  await askToWrite(navigator.locks, {
    held: () => becomeWriter(app),
    waiting: async () => {
      const place = await load(app);
      state.notice = notices.reader;
      goTo(app, place);
    },
  });
  addEventListener('online', () => lookAgain(app));
  addEventListener('hashchange', () => /^#(take|pair)=/.test(location.hash) && goTo(app, null));
  document.addEventListener('visibilitychange', () => lookAgain(app));
  setInterval(() => state.screen === 'call' && lookAgain(app), ASK_AGAIN);
  Object.assign(app.updates, watchForUpdate(navigator.serviceWorker, { mayChange: app.mayChange, reload: browser.reload }));
}

start();
