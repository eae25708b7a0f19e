import assert from 'node:assert/strict';
import { test } from 'node:test';
import { acknowledged, bodyOf, firstBatch, waitAfter } from '../../src/quarterwalk/phone/batch.js';

const records = Array.from({ length: 10 }, (_, i) => ({ device: 'd', seq: i + 1, line: 'ü'.repeat(10) }));

test('a batch holds as many lines as the office takes', () => {
  assert.equal(firstBatch(records, { lines: 4 }).length, 4);
  assert.equal(firstBatch(records).length, 10);
});

test('a batch is counted in bytes, not in letters', () => {
  assert.equal(firstBatch(records, { bytes: 63 }).length, 3);
  assert.equal(firstBatch(records, { bytes: 62 }).length, 2);
});

test('one entry goes even where it is larger than a batch', () => {
  assert.equal(firstBatch(records, { bytes: 1 }).length, 1);
  assert.equal(firstBatch([]).length, 0);
});

test('a batch is written one entry a line', () => assert.equal(bodyOf([{ line: 'a' }, { line: 'b' }]), 'a\nb\n'));

test('each answer is laid to its own entry; what was not answered stays unsent', () => {
  const answers = [
    { device: 'd', seq: 2, answer: 'held' },
    { device: 'd', seq: 1, answer: 'quarantined', why: 'schema' },
    { device: 'x', seq: 3, answer: 'held' },
    { device: 'd', seq: 3, answer: 'later' },
  ];
  assert.deepEqual(acknowledged(records, answers), [
    { device: 'd', seq: 2, answer: 'held' },
    { device: 'd', seq: 1, answer: 'quarantined', why: 'schema' },
  ]);
});

test('an answer without a key is laid to the entry in its place', () => {
  const answers = [{ device: null, seq: null, answer: 'quarantined', why: 'not-json' }];
  assert.equal(acknowledged([records[4]], answers)[0].seq, 5);
  assert.deepEqual(acknowledged(records, answers), []);
});

test('waits grow from five seconds to ten minutes and no further', () => {
  assert.deepEqual([1, 2, 3, 20].map(waitAfter), [5_000, 10_000, 20_000, 600_000]);
});
