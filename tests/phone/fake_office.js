/**
 * An office for trying the phone page in a browser: serves the page, pairs, gives the day and its
 * cards, and keeps the bytes of entries. Run: node tests/phone/fake_office.js PORT [FOLDER of page]
 *
 * What it holds and what it should do wrong is asked for under /fake/.
 */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { fileURLToPath } from 'node:url';
import { DEVICE, FIELD, JOSS, OTHER, WEN, card } from './made.js';

const PAGE = process.argv[3] ?? fileURLToPath(new URL('../../src/quarterwalk/phone/', import.meta.url));
const POLICY =
  "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'; " +
  "connect-src 'self'; manifest-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";
const TYPES = {
  html: 'text/html', js: 'text/javascript', css: 'text/css', svg: 'image/svg+xml', png: 'image/png',
  woff2: 'font/woff2', webmanifest: 'application/manifest+json', txt: 'text/plain',
};
const PEOPLE = [{ id: JOSS, name: 'Joss Verel' }, { id: WEN, name: 'Wen Adair' }];
const DISTRICT = { id: 'd5k8n2pq', name: 'North district', demo: false };

const cardText = JSON.stringify(card);
const cardHash = createHash('sha256').update(cardText).digest('hex');
const held = new Map();
/** An office that was started again still knows its phones. */
const tokens = new Map([DEVICE, OTHER].map((device) => [`token-of-${device}`, device]));
const wrong = { token: false, card: false, closed: null };
let pairings = 0;

/** The office lives at nine in the morning of the card's day, whenever it was started. */
const shift = Date.parse('2026-07-01T14:00:00Z') - Date.now();
const now = () => new Date(Date.now() + shift).toISOString();

function pairing({ code }) {
  if (code !== '7kq4m2xd') return [404, { error: 'code' }];
  const device = [DEVICE, OTHER][pairings % 2];
  const person = PEOPLE[pairings % 2];
  const token = `token-of-${device}`;
  pairings += 1;
  return [200, { device, token, person, district: DISTRICT, now: now(), shift_ms: shift }];
}

const field = (id, name, more) => ({
  id, name, grower: 'Gil Ames', farm: 'Ames', acres: 80.1, due: { on: '2026-07-01', text: 'today' },
  stage: 'week 2, day 5', last: null, closed_until: null, card: null, no_card: null, ...more,
});

const day = () => ({
  now: now(),
  shift_ms: shift,
  person: PEOPLE[0],
  district: DISTRICT,
  scouts: PEOPLE,
  fields: [
    field(FIELD, 'Windmill 80', { card: cardHash, closed_until: wrong.closed }),
    field('w2r5t9nb', 'Gin Road 120', { card: cardHash, closed_until: '2026-07-03T07:00:00-05:00' }),
    field('x3r5t9nb', 'Playa 60', { no_card: 'No boundary yet.' }),
  ],
});

function answerOf(line, device) {
  let entry;
  try {
    entry = JSON.parse(line);
  } catch {
    return { device: null, seq: null, answer: 'quarantined', why: 'not-json' };
  }
  const key = `${entry.device}-${entry.seq}`;
  const name = { device: entry.device, seq: entry.seq };
  if (held.has(key)) {
    return held.get(key) === line ? { ...name, answer: 'already-held' } : { ...name, answer: 'quarantined', why: 'other-bytes' };
  }
  if (entry.device !== device) return { ...name, answer: 'quarantined', why: 'other-device' };
  held.set(key, line);
  return { ...name, answer: 'held' };
}

const CALL = {
  verdict: 'hold', words: 'Hold', headline: 'Few insects and good square set.', reasons: ['0 insects on 100 plants.'],
  sure: 'clear', provisional: false, next_look: '2026-07-08', again: ['Look again on Wednesday 8 July.'],
  care: [], insects: '0 insects on 100 plants.', squares: 'Square set 100 %.', guideline: 'An invented guide, 2025',
};

function walksOf(ids) {
  const entries = [...held.values()].map((line) => JSON.parse(line));
  const told = (id) => {
    const own = entries.filter(({ walk }) => walk === id);
    const closed = own.some(({ kind }) => kind === 'walk-closed');
    return { state: closed ? 'closed' : 'open', waiting: 0, plants: own.length, call: closed ? CALL : null };
  };
  return Object.fromEntries(ids.map((id) => [id, told(id)]));
}

function entriesIn(body, device) {
  const lines = body.split('\n').filter(Boolean);
  const answers = lines.map((line) => answerOf(line, device));
  const ids = new Set([...held.values()].map((line) => JSON.parse(line).walk).filter(Boolean));
  return [200, { now: now(), answers, walks: walksOf([...ids]) }];
}

function faked(path, body) {
  if (path === '/fake/set') Object.assign(wrong, JSON.parse(body));
  return [200, path === '/fake/held' ? [...held.values()] : wrong];
}

/** Answer what is asked for with JSON; nothing where it is a file. */
function answer({ method, url, headers }, body) {
  const { pathname, searchParams } = new URL(url, 'http://office');
  if (pathname.startsWith('/fake/')) return faked(pathname, body);
  if (!pathname.startsWith('/sync/')) return null;
  if (pathname === '/sync/pair') return pairing(JSON.parse(body));
  const device = tokens.get((headers.authorization ?? '').replace('Bearer ', ''));
  if (!device || wrong.token) return [401, { error: 'token' }];
  if (pathname === '/sync/day') return [200, day()];
  if (pathname === `/sync/cards/${cardHash}`) return [200, wrong.card ? `${cardText} ` : cardText];
  if (pathname === '/sync/entries' && method === 'POST') return entriesIn(body, device);
  if (pathname === '/sync/walks') return [200, { now: now(), walks: walksOf(searchParams.getAll('id')) }];
  return [404, { error: 'unknown' }];
}

function file(response, url) {
  const name = new URL(url, 'http://office').pathname.replace(/^\/phone\//, '') || 'index.html';
  try {
    const bytes = readFileSync(`${PAGE}/${name}`);
    response.writeHead(200, { 'Content-Type': TYPES[name.split('.').at(-1)], 'Content-Security-Policy': POLICY });
    response.end(bytes);
  } catch {
    response.writeHead(404).end();
  }
}

const read = async (request) => {
  const parts = [];
  for await (const part of request) parts.push(part);
  return Buffer.concat(parts).toString('utf8');
};

createServer(async (request, response) => {
  const answered = answer(request, await read(request));
  if (!answered) return file(response, request.url);
  const [status, told] = answered;
  response.writeHead(status, { 'Content-Type': 'application/json', 'Cache-Control': 'no-store' });
  return response.end(typeof told === 'string' ? told : JSON.stringify(told));
}).listen(Number(process.argv[2] ?? 8765), '127.0.0.1', function () {
  console.log(`listening on ${this.address().port}`);
});
