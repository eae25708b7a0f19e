/** Sending: what was not acknowledged, batch by batch, again and again until it is. */
import { MOST_LINES, acknowledged, bodyOf, firstBatch, waitAfter } from './batch.js';

/** How long to gather entries during a walk before they are sent (this project's rule). [ms] */
const GATHER = 4_000;

/**
 * @param {object} with_
 * @param {{unsent: Function, answer: Function}} with_.store
 * @param {{send: (lines: string) => Promise<object>}} with_.office
 * @param {() => number} with_.now [ms]
 * @param {{answered: (answers: object[], json: object) => void, state: (state: object) => void}} with_.told
 * @param {{set: (act: () => void, ms: number) => unknown, clear: (timer: unknown) => void}} with_.timers
 */
export function makeSync({ store, office, now, told, timers }) {
  let running = null;
  let timer = null;
  let tries = 0;
  let lines = MOST_LINES;
  let stopped = true;

  /** Send one batch; say why not, or nothing where all went well. */
  async function sendBatch(batch) {
    const sent = await office.send(bodyOf(batch));
    if (!sent.ok && sent.fault === 'size' && batch.length > 1) {
      lines = Math.ceil(batch.length / 2);
      return null;
    }
    if (!sent.ok) return sent.fault;
    const answers = acknowledged(batch, sent.json.answers ?? []);
    await store.answer(answers, now());
    told.answered(answers, sent.json);
    return answers.length ? null : 'office';
  }

  async function sendAll() {
    lines = MOST_LINES;
    for (;;) {
      const batch = firstBatch(await store.unsent(), { lines });
      if (!batch.length) return null;
      const fault = await sendBatch(batch);
      if (fault) return fault;
    }
  }

  async function run() {
    told.state({ busy: true });
    const fault = await sendAll().catch(() => 'store');
    tries = fault ? tries + 1 : 0;
    running = null;
    told.state({ busy: false, fault });
    if (fault && fault !== 'token') later(waitAfter(tries));
    return fault;
  }

  /** Send now; a second asking while one is under way waits for the same. */
  function send() {
    if (stopped) return Promise.resolve(null);
    timers.clear(timer);
    timer = null;
    running ??= run();
    return running;
  }

  function later(ms) {
    if (timer === null) timer = timers.set(send, ms);
  }

  return {
    start: () => {
      stopped = false;
      return send();
    },
    stop: () => {
      stopped = true;
      timers.clear(timer);
      timer = null;
    },
    send,
    /** Something new was written: send it soon. */
    gather: () => {
      if (!stopped && !running) later(GATHER);
    },
  };
}
