import assert from 'node:assert/strict';
import { test } from 'node:test';
import { cardFault } from '../../src/quarterwalk/phone/card.js';
import { sunWords } from '../../src/quarterwalk/phone/sun.js';
import { card, sun } from './made.js';

const at = (iso) => sunWords({ ...card, sun }, Date.parse(iso));
const FACING = (way) => `Walk in facing the sun, ${way}. Your shadow falls behind you.`;

test('in the morning a scout is told which way to face, and how the rows lie to it', () => {
  assert.deepEqual(at('2026-07-01T09:41:07-05:00'), [FACING('east (83°)'), 'Along the rows, face east (80°).']);
});

test('a row holds from its minute until the next one begins', () => {
  assert.match(at('2026-07-01T08:59:59-05:00')[0], /north-east \(64°\)/);
  assert.match(at('2026-07-01T09:00:00-05:00')[0], /east \(83°\)/);
});

test('while the sun is overhead only that is said', () => {
  assert.deepEqual(at('2026-07-01T12:21:00-05:00'), ['The sun is overhead from 12:21 to 15:22.']);
  assert.deepEqual(at('2026-07-01T15:21:59-05:00'), ['The sun is overhead from 12:21 to 15:22.']);
  assert.match(at('2026-07-01T15:22:00-05:00')[0], /^Walk in facing the sun, west/);
});

test('where the rows are not known nothing is said of them', () => {
  const bare = { ...sun, rows: sun.rows.map((row) => [...row.slice(0, 4), null]), texts: { ...sun.texts, along: [] } };
  assert.deepEqual(sunWords({ ...card, sun: bare }, Date.parse('2026-07-01T15:30:00-05:00')), [FACING('west (248°)')]);
});

test('before sunrise and after sunset nothing is said', () => {
  assert.deepEqual(at('2026-07-01T06:40:59-05:00'), []);
  assert.equal(at('2026-07-01T06:41:00-05:00').length, 2);
  assert.deepEqual(at('2026-07-01T21:01:00-05:00'), []);
});

test('the time is that of the field, wherever the phone was set to', () => {
  assert.deepEqual(at('2026-07-01T14:41:07Z'), at('2026-07-01T09:41:07-05:00'));
  assert.deepEqual(at('2026-07-01T23:41:07+09:00'), at('2026-07-01T09:41:07-05:00'));
});

test('a card of yesterday still knows the sun, an older one or one of tomorrow does not', () => {
  assert.deepEqual(at('2026-07-02T09:41:07-05:00'), at('2026-07-01T09:41:07-05:00'));
  assert.deepEqual(at('2026-07-03T09:41:07-05:00'), []);
  assert.deepEqual(at('2026-06-30T09:41:07-05:00'), []);
});

test('a card without the sun says nothing of it and is still taken', () => {
  assert.deepEqual(sunWords(card, Date.parse('2026-07-01T09:41:07-05:00')), []);
  assert.equal(cardFault(card), '');
  assert.equal(cardFault({ ...card, sun }), '');
});

for (const [what, broken] of Object.entries({
  'no offset': { ...sun, offset: null },
  'a short row': { ...sun, rows: [[401, 61, 1, 0]] },
  'a row without a time': { ...sun, rows: [[null, 61, 1, 0, 0]] },
  'a short compass': { ...sun, compass: ['north'] },
  'no words': { ...sun, texts: {} },
  'nothing in it': null,
})) {
  test(`a card whose sun has ${what} is not kept`, () => {
    assert.equal(cardFault({ ...card, sun: broken }), 'sun');
  });
}
