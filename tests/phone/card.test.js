import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import { test } from 'node:test';
import { cardFault } from '../../src/quarterwalk/phone/card.js';
import { fetchDay, provenCard, unneededCards } from '../../src/quarterwalk/phone/day.js';
import { card } from './made.js';

const bytesOf = (text) => new TextEncoder().encode(text).buffer;
const digest = async (bytes) => new Uint8Array(createHash('sha256').update(Buffer.from(bytes)).digest()).buffer;
const hashOf = (text) => createHash('sha256').update(text).digest('hex');
const TEXT = JSON.stringify(card);
const HASH = hashOf(TEXT);

test('a whole card is taken', async () => {
  assert.equal(cardFault(card), '');
  assert.deepEqual((await provenCard(bytesOf(TEXT), HASH, digest)).card, card);
});

test('a card whose bytes are not those the office named is not kept', async () => {
  assert.equal(await provenCard(bytesOf(`${TEXT} `), HASH, digest), null);
});

for (const part of ['v', 'field', 'on', 'method', 'sites', 'walkable', 'stops', 'weeks', 'treat_days', 'squares', 'limits', 'sketch', 'texts', 'closed_until']) {
  test(`a card without ${part} is not kept`, () => {
    const { [part]: gone, ...rest } = card;
    assert.equal(cardFault(rest), part);
  });
}

const look = { plants: 40, a_quarter: 10, loop: 1, rows: [[0, 4, -1, -1, null, null]], more: [[60, 31]] };
const plan = { week: 2, hash: 'b'.repeat(64), squares: false, bar: null, looks: [look] };

test('a card may hold stop plans', () => {
  for (const plans of [[], [plan], [{ ...plan, week: null, squares: true, bar: 'blasted' }]]) {
    assert.equal(cardFault({ ...card, plans }), '');
  }
});

test('a card with half a stop plan is not kept', () => {
  const wrong = [
    { ...plan, hash: 'b' }, { ...plan, bar: 'flared' }, { ...plan, squares: 1 }, { ...plan, week: 'two' },
    ...[{ rows: [] }, { rows: [[0, 4, -1]] }, { rows: [['0', 4, -1, -1, null, null]] }, { more: [] }, { more: [[60, null]] }, { loop: null }]
      .map((more) => ({ ...plan, looks: [{ ...look, ...more }] })),
  ];
  for (const each of wrong) assert.equal(cardFault({ ...card, plans: [each] }), 'plans', JSON.stringify(each));
  assert.equal(cardFault({ ...card, plans: null }), 'plans');
});

test('a card that lacks one verdict is not kept', () => {
  const { near, ...verdicts } = card.limits.verdicts;
  assert.equal(cardFault({ ...card, limits: { ...card.limits, verdicts } }), 'limits');
});

test('a card of a field that is not walked plant by plant needs no stops', () => {
  assert.equal(cardFault({ ...card, walkable: false, why_not: 'By sweep net.', stops: [], limits: undefined }), '');
});

const office = (answers) => ({
  day: async () => ({ ok: true, json: { fields: [{ card: HASH }, { card: null }, { card: 'b'.repeat(64) }] } }),
  card: async (hash) => answers[hash] ?? { ok: false, fault: 'unknown' },
});

test('cards that come are kept, and the first fault is told', async () => {
  const kept = {};
  const store = { putCard: async (hash, text) => { kept[hash] = text; } };
  const got = await fetchDay({}, { office: office({ [HASH]: { ok: true, bytes: bytesOf(TEXT) } }), store, digest });
  assert.deepEqual(Object.keys(got.cards), [HASH]);
  assert.deepEqual(kept, { [HASH]: TEXT });
  assert.equal(got.fault, 'unknown');
});

test('a card stays while the day or an open walk needs it', () => {
  const held = { a: {}, b: {}, c: {} };
  assert.deepEqual(unneededCards(held, { fields: [{ card: 'a' }] }, [{ cardHash: 'b' }]), ['c']);
});
