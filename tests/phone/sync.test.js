import assert from 'node:assert/strict';
import { test } from 'node:test';
import { makeOffice } from '../../src/quarterwalk/phone/office.js';
import { makeSync } from '../../src/quarterwalk/phone/sync.js';

/** A phone with so many unsent entries, before an office that answers as told. */
function phone(count, answer) {
  const kept = Array.from({ length: count }, (_, i) => ({ device: 'd', seq: i + 1, line: `{"seq":${i + 1}}`, unsent: 1 }));
  const sent = [];
  const waits = [];
  const states = [];
  const store = {
    unsent: async () => kept.filter(({ unsent }) => unsent),
    answer: async (answers) => answers.forEach(({ seq, ...said }) => {
      Object.assign(kept[seq - 1], said);
      delete kept[seq - 1].unsent;
    }),
  };
  const office = {
    send: async (lines) => {
      const entries = lines.trim().split('\n').map((line) => JSON.parse(line));
      sent.push(entries.length);
      return answer(entries, sent.length);
    },
  };
  const timers = { set: (act, ms) => waits.push({ act, ms }), clear: () => {} };
  const told = { answered: () => {}, state: (state) => states.push(state) };
  return { kept, sent, waits, states, sync: makeSync({ store, office, now: () => 5, told, timers }) };
}

const held = (entries) => ({ ok: true, json: { answers: entries.map(({ seq }) => ({ device: 'd', seq, answer: 'held' })) } });

test('everything unsent is sent, batch after batch', async () => {
  const { sync, sent, kept } = phone(4500, held);
  await sync.start();
  assert.deepEqual(sent, [2000, 2000, 500]);
  assert.ok(kept.every(({ unsent }) => !unsent));
});

test('one entry set aside does not stop the others', async () => {
  const { sync, kept } = phone(3, (entries) => {
    const answers = held(entries);
    answers.json.answers[1] = { device: 'd', seq: 2, answer: 'quarantined', why: 'schema' };
    return answers;
  });
  await sync.start();
  assert.deepEqual(kept.map(({ answer }) => answer), ['held', 'quarantined', 'held']);
});

test('without a signal nothing is lost, and the waits grow', async () => {
  const { sync, kept, waits } = phone(3, () => ({ ok: false, fault: 'offline' }));
  await sync.start();
  await sync.send();
  await sync.send();
  assert.deepEqual(waits.map(({ ms }) => ms), [5_000, 10_000, 20_000]);
  assert.ok(kept.every(({ unsent }) => unsent));
});

test('an ended pairing is told, and is not asked again and again', async () => {
  const { sync, kept, waits, states } = phone(3, () => ({ ok: false, fault: 'token' }));
  await sync.start();
  assert.deepEqual(states.at(-1), { busy: false, fault: 'token' });
  assert.deepEqual(waits, []);
  assert.ok(kept.every(({ unsent }) => unsent));
});

test('a batch that is too large is halved until it goes', async () => {
  const { sync, sent } = phone(8, (entries) => (entries.length > 2 ? { ok: false, fault: 'size' } : held(entries)));
  await sync.start();
  assert.deepEqual(sent.slice(0, 3), [8, 4, 2]);
  assert.equal(sent.slice(2).reduce((sum, count) => sum + count, 0), 8);
});

test('an office that answers nothing it was asked is tried again later', async () => {
  const { sync, kept, waits } = phone(2, () => ({ ok: true, json: { answers: [] } }));
  await sync.start();
  assert.equal(waits.length, 1);
  assert.ok(kept.every(({ unsent }) => unsent));
});

test('two askings at once send once', async () => {
  const { sync, sent } = phone(2, held);
  await Promise.all([sync.start(), sync.send(), sync.send()]);
  assert.deepEqual(sent, [2]);
});

test('the office is told the phone’s time, by its token alone', async () => {
  let asked;
  const fetch = async (url, options) => {
    asked = { url: url.href, ...options };
    return new Response('{"answers":[]}', { status: 200 });
  };
  const office = makeOffice({ fetch, base: new URL('https://office.example/sync/'), at: () => '2026-07-01T09:00:00.000-05:00' });
  office.useToken('secret');
  assert.ok((await office.send('{}\n')).ok);
  assert.equal(asked.url, 'https://office.example/sync/entries');
  assert.equal(asked.headers.Authorization, 'Bearer secret');
  assert.equal(asked.headers['Quarterwalk-Now'], '2026-07-01T09:00:00.000-05:00');
  assert.equal(asked.credentials, 'omit');
});

for (const [status, fault] of [[401, 'token'], [404, 'unknown'], [413, 'size'], [429, 'slow'], [500, 'office']]) {
  test(`an answer of ${status} is told as ${fault}`, async () => {
    const fetch = async () => new Response('{}', { status });
    const office = makeOffice({ fetch, base: new URL('https://office.example/sync/'), at: () => '' });
    assert.deepEqual(await office.day(), { ok: false, fault });
  });
}

test('no signal, and an answer that is no JSON, are told apart', async () => {
  const told = async (fetch) => (await makeOffice({ fetch, base: new URL('https://o.example/sync/'), at: () => '' }).day()).fault;
  assert.equal(await told(async () => { throw new TypeError('no way'); }), 'offline');
  assert.equal(await told(async () => new Response('<html>')), 'office');
});
