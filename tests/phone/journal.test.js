import assert from 'node:assert/strict';
import { test } from 'node:test';
import { MOST_BYTES, lineOf, numbered } from '../../src/quarterwalk/phone/journal.js';
import { journalFile } from '../../src/quarterwalk/phone/save.js';
import { DEVICE, JOSS, OPENED, journal } from './made.js';

const said = (kind, body, walk) => ({ device: DEVICE, by: JOSS, at: '2026-06-18T09:41:07.250-05:00', tick: 5, kind, body, walk });

test('an entry that opens a walk carries its own key as the walk', () => {
  assert.equal(numbered(said('walk-opened', OPENED[1]), 397).walk, `${DEVICE}-397`);
});

test('a note without a walk has no walk at all', () => {
  assert.ok(!('walk' in numbered(said('note', { text: 'gate shut' }), 3)));
});

test('an entry is one line, in the order in which the format names its parts', () => {
  const line = lineOf(numbered(said('note', { text: 'one\ntwo' }, 'w'), 3));
  assert.ok(!line.includes('\n'));
  assert.deepEqual(Object.keys(JSON.parse(line)), ['v', 'device', 'seq', 'at', 'tick', 'by', 'walk', 'kind', 'body']);
});

test('an entry larger than the office takes is refused before it is kept', () => {
  const large = numbered(said('note', { text: 'ü'.repeat(MOST_BYTES / 2) }), 3);
  assert.throws(() => lineOf(large), RangeError);
});

test('the journal file holds the lines as they were written', () => {
  const records = journal([OPENED]).map((entry) => ({ line: lineOf(entry) }));
  const { name, text } = journalFile(DEVICE, '2026-07-01', records);
  assert.equal(name, `quarterwalk-${DEVICE}-2026-07-01.ndjson`);
  assert.equal(text, `${records[0].line}\n`);
});
