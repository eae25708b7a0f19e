/** The office as this phone reaches it: five questions, each answered or at fault. */

/** How long to wait for an answer on a weak signal (this project's rule). [ms] */
const PATIENCE = 45_000;

const FAULTS = { 401: 'token', 404: 'unknown', 413: 'size', 429: 'slow' };

/**
 * @typedef {{ok: true, json: object}|{ok: true, bytes: ArrayBuffer}|{ok: false, fault: string}} Answer
 *   fault: offline | token | unknown | size | slow | office
 */

/**
 * @param {object} with_
 * @param {typeof fetch} with_.fetch
 * @param {string} with_.base address that ends in /sync/
 * @param {() => string} with_.at wall time
 */
export function makeOffice({ fetch, base, at }) {
  let token = '';

  async function ask(path, { body, type = 'application/json', read = 'json' } = {}) {
    const stop = new AbortController();
    const timer = setTimeout(() => stop.abort(), PATIENCE);
    try {
      const response = await fetch(new URL(path, base), {
        method: body === undefined ? 'GET' : 'POST',
        headers: {
          ...(token ? { Authorization: `Bearer ${token}` } : {}),
          ...(body === undefined ? {} : { 'Content-Type': type, 'Quarterwalk-Now': at() }),
        },
        body,
        cache: 'no-store',
        credentials: 'omit',
        redirect: 'error',
        signal: stop.signal,
      });
      if (!response.ok) return { ok: false, fault: FAULTS[response.status] ?? 'office' };
      return read === 'json'
        ? { ok: true, json: await response.json() }
        : { ok: true, bytes: await response.arrayBuffer() };
    } catch (fault) {
      return { ok: false, fault: fault instanceof SyntaxError ? 'office' : 'offline' };
    } finally {
      clearTimeout(timer);
    }
  }

  return {
    useToken: (given) => {
      token = given;
    },
    pair: (code, label, device) => ask('pair', { body: JSON.stringify({ code, label, ...(device ? { device } : {}) }) }),
    day: () => ask('day'),
    card: (hash) => ask(`cards/${hash}`, { read: 'bytes' }),
    send: (lines) => ask('entries', { body: lines, type: 'application/x-ndjson' }),
    walks: (ids) => ask(`walks?${new URLSearchParams(ids.map((id) => ['id', id]))}`),
  };
}
