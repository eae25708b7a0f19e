import assert from 'node:assert/strict';
import { test } from 'node:test';
import { DAY } from '../../src/quarterwalk/phone/clock.js';
import { purgeable } from '../../src/quarterwalk/phone/keep.js';

const NOW = 100 * DAY;
const record = (seq, { walk = 'd-1', answer = 'held', days = 31 } = {}) => ({
  device: 'd', seq, walk, ...(answer ? { answer, answeredAt: NOW - days * DAY } : { unsent: 1 }),
});
const newest = record(9, { walk: 'd-9', days: 0 });
const seqs = (records) => purgeable(records, NOW).map(([, seq]) => seq);

test('entries leave 30 days after the office has them', () => {
  assert.deepEqual(seqs([record(1, { days: 30 }), newest]), [1]);
  assert.deepEqual(seqs([record(1, { days: 29 }), newest]), []);
});

test('unsent entries never leave, and their walk stays with them', () => {
  assert.deepEqual(seqs([record(1), record(2, { answer: null }), newest]), []);
});

test('what the office set aside stays', () => {
  assert.deepEqual(seqs([record(1, { answer: 'quarantined' }), newest]), []);
});

test('a device’s last entry stays, for it tells the next number', () => {
  assert.deepEqual(seqs([record(1), record(2)]), [1]);
});
