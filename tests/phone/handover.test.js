import assert from 'node:assert/strict';
import { test } from 'node:test';
import { foldWalk } from '../../src/quarterwalk/phone/fold.js';
import { begunBy, codeFor, linkTo, readLink } from '../../src/quarterwalk/phone/handover.js';
import { DEVICE, JOSS, OPENED, WALK, card, checked, journal, skipped, walkOf } from './made.js';

const PAGE = 'https://office.example/phone/';
const entries = journal([OPENED, ...walkOf(57), skipped(12, 3), checked(12, 4, { squares: { healthy: 4, missing: 1 } }), ['quadrant-noted', { quadrant: 'NW', lost: 'none' }]]);
const walk = foldWalk(entries, { walk: WALK, device: DEVICE, person: JOSS, card });
const begun = begunBy(walk, 'José Núñez');
const link = linkTo(begun, PAGE);

test('what one phone writes into the link the other reads', () => {
  assert.deepEqual(readLink(link.slice(PAGE.length)), begun);
});

test('the other phone goes on at the same plant with the same sums', () => {
  const there = foldWalk([], { walk: WALK, device: 'c7x4b9v2n6ps', person: 'q4m8x2ry', card, begun: readLink(link.slice(PAGE.length)) });
  assert.deepEqual(there.next, walk.next);
  assert.deepEqual(there.sums, walk.sums);
  assert.deepEqual(there.noted, walk.noted);
});

test('a cut or foreign link is no link', () => {
  const hash = link.slice(PAGE.length);
  for (const bad of ['', '#take=', '#take=%%', hash.slice(0, -9), '#other=1', linkTo({ ...begun, walk: 'x' }, ''), linkTo({ ...begun, sums: [-1] }, ''), linkTo({ ...begun, entries: null }, '')]) {
    assert.equal(readLink(bad), null, bad);
  }
});

test('the code is a square of dark and light that a camera can read from a small screen', () => {
  const { size, rows } = codeFor(link);
  assert.equal(rows.length, size);
  assert.ok(rows.every((row) => row.length === size && row.every((dark) => typeof dark === 'boolean')));
  assert.ok(size <= 101, `${size} squares a side`);
});
